import type { Book } from "../../records/book.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { RowSource, Tray } from "../../records/tray.ts";
import { type CellFinding, findingOf } from "../sheet/cell-finding.ts";
import { editedCosts, editedProducts, editedSettings } from "./edited-lines.ts";
import { editedTrays } from "./edited-trays.ts";
import { cellKey, type Edits, type SheetName } from "./live-sheet.ts";
import type { ChangedRow } from "./rows-to-read.ts";
import type { SavedBook } from "./saved-book.ts";

/** A book with changes in it, read by the rules every sheet is read by. */
export interface EditedBook {
  book: Book;
  /** what is said of changed cells, by `cellKey` */
  findings: ReadonlyMap<string, CellFinding>;
  /** changed cells that were read well, as they would be written */
  written: ReadonlyMap<string, string>;
}

/** The changes of one sheet by row, in the order of the sheet: rows of its own, and added ones that hold something. */
function changedRows({ sheets }: SavedBook, edits: Edits, name: SheetName): ChangedRow[] {
  const own = sheets[name]?.rows ?? [];
  const most = own.length + (edits.added[name] ?? 0);
  const gone = deletedRows(edits, name);
  const rows = new Map<number, Map<number, string>>();
  for (const { sheet, row, column, text } of edits.cells) {
    const isEmpty = row >= own.length && text.trim() === "";
    if (sheet !== name || row < 0 || row >= most || gone.has(row) || isEmpty) continue;
    const typed = rows.get(row) ?? new Map<number, string>();
    rows.set(row, typed.set(column, text));
  }
  return [...rows].sort(([a], [b]) => a - b).map(([row, typed]) => ({ row, cells: own[row] ?? [], typed }));
}

const deletedRows = ({ deleted }: Edits, name: SheetName): ReadonlySet<number> =>
  new Set(deleted.filter(({ sheet }) => sheet === name).map(({ row }) => row));

/** A sheet's own rows that were deleted, as rows left out. */
function leftOutRows(
  { sheets }: SavedBook,
  name: SheetName,
  gone: ReadonlySet<number>,
  sourceOf: (row: number) => RowSource | undefined,
): LeftOutRow[] {
  return [...gone]
    .sort((a, b) => a - b)
    .flatMap((row) => {
      const [cells, source] = [sheets[name]?.rows[row], sourceOf(row)];
      if (cells === undefined || source === undefined) return [];
      return [{ ...source, cells, rule: "row-deleted", reason: "deleted in the report" }];
    });
}

const sourceIn = (records: ReadonlyArray<{ source: RowSource }> | undefined, row: number): RowSource | undefined =>
  records?.[row]?.source;

/** Where a row of the tray sheet came from. */
function traySource({ book, sheets, rowsOfTray }: SavedBook, row: number): RowSource | undefined {
  const id = sheets.trays?.rows[row]?.[0] ?? "";
  const sources = book.trays.find(({ trayId }) => trayId === id)?.sources;
  return sources?.[rowsOfTray.get(id)!.indexOf(row)] ?? sources?.[0];
}

/** settings that decide which trays are flagged */
const flagging: ReadonlyArray<keyof Settings> = [
  ...(["dryingRatioLow", "dryingRatioHigh", "colonisationDaysLow", "colonisationDaysHigh", "harvestDaysLow"] as const),
  ...(["harvestDaysHigh", "fruitingLowCelsius", "fruitingHighCelsius", "outlierZ"] as const),
];

/** The rows of trays set aside, with the reason given. */
function setAside(trays: ReadonlyArray<Tray>, { aside }: Edits): LeftOutRow[] {
  const reasons = new Map(aside.map(({ tray, reason }) => [tray, reason]));
  return trays.flatMap(({ trayId, sources }) => {
    const reason = reasons.get(trayId);
    const [source] = sources;
    if (reason === undefined || source === undefined) return [];
    return [{ ...source, cells: [trayId], rule: "set-aside", reason: `set aside in the report: ${reason}` }];
  });
}

/**
 * A saved book with changes. Rows that were not changed keep the records they had; changed ones are read again as if they
 * stood in a sheet, and a row that cannot be used is left out, as it would be there. No edit gives the saved book.
 */
