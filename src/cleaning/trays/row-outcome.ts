import { isLoss, type Outcome } from "../../records/tray.ts";
import { worstWordFirst } from "../values/outcome-phrases.ts";
import { isOutcome, type TraySaid } from "../values/outcome-words.ts";

const worstFirst: ReadonlyArray<Outcome> = ["asked", "contaminated", "failed", "discarded", "growing", "good"];

/** The worst of several outcomes; one that is asked about leaves all open. */
export const worstOf = (outcomes: ReadonlyArray<Outcome>): Outcome =>
  worstFirst.find((outcome) => outcomes.includes(outcome)) ?? "growing";

/** What a row says became of its tray. */
export interface RowOutcome {
  /** undefined where other cells have to tell */
  outcome: Outcome | undefined;
  /** a word that leaves it to other cells */
  says?: TraySaid;
  /** two cells that cannot both be right */
  contradicts: boolean;
}

const worstSaid = (words: ReadonlyArray<TraySaid>): TraySaid =>
  worstWordFirst.find((word) => words.includes(word)) ?? "not lost";

/**
 * What one row says became of its tray, from its outcome cell and from words in its other cells.
 * @param typed of the outcome column; @param words of weight and date cells
 */
export function rowOutcome(typed: TraySaid | "asked" | undefined, words: ReadonlyArray<TraySaid>): RowOutcome {
  const settled = (said: TraySaid | undefined): RowOutcome =>
    said === undefined
      ? { outcome: undefined, contradicts: false }
      : isOutcome(said)
        ? { outcome: said, contradicts: false }
        : { outcome: undefined, says: said, contradicts: false };
  if (typed === "asked") return { outcome: "asked", contradicts: false };
  if (words.length === 0) return settled(typed);
  const word = worstSaid(words);
  if (typed === undefined || typed === word) return settled(word);
  if (!isLoss(word)) {
    // "not yet" or "drying" in one cell leaves what the outcome column says
    return typed === "not lost" || typed === "pending" ? settled(word) : settled(typed);
  }
  if (isLoss(typed)) return settled(worstSaid([typed, word]));
  if (typed === "good" || typed === "not lost") return { outcome: "asked", contradicts: true };
  return settled(word);
}
