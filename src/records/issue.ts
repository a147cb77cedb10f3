/**
 * How much an entry of the log matters.
 * `change`: a value was read as something other than what was typed, and the reading is safe.
 * `note`: worth knowing, nothing to do.
 * `warning`: the cell is flagged; its value is left out of the arithmetic that needs it, or is kept but doubtful.
 * `error`: the row, column or file cannot be used until it is corrected.
 */
export type Severity = "change" | "note" | "warning" | "error";

/** One entry of the cleaning log: one change to a value, or one flag on a cell, row, column or file. */
export interface Issue {
  /** the sheet's path inside the book, with the workbook's sheet name after " > " where there is one */
  file: string;
  /** the row number a spreadsheet shows; 0 when the entry is about the whole file or column */
  row: number;
  /** the header as typed; "" when the entry is about a whole row or file */
  column: string;
  /** the tray the row belongs to, where known */
  tray?: string;
  /** the text as typed */
  raw: string;
  /** the value used instead, as text; "" when the cell was left out */
  result: string;
  /** the rule's code, for instance "decimal-comma" */
  rule: string;
  severity: Severity;
  /** why the rule spoke, in plain words that do not repeat the raw text, so that like entries can be grouped */
  reason: string;
  /** what a good cell would look like; "" when nothing was wrong */
  expected: string;
  /** what the grower can do; "" when there is nothing to do */
  action: string;
  /** the key in settings.csv whose answer would resolve this and every entry like it */
  setting?: string;
}

/** A row that takes no part in any answer, kept to be shown with its reason. */
export interface LeftOutRow {
  file: string;
  row: number;
  cells: string[];
  /** the rule's code, for instance "totals-row" */
  rule: string;
  reason: string;
}
