import type { Severity } from "../../records/issue.ts";
import type { Bounds, Outcome } from "../../records/tray.ts";
import type { TraySaid } from "../values/outcome-words.ts";

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
  /** the flush that a tray's name speaks of */
  flush?: number;
  /** what the cell says became of the tray; "asked" where it says two things, or nothing that is known */
  says?: TraySaid | "asked";
  /** so many of the row's trays were lost, and to what */
  lost?: { trays: number; outcome: Outcome };
  /** said with a doubt */
  queried?: boolean;
  /** something was typed that is no value: the tray came so far, but the value is not known */
  unread?: boolean;
  /** the number is of each tray of a pool, not of all together */
  each?: boolean;
  /** a date that still needs its year */
  yearless?: { month: number; day: number }[];
  /** the grower's mark says that the tray is not to count: what is to be said where it was not lost anyway */
  leftOut?: CellRemark;
  remark?: CellRemark;
  /** the reading depends on something the sheet has not been asked yet */
  open?: boolean;
}

/** The fact of a cell with nothing in it. */
export const nothing: CellFact = Object.freeze({});

/** A cell as its column takes it: its value, and its fact where that says anything besides. */
export interface CellReading {
  value: number | string | undefined;
  more: CellFact | undefined;
}

/** Most facts are a value and nothing else, which then need not be asked about the rest. */
export function readingOf(fact: CellFact): CellReading {
  for (const key in fact) if (key !== "value") return { value: fact.value, more: fact };
  return { value: fact.value, more: undefined };
}
