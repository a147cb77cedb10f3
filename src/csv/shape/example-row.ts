import { sheetIssue } from "../sheet-issue.ts";
import { isNothing } from "./cell-kind.ts";
import type { LeftRows } from "./left-rows.ts";

/** What an example row's first cell begins with, such as no tray is named. */
export const exampleMark = "[example]";

/** Whether a row is an example of how to fill in a sheet: its first filled cell begins with the mark. */
export function isExampleRow(cells: ReadonlyArray<string>): boolean {
  const first = cells.find((cell) => !isNothing(cell));
  return first?.trim().toLowerCase().startsWith(exampleMark) === true;
}

/** Leaves an example row out and says so. */
export function leaveExample(left: LeftRows, cells: string[], row: number): void {
  const reason = "example row, left out";
  left.leave(cells, row, "example-row", reason);
  const raw = cells
    .find((cell) => !isNothing(cell))!
    .trim()
    .slice(0, 120);
  const action = `Delete the row; if it is a real tray, take ${exampleMark} out of its name`;
  left.issues.push(sheetIssue({ file: left.file, row, rule: "example-row", severity: "note", raw, reason, action }));
}
