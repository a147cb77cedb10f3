import { isNothing, nameMask } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { ColumnSort, SheetWords } from "./sheet-words.ts";
import { namesSpread, namesSummary } from "./summary-words.ts";
import { isValueLike } from "./value-like.ts";

/** What the shape of a table depends on: which column names trays, which are results, which number flushes. */
export interface TableColumns {
  sorts: (ColumnSort | undefined)[];
  /** -1 where no column names the trays */
  tray: number;
  flush: number;
  /** patterns of the trays' names */
  masks: ReadonlySet<string>;
}

/** Sorts the columns of a header, and learns how trays are called from some rows of data. */
export function tableColumns(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords | undefined,
): TableColumns {
  const sorts = names.map((name) => (name === "" ? undefined : words?.columnSort(name)));
  const tray = sorts.indexOf("tray");
  const counts = new Map<string, number>();
  if (tray >= 0) {
    for (const { cells } of rows) {
      if (words !== undefined && headsPrices(cells, names, words)) break;
      const name = cells[tray]?.trim() ?? "";
      const others = cells.filter((cell, column) => column !== tray && !isNothing(cell)).length;
      const isHeader = name.toLowerCase() === names[tray]!.toLowerCase();
      if (name === "" || isHeader || others === 0 || namesSummary(name) || namesSpread(name)) continue;
      counts.set(nameMask(name), (counts.get(nameMask(name)) ?? 0) + 1);
    }
  }
  // a single other one may be the header of a further table
  const most = Math.max(0, ...counts.values());
  const masks = new Set([...counts].filter(([, count]) => count > 1 || most < 3).map(([mask]) => mask));
  return { sorts, tray, flush: sorts.indexOf("flush"), masks };
}

/** Whether a row of labels heads a list of prices under a table that has none. */
export const headsPrices = (
  cells: ReadonlyArray<string>,
  names: ReadonlyArray<string>,
  { isMoney }: SheetWords,
): boolean =>
  cells.some((cell) => cell !== "" && isMoney(cell)) &&
  cells.filter((cell) => cell.trim() !== "").length >= 2 &&
  !cells.some((cell) => /\d/.test(cell)) &&
  !names.some((name) => isMoney(name));

/** A column without a name whose cells are all different codes, left of all others: the trays' names. */
export function namelessTrays(names: ReadonlyArray<string>, rows: ReadonlyArray<SheetRow>, words: SheetWords): boolean {
  if (names[0] !== "" || names.some((name) => name !== "" && words.columnSort(name) === "tray")) return false;
  const cells = rows.map((row) => row.cells[0]?.trim() ?? "").filter((cell) => cell !== "" && !namesSummary(cell));
  const codes = cells.filter((cell) => isValueLike(cell) && nameMask(cell).length <= 8).length;
  return cells.length >= 2 && codes >= 0.8 * cells.length && new Set(cells).size === cells.length;
}

/** Whether a row has a result, and neither a tray's name nor anything set before the harvest. */
export function isResultOfNone(cells: ReadonlyArray<string>, { tray, sorts }: TableColumns): boolean {
  if (tray < 0 || !isNothing(cells[tray] ?? "")) return false;
  let results = 0;
  for (let column = 0; column < sorts.length; column++) {
    if (isNothing(cells[column] ?? "")) continue;
    if (sorts[column] === "set" || sorts[column] === "flush") return false;
    if (sorts[column] === "result" && /\d/.test(cells[column]!)) results++;
  }
  return results > 0;
}
