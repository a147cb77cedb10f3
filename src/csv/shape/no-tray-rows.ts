import { logEntry } from "../../records/log-entry.ts";
import type { ListRole } from "../../records/sheet.ts";
import { isNothing } from "./cell-kind.ts";
import { findHeader } from "./find-header.ts";
import { firstRows, type Grid, rowsOfGrid, type SheetRow } from "./grid.ts";
import type { LeftRows } from "./left-rows.ts";
import type { SheetWords } from "./sheet-words.ts";
import { isValueLike } from "./value-like.ts";

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
  left.issues.push(logEntry({ file: left.file, row, rule: "example-row", severity: "note", raw, reason, action }));
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

const filledOf = (cells: ReadonlyArray<string>): string[] => cells.filter((cell) => !isNothing(cell));

/** What a title that stands alone in its row says of a list below it, and from which column on that lies. */
export function titleOfList(cells: ReadonlyArray<string>, words: SheetWords) {
  const [title, second] = filledOf(cells);
  const list = title === undefined || second !== undefined ? undefined : words.listUnder(title.trim());
  return list === undefined ? undefined : { ...list, column: cells.indexOf(title!) };
}

/** Whether a row is a thing and its price, and little more: "rice", "31.00", "25 kg". */
export function isPriced(cells: ReadonlyArray<string>): boolean {
  const [thing = "", price = "", ...more] = filledOf(cells);
  return /\p{L}{2}/u.test(thing) && /^[^\p{L}\d]*(?:\p{L}{1,3}\W?)?\s?\d/u.test(price) && more.length <= 3;
}

/** Whether a row can only be the header of trays: it names trays and something known of them, and holds no value. */
function headsTrays(cells: ReadonlyArray<string>, words: SheetWords): boolean {
  const names = cells.filter((cell) => cell.trim() !== "");
  if (names.some(isValueLike)) return false;
  const sorts = names.map((name) => words.columnSort(name, true));
  return sorts.includes("tray") && (sorts.includes("result") || sorts.includes("set"));
}

/** Whether names are those of things and their prices, and of nothing known of trays. */
const namesPrices = (names: ReadonlyArray<string>, words: SheetWords): boolean =>
  names.length >= 2 && names.some(words.isMoney) && names.every((name) => words.columnSort(name, true) === undefined);

const rowsLookedAt = 400;

/** A list of no trays, such as costs or settings, at the top of a grid; and the row where trays or another list begin below it. @param isBelow whether a table of trays stands above */
export function otherListOf(
  grid: Grid,
  words: SheetWords,
  isBelow: boolean,
): { list: Grid; role: ListRole | undefined; end: number | undefined } | undefined {
  const sample = firstRows(grid.forEachRecord, rowsLookedAt);
  const [first, second] = sample;
  if (first === undefined) return undefined;
  const title = titleOfList(first.cells, words);
  const isNameless = title !== undefined && second !== undefined && isPriced(second.cells);
  const header = isNameless ? [] : (findHeader(sample)?.names ?? []);
  const isHeaded = words.isOtherList(header);
  const isOfPrices = (isBelow || title !== undefined) && namesPrices(header, words);
  if (!isNameless && !isHeaded && !isOfPrices) return undefined;
  const begins = ({ cells, row }: SheetRow): boolean =>
    row > first.row && (headsTrays(cells, words) || titleOfList(cells, words) !== undefined);
  const end = sample.find(begins)?.row;
  const list = rowsOfGrid(grid, 1, end ?? Number.MAX_SAFE_INTEGER);
  if (!isNameless) return { list, role: title?.role ?? (isHeaded ? undefined : "costs"), end };
  const { names, column, role } = title;
  const named: Grid = {
    ...list,
    forEachRecord: (visit) =>
      list.forEachRecord((cells, row, unclosed) =>
        visit(row === first.row ? [...names] : cells.slice(column), row, unclosed),
      ),
  };
  return { list: named, role, end };
}