export function editedBook(saved: SavedBook, edits: Edits): EditedBook {
  const book: Book = { ...saved.book };
  const findings = new Map<string, CellFinding>();
  const written = new Map<string, string>();
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];

  const note = (
    name: SheetName,
    changed: ReadonlyArray<ChangedRow>,
    said: ReadonlyArray<Issue>,
    rows?: ReadonlyMap<number, string[]>,
  ) => {
    const columns = saved.sheets[name]!.columns;
    for (const { row, typed } of changed) {
      const about = said.filter((issue) => issue.row === row);
      for (const column of typed.keys()) {
        const own = about.filter(
          (issue) => issue.column === columns[column]!.key || (name === "settings" && column === 1),
        );
        const worst =
          own.find(({ severity }) => severity === "error") ??
          own.find(({ severity }) => severity === "warning") ??
          own[0];
        if (worst !== undefined) findings.set(cellKey(name, row, column), findingOf(worst));
        const isRead = worst === undefined || (worst.severity !== "error" && worst.severity !== "warning");
        const text = rows?.get(row)?.[column];
        if (isRead && text !== undefined) written.set(cellKey(name, row, column), text);
      }
      // what is wrong with the row at a cell nobody changed is told at the first changed one
      const elsewhere = about.find(
        ({ severity, column }) =>
          (severity === "error" || severity === "warning") &&
          ![...typed.keys()].some((index) => columns[index]!.key === column),
      );
      const [first] = typed.keys();
      if (elsewhere !== undefined && first !== undefined && !findings.has(cellKey(name, row, first))) {
        findings.set(cellKey(name, row, first), findingOf(elsewhere));
      }
    }
  };

  const settingRows = changedRows(saved, edits, "settings");
  if (settingRows.length > 0) {
    const read = editedSettings(saved.book, saved.sheets.settings!, settingRows);
    book.settings = read.records;
    note("settings", settingRows, read.issues, read.written);
  }
  const costRows = changedRows(saved, edits, "costs");
  const goneCosts = deletedRows(edits, "costs");
  const costs = editedCosts(saved, costRows, goneCosts, book.settings);
  if (costs !== undefined) {
    book.costLines = costs.records;
    issues.push(...costs.issues);
    leftOut.push(
      ...costs.leftOut,
      ...leftOutRows(saved, "costs", goneCosts, (row) => sourceIn(saved.book.costLines, row)),
    );
    note("costs", costRows, costs.issues, costs.written);
  }
  const productRows = changedRows(saved, edits, "products");
  const goneProducts = deletedRows(edits, "products");
  const products = editedProducts(saved, productRows, goneProducts, book.settings);
  if (products !== undefined) {
    book.products = products.records;
    issues.push(...products.issues);
    leftOut.push(
      ...products.leftOut,
      ...leftOutRows(saved, "products", goneProducts, (row) => sourceIn(saved.book.products, row)),
    );
    note("products", productRows, products.issues, products.written);
  }
  const trayRows = changedRows(saved, edits, "trays");
  const goneTrays = deletedRows(edits, "trays");
  const isCheckedAnew = flagging.some((property) => book.settings[property] !== saved.book.settings[property]);
  if (trayRows.length + goneTrays.size > 0 || isCheckedAnew) {
    const read = editedTrays(saved, trayRows, goneTrays, book.settings);
    book.trays = read.trays;
    book.issues = read.issues;
    leftOut.push(...leftOutRows(saved, "trays", goneTrays, (row) => traySource(saved, row)));
    note("trays", trayRows, read.fresh);
  }
  const aside = setAside(book.trays, edits);
  if (aside.length > 0) {
    const gone = new Set(edits.aside.map(({ tray }) => tray));
    book.trays = book.trays.filter(({ trayId }) => !gone.has(trayId));
  }
  if (issues.length > 0) book.issues = [...book.issues, ...issues];
  if (leftOut.length + aside.length > 0) book.leftOut = [...saved.book.leftOut, ...leftOut, ...aside];
  return { book, findings, written };
}
