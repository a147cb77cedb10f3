import type { Outcome } from "../../records/tray.ts";

/** Worse news first. */
const worstFirst: ReadonlyArray<Outcome> = ["contaminated", "failed", "discarded", "growing", "good"];

/** The worst of several outcomes. */
export const worstOf = (outcomes: ReadonlyArray<Outcome>): Outcome =>
  worstFirst.find((outcome) => outcomes.includes(outcome)) ?? "growing";

/**
 * What one row says became of its tray, from its outcome cell and from outcome words in its other cells.
 * @param typed of the outcome column; @param words of weight and date cells, at least one
 * @returns contradicts: whether they cannot both be true; the worse one is taken then
 */
export function rowOutcome(
  typed: Outcome | undefined,
  words: ReadonlyArray<Outcome>,
): { outcome: Outcome; contradicts: boolean } {
  const word = worstOf(words);
  if (typed === undefined || typed === word) return { outcome: word, contradicts: false };
  // "not yet" in one cell leaves what the outcome column says; a lost tray's cells may give the loss in other words
  if (word === "growing") return { outcome: typed, contradicts: false };
  if (typed === "contaminated" || typed === "failed" || typed === "discarded") {
    return { outcome: worstOf([typed, word]), contradicts: false };
  }
  return { outcome: word, contradicts: typed === "good" };
}
