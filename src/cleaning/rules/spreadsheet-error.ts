import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const errors = /^#(REF|DIV\/0|VALUE|NAME|NUM|NULL|N\/A|SPILL|CALC|GETTING_DATA|FIELD|BUSY|CONNECT|UNKNOWN)[!?]?$/i;
const freeOfficeErrors = /^Err:\d{3}$/i;

/** Whether a cell is what a spreadsheet shows for a broken formula, or a column too narrow to print. */
export const isSpreadsheetError = (text: string): boolean =>
  errors.test(text) || freeOfficeErrors.test(text) || /^#{2,}$/.test(text);

/** A broken formula's message is no number. */
export const spreadsheetError: CleaningRule = {
  code: "spreadsheet-error",
  kinds: "every kind",
  apply: (text) =>
    isSpreadsheetError(text)
      ? unreadable("the number the formula should have given", "a spreadsheet's error, not a value")
      : keep,
};
