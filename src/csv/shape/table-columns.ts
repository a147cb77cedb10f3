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
  // most rows have a number, which is quicker to see than a price
  !cells.some((cell) => /\d/.test(cell)) &&
  cells.some((cell) => cell !== "" && isMoney(cell)) &&
  cells.filter((cell) => cell.trim() !== "").length >= 2 &&
  !names.some((name) => isMoney(name));

/** A column without a name whose cells are all different codes, left of all others: the trays' names. */
export function namelessTrays(names: ReadonlyArray<string>, rows: ReadonlyArray<SheetRow>, words: SheetWords): boolean {
  if (names[0] !== "" || names.some((name) => name !== "" && words.columnSort(name) === "tray")) return false;
  const cells = rows.map((row) => row.cells[0]?.trim() ?? "").filter((cell) => cell !== "" && !namesSummary(cell));
  // "T1", "Tray 1"
  const isCalled = (cell: string): boolean =>
    words.columnSort(/^(\p{L}+)[\s._#-]*\d+$/u.exec(cell)?.[1] ?? "", true) === "tray";
  const codes = cells.filter((cell) => (isValueLike(cell) && nameMask(cell).length <= 8) || isCalled(cell)).length;
  return cells.length >= 2 && codes >= 0.8 * cells.length && new Set(cells).size === cells.length;
}

/** Whether a row has something that was set before the harvest. */
const isSet = (cells: ReadonlyArray<string>, { sorts }: TableColumns): boolean =>
  sorts.some((sort, column) => sort === "set" && !isNothing(cells[column] ?? ""));

/** Whether a row with nothing set before the harvest has a number for a result, and a name that no tray of a numbered lot has. */
function isNamedOddly(cells: ReadonlyArray<string>, columns: TableColumns): boolean {
  const { tray, sorts, masks } = columns;
  const name = cells[tray]?.trim() ?? "";
  if (tray < 0 || isNothing(name) || !sorts.includes("set")) return false;
  if (/\d/.test(name) && /^[\p{L}\d#]/u.test(name) && masks.has(nameMask(name))) return false;
  return sorts.some((sort, column) => sort === "result" && /\d/.test(cells[column] ?? ""));
}

/** Whether a row with nothing set before the harvest has a result, and no tray's name. */
function isResultOfNone(cells: ReadonlyArray<string>, { tray, sorts }: TableColumns): boolean {
  if (tray < 0 || !isNothing(cells[tray] ?? "")) return false;
  let results = 0;
  for (let column = 0; column < sorts.length; column++) {
    if (isNothing(cells[column] ?? "")) continue;
    if (sorts[column] === "flush") return false;
    if (sorts[column] === "result" && /\d/.test(cells[column]!)) results++;
  }
  return results > 0;
}

/** Rows that may be no tray's: without a name, or named unlike the others; and with nothing set for a tray. */
export class SuspectRows {
  private readonly rows: { row: number; cells: string[]; isNameless: boolean }[] = [];
  /** rows with something set for a tray, those of them with a number in the name, and rows with a name only */
  private setRows = 0;
  private numberedRows = 0;
  private bareRows = 0;

  constructor(
    private readonly columns: TableColumns,
    private readonly most: number,
  ) {}

  look(cells: string[], row: number): void {
    const { columns, rows } = this;
    if (isSet(cells, columns)) {
      this.setRows++;
      if (/\d/.test(cells[columns.tray] ?? "")) this.numberedRows++;
      return;
    }
    const isNameless = isResultOfNone(cells, columns);
    if (!isNameless) this.bareRows++;
    if (rows.length < this.most && (isNameless || isNamedOddly(cells, columns)))
      rows.push({ row, cells: [...cells], isNameless });
  }

  /** Those without a name; and where every other row has a number in its name and something set, those named unlike them. */
  found(): ReadonlyArray<{ row: number; cells: string[]; isNameless: boolean }> {
    const { rows } = this;
    const named = rows.filter(({ isNameless }) => !isNameless).length;
    const areOthersPlain = this.setRows >= 2 && this.numberedRows === this.setRows && this.bareRows === named;
    return areOthersPlain ? rows : rows.filter(({ isNameless }) => isNameless);
  }
}

/** What is said of a row that was left out as no tray's. @param arePicks such rows may be further picks of the trays above */
export function whyNoTray(
  isNameless: boolean,
  arePicks: boolean,
): Record<"reason" | "expected" | "action" | "setting", string> {
  const keep = "or state summary_rows = keep in settings.csv";
  if (!isNameless)
    return {
      reason:
        "the row is named unlike the trays and has nothing set for one (a dose, say), so it may be a total or an aim; it was left out",
      expected: "what was set for the tray",
      action: `If it is a tray, fill in what was set for it, ${keep}`,
      setting: "summary_rows",
    };
  const expected = "the tray's name";
  if (arePicks)
    return {
      reason: "the row names no tray: a further pick of the one above, or a tray without a name; it was left out",
      expected,
      action: "Name the tray in the row, or state fill_down = yes in settings.csv if it is a pick of the tray above",
      setting: "fill_down",
    };
  return {
    reason: "the row names neither a tray nor anything set for one, so it may be a total; it was left out",
    expected,
    action: `Name the tray in the row, ${keep}`,
    setting: "summary_rows",
  };
}
