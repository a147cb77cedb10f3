import { readCosts } from "../../cleaning/costs/read-costs.ts";
import { readProducts } from "../../cleaning/products/read-products.ts";
import { readSettings } from "../../cleaning/side-sheets/read-settings.ts";
import type { CostLine } from "../../records/cost-line.ts";
import { keepSame } from "../../records/is-same.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Product } from "../../records/product.ts";
import type { Settings } from "../../records/setting.ts";
import { settingDefinitions } from "../../records/setting-definitions.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { costCells } from "./cost-sheet-text.ts";
import { deletedRows, type EditedSheet, sourceOf, tableOf } from "./edited-sheet.ts";
import { productCells } from "./product-sheet-text.ts";
import type { SavedBook } from "./saved-book.ts";
import { settingText } from "./settings-sheet-text.ts";

/** A sheet with changes, cleaned again. */
export interface CleanedSheet<T> {
  records: T;
  /** what the cleaning says of it; rows are places in the sheet, from 1 */
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** rows that are not in the money, or in it and doubtful; rows are places in the sheet, from 1 */
  unread: UnreadMoney[];
  /** rows that were read well, as they would be written */
  written: ReadonlyMap<number, string[]>;
}

/** How a sheet of lines is cleaned as it stands. */
export type CleanLines<T> = (saved: SavedBook, edited: EditedSheet, settings: Settings) => CleanedSheet<T[]>;

/** Where a place of a sheet of lines stands in the sheets as read. @param before the lines of the saved book */
export const lineSource =
  (edited: EditedSheet, before: ReadonlyArray<{ source: RowSource }> | undefined) =>
  (row: number): RowSource =>
    sourceOf(edited, row, (place) => before?.[place]?.source);

/** The unread rows of a book with those of a changed sheet: what was said of a row that was changed or deleted goes. */
export function unreadNow(
  before: ReadonlyArray<UnreadMoney>,
  { changed, gone, sheet }: EditedSheet,
  unread: ReadonlyArray<UnreadMoney>,
  sourceAt: (row: number) => RowSource,
): UnreadMoney[] {
  const touched = [...changed.map(({ row }) => row), ...gone].map(sourceAt);
  const isTouched = ({ file, row }: RowSource) => touched.some((source) => source.file === file && source.row === row);
  return [
    ...before.filter((one) => one.sheet !== sheet.name || !isTouched(one.source)),
    ...unread.map((one) => (one.source.row === 0 ? one : { ...one, source: sourceAt(one.source.row) })),
  ];
}

interface ReadLines<T> {
  records: T[];
  issues: Issue[];
  leftOut: LeftOutRow[];
  unread: UnreadMoney[];
}

/** Lines cleaned again, each at the place it came from; those that say what they said stay the records they were. */
function inPlace<T extends { source: RowSource }>(
  edited: EditedSheet,
  before: T[] | undefined,
  { records, issues, leftOut, unread }: ReadLines<T>,
  cellsOf: (record: T) => string[],
): CleanedSheet<T[]> {
  const own = (place: number): RowSource | undefined => before?.[place]?.source;
  const placed = <R extends RowSource>(row: R): R => ({ ...row, ...sourceOf(edited, row.row, own) });
  const saved = new Map(before?.map((record) => [`${record.source.file}\n${record.source.row}`, record]));
  const now = records.map((record) => ({ ...record, source: sourceOf(edited, record.source.row, own) }));
  const was = now.map(({ source }) => saved.get(`${source.file}\n${source.row}`));
  const kept = keepSame(was as T[], now);
  return {
    records: before !== undefined && kept.length === before.length ? keepSame(before, kept) : kept,
    issues,
    unread,
    leftOut: [...leftOut.map(placed), ...deletedRows(edited, own)],
    written: new Map(records.map((record) => [record.source.row, cellsOf(record)])),
  };
}

/** Cost lines of the sheet as it stands with the changes. */
export function cleanedCosts({ book }: SavedBook, edited: EditedSheet, settings: Settings): CleanedSheet<CostLine[]> {
  const { costLines: records, ...read } = readCosts([tableOf("costs.csv", edited, settings)], settings);
  const rated = new Set(read.issues.filter(({ rule }) => rule === "owner-rate").map(({ row }) => row));
  return inPlace(edited, book.costLines, { ...read, records }, (line) => costCells(line, rated.has(line.source.row)));
}

/** Products of the sheet as it stands with the changes. */
export function cleanedProducts({ book }: SavedBook, edited: EditedSheet, settings: Settings): CleanedSheet<Product[]> {
  const { products: records, ...read } = readProducts([tableOf("products.csv", edited, settings)], settings);
  return inPlace(edited, book.products, { ...read, records }, productCells);
}

/** Settings with the changed ones read again; one that cannot be read keeps the saved value. */
export function cleanedSettings({ book }: SavedBook, edited: EditedSheet): CleanedSheet<Settings> {
  // values stand in the sheet with a point, whatever mark the book's other sheets have
  const read = readSettings(tableOf("settings.csv", edited, { decimalMark: "" }), "settings.csv");
  const settings: Settings = { ...book.settings };
  const written = new Map<number, string[]>();
  const isBad = (row: number): boolean =>
    read.issues.some((issue) => issue.row === row && (issue.severity === "error" || issue.severity === "warning"));
  const places = new Map(edited.changed.map(({ row, cells }) => [settingDefinitions[row - 1], { row, cells }]));
  for (const [definition, { row, cells }] of places) {
    if (definition === undefined || isBad(row)) continue;
    Object.assign(settings, { [definition.property]: read.settings[definition.property] });
    written.set(
      row,
      cells.map((cell, column) => (column === 1 ? settingText(definition, settings) : cell)),
    );
  }
  // the decimals follow the currency, as they do when a sheet is read
  const isChanged = (property: keyof Settings) => [...places.keys()].some((one) => one?.property === property);
  if (isChanged("currency") && !isChanged("currencyDecimals")) {
    settings.currencyDecimals = read.settings.currencyDecimals;
  }
  return { records: settings, issues: read.issues, leftOut: [], unread: [], written };
}
