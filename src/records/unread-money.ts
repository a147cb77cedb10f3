import type { CostLine } from "./cost-line.ts";
import type { RowSource } from "./tray.ts";

/**
 * A row of costs.csv, products.csv or settings.csv that is not in the money, or is in it and doubtful. What such a row could move must
 * say that it is missing.
 */
export interface UnreadMoney {
  sheet: "costs" | "products" | "settings";
  /** the item or product as typed; "row 12" where it has no name; the file where none of it could be read */
  name: string;
  /** what was wrong, in plain words without a full stop */
  reason: string;
  source: RowSource;
  /** read and counted, but not for certain */
  inUse: boolean;
  /** the line as it could be; absent where nothing in the book tells its size */
  guess?: CostLine;
  /** what the guess rests on: "its price before, 60" */
  guessedFrom?: string;
  /** money that came back, or may be: costs look higher without it */
  cameBack?: "sure" | "perhaps";
  /** what the row is certainly for, where that can be read */
  per?: CostLine["per"];
}
