import type { Severity } from "../../records/issue.ts";
import type { Bounds, Outcome } from "../../records/tray.ts";

/** What is to be said about a cell, apart from where it stands. */
export interface CellRemark {
  rule: string;
  severity: Severity;
  reason: string;
  /** the value used instead, as text; "" when the cell is left out */
  result: string;
  expected: string;
  action: string;
  /** the key in settings.csv that would resolve it */
  setting?: string;
}

/** What one cell adds to its tray. A cell that is left out adds only a remark; a blank one nothing. */
export interface CellFact {
  value?: number | string;
  bounds?: Bounds;
  /** trays that the value stands for together */
  pool?: number;
  outcome?: Outcome;
  /** a date that still needs its year */
  yearless?: { month: number; day: number }[];
  remark?: CellRemark;
  /** the reading hangs on something the sheet has not been asked yet */
  open?: boolean;
}

/** The fact of a cell with nothing in it. */
export const nothing: CellFact = Object.freeze({});
