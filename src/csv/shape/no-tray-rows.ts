import { sheetIssue } from "../sheet-issue.ts";
import { isNothing } from "./cell-kind.ts";
import type { LeftRows } from "./left-rows.ts";

/** What an example row's first cell begins with, such as no tray is named. */
export const exampleMark = "[example]";

/** "e.g. T1" and the word for an example in the eight languages; from memory. */
const example =
  /^(?:(?:e\.\s?g\.|z\.\s?b\.|p\.\s?ex\.|p\.\s?ej\.|p\.\s?es\.|bijv\.|bv\.|np\.)\s*\S.*|\(?(?:example|beispiel|exemple|ejemplo|esempio|voorbeeld|przykład|exemplo)\)?:?)$/;

/** Whether a row is an example of how to fill in a sheet: its first filled cell begins with the mark, or says so. */
export function isExampleRow(cells: ReadonlyArray<string>): boolean {
  const cell = cells.find((one) => !isNothing(one));
  // most names do not begin like one of these
  if (cell === undefined || !/^[\s[(ezpbnv]/i.test(cell)) return false;
  const first = cell.trim().toLowerCase();
  return first.startsWith(exampleMark) || example.test(first);
}

/** Leaves an example row out and says so. */
export function leaveExample(left: LeftRows, cells: string[], row: number): void {
  const reason = "example row, left out";
  left.leave(cells, row, "example-row", reason);
  const raw = cells
    .find((cell) => !isNothing(cell))!
    .trim()
    .slice(0, 120);
  const action = "Delete the row; if it is a real tray, give it a name that is no word for an example";
  left.issues.push(sheetIssue({ file: left.file, row, rule: "example-row", severity: "note", raw, reason, action }));
}
