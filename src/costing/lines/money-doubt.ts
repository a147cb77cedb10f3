import type { CostLine } from "../../records/cost-line.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";

/** A cost line or product that is missing from the money, in it in part, or doubtful. */
export interface MoneyDoubt {
  name: string;
  /** in plain words without a full stop */
  reason: string;
  source: RowSource;
  effect: "left out" | "in part" | "doubtful";
  /** "products": it belongs to units sold, and the cost of a tray or gram is whole without it */
  moves: "every cost" | "products";
  /** trays it is not counted for, where it is in part */
  trays?: number;
  /** what to record of the trays, where the line itself is in order */
  record?: string;
  /** money that came back, or may be: costs look higher without it */
  cameBack?: UnreadMoney["cameBack"];
  /** the line as it could be, and what that rests on */
  guess?: CostLine;
  guessedFrom?: string;
}

/** What a row that could not be read means for the money. */
export function doubtOfUnread({
  sheet,
  name,
  reason,
  source,
  inUse,
  guess,
  guessedFrom,
  cameBack,
  per,
}: UnreadMoney): MoneyDoubt {
  return {
    name,
    reason,
    source,
    effect: inUse ? "doubtful" : "left out",
    moves: sheet === "products" || per === "unit sold" ? "products" : "every cost",
    ...(cameBack === undefined ? {} : { cameBack }),
    ...(guess === undefined ? {} : { guess }),
    ...(guessedFrom === undefined ? {} : { guessedFrom }),
  };
}

/** What a line that cannot be counted, or not for all its trays, means for the money. */
export const doubtOfLine = (
  line: CostLine,
  reason: string,
  effect: MoneyDoubt["effect"],
  more: Pick<MoneyDoubt, "trays" | "record"> = {},
): MoneyDoubt => ({
  name: line.item,
  reason,
  source: line.source,
  effect,
  moves: line.per === "unit sold" ? "products" : "every cost",
  ...more,
});
