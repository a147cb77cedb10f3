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

// Words of programs that print or export a sheet, in the eight languages; from memory.
const printed =
  /^(?:printed|exported|gedruckt|druckdatum|imprim[ée]e?|impreso|stampato|afgedrukt|wydrukowano|impresso)(?!\p{L})(?=.{0,60}$)/iu;
const page =
  /^(?:page|seite|página|pagina|strona|pg\.?)(?:\s*\d{1,3})?(?:\s*(?:of|von|sur|de|di|van|z|\/)\s*\d{1,3})?$/iu;
const rest =
  /^(?:(?:of|von|sur|de|di|van|z|\/)\s*\d{1,3}|\d{1,4}[./-]\d{1,2}[./-]\d{1,4}.{0,12}|\d{1,2}:\d{2}.{0,6})$/iu;

/** Whether a row is what a program prints on each page: "Printed 02/03/2026", "Page 1 of 2", in one cell or several. */
export function isPrintLine(cells: ReadonlyArray<string>): boolean {
  const first = cells.find((cell) => !isNothing(cell))?.trim() ?? "";
  // most names have a digit or a mark behind their first letter, which none of these words has
  const second = first.charCodeAt(1);
  if (second < 65 || (!printed.test(first) && !page.test(first))) return false;
  const others = cells.flatMap((cell) => (isNothing(cell) ? [] : [cell.trim()])).slice(1);
  const isBare = !/\d/.test(first);
  return (
    (others.length > 0 || !isBare) &&
    others.every(
      (cell, at) =>
        printed.test(cell) ||
        page.test(cell) ||
        rest.test(cell) ||
        (at === 0 && isBare && /^\d{1,2}$/.test(cell) && others.length > 1),
    )
  );
}
