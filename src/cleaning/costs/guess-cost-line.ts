import type { CostLine } from "../../records/cost-line.ts";
import { nameKey } from "../../records/name-key.ts";
import { type CostDraft, neededOfLine } from "./read-cost-row.ts";

/** The line of the same thing that tells most about one that could not be read: of the same base, the latest before it. */
function lineBefore(draft: CostDraft, lines: ReadonlyArray<CostLine>): CostLine | undefined {
  const same = lines.filter(({ item, per }) => nameKey(item) === nameKey(draft.item) && per === (draft.per ?? per));
  const sameTrays = same.filter(({ onlyWhereValue }) => onlyWhereValue === draft.onlyWhereValue);
  const dated = (sameTrays.length > 0 ? sameTrays : same).toSorted((a, b) =>
    (a.fromDate ?? "").localeCompare(b.fromDate ?? ""),
  );
  return dated.findLast(({ fromDate = "" }) => fromDate <= (draft.fromDate ?? fromDate)) ?? dated.at(-1);
}

/** The kind a line may have where its word is not known: one that lasts is reusable, the rest is used up. */
const kindOf = ({ uses, lifeYears }: CostDraft): CostLine["kind"] =>
  uses === undefined && lifeYears === undefined ? "consumable" : "reusable";

/**
 * The line a row of costs.csv could be, although something in it is wrong: what is missing comes from the same item's
 * other price in the book; a salvage above the price is left off and a thing that always breaks is used once, which is
 * the most either can cost.
 * @returns undefined where nothing in the book tells the line's size
 */
export function guessCostLine(
  draft: CostDraft,
  lines: ReadonlyArray<CostLine>,
): { guess: CostLine; guessedFrom: string } | undefined {
  if (draft.item === "") return undefined;
  const before = lineBefore(draft, lines);
  const withKind: CostDraft =
    draft.kind === undefined && before === undefined ? { ...draft, kind: kindOf(draft) } : draft;
  const missing = neededOfLine.filter((key) => withKind[key] === undefined);
  if (missing.length > 0 && before === undefined) return undefined;
  const filled = Object.fromEntries(missing.map((key) => [key, before![key]]));
  // an amount and its pack are of one unit, so one is not taken from elsewhere without the other
  const pack =
    missing.includes("packSize") || missing.includes("amount")
      ? { packSize: before!.packSize, packUnit: before!.packUnit, amount: before!.amount }
      : {};
  const guess = { ...withKind, ...filled, ...pack } as CostLine;
  const said: string[] = [];
  if (missing.length > 0) said.push(`its other line in the book, row ${before!.source.row}`);
  if (draft.kind === undefined && missing.length === 0) said.push("the rest of its row");
  if ((guess.salvage ?? 0) > guess.packPrice) {
    delete guess.salvage;
    said.push("nothing recovered at its end");
  }
  if ((guess.breakage ?? 0) >= 1) {
    delete guess.breakage;
    Object.assign(guess, { uses: 1 });
    said.push("one use each");
  }
  if (guess.kind === "reusable" && guess.uses === undefined && guess.lifeYears === undefined) return undefined;
  return said.length === 0 ? { guess, guessedFrom: "the rest of its row" } : { guess, guessedFrom: said.join(" and ") };
}
