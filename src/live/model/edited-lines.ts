import { readCosts } from "../../cleaning/side-sheets/read-costs.ts";
import { readProducts } from "../../cleaning/side-sheets/read-products.ts";
import { readSettings } from "../../cleaning/side-sheets/read-settings.ts";
import type { Book } from "../../records/book.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Product } from "../../records/product.ts";
import { type Settings, settingDefinitions } from "../../records/setting.ts";
import { costCells, takesOwnerRate } from "./cost-sheet-text.ts";
import type { LiveSheet } from "./live-sheet.ts";
import { productCells } from "./product-sheet-text.ts";
import { addedFile, type ChangedRow, rowsToRead } from "./rows-to-read.ts";
import type { SavedBook } from "./saved-book.ts";
import { settingText } from "./settings-sheet-text.ts";

/** A sheet read again where it was changed. */
export interface Reread<T> {
  records: T;
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** rows that were read well, as they would be written */
  written: ReadonlyMap<number, string[]>;
}

/** Lines of which some were read again and some deleted: the rest stay the records they were, added ones come last. */
function inPlace<T extends { source: { row: number } }>(
  before: ReadonlyArray<T>,
  changed: ReadonlyArray<ChangedRow>,
  gone: ReadonlySet<number>,
  read: T[],
): T[] {
  const again = new Map(changed.map(({ row }) => [row, undefined as T | undefined]));
  for (const record of read) again.set(record.source.row, record);
  const kept = before.flatMap((record, row) => {
    if (gone.has(row)) return [];
    if (!again.has(row)) return [record];
    const now = again.get(row);
    return now === undefined ? [] : [{ ...now, source: record.source }];
  });
  const added = read
    .filter(({ source }) => source.row >= before.length)
    .map((record) => ({ ...record, source: { file: addedFile, row: record.source.row - before.length + 1 } }));
  return [...kept, ...added];
}

/** Cost lines with the changed rows read again, and the lines priced at the owner's rate where that rate changed. */
export function editedCosts(
  { book, sheets }: SavedBook,
  changed: ReadonlyArray<ChangedRow>,
  gone: ReadonlySet<number>,
  settings: Settings,
): Reread<CostLine[]> | undefined {
  const sheet = sheets.costs;
  if (sheet === undefined || book.costLines === undefined) return undefined;
  const touched = new Set([...changed.map(({ row }) => row), ...gone]);
  const byRate = book.costLines.flatMap((line, row): ChangedRow[] =>
    touched.has(row) || settings.ownerLabourRate === book.settings.ownerLabourRate || !takesOwnerRate(line, book.issues)
      ? []
      : [{ row, cells: sheet.rows[row]!, typed: new Map() }],
  );
  const rows = [...changed, ...byRate];
  if (rows.length + gone.size === 0) return undefined;
  const read = readCosts([rowsToRead("costs.csv", sheet.columns, rows, settings)], settings);
  const rated = new Set(read.issues.filter(({ rule }) => rule === "owner-rate").map(({ row }) => row));
  return {
    records: inPlace(book.costLines, rows, gone, read.costLines),
    issues: read.issues,
    leftOut: read.leftOut,
    written: new Map(read.costLines.map((line) => [line.source.row, costCells(line, rated.has(line.source.row))])),
  };
}

/** Products with the changed rows read again and deleted ones left out. */
export function editedProducts(
  { book, sheets }: SavedBook,
  changed: ReadonlyArray<ChangedRow>,
  gone: ReadonlySet<number>,
  settings: Settings,
): Reread<Product[]> | undefined {
  const sheet = sheets.products;
  if (sheet === undefined || book.products === undefined || changed.length + gone.size === 0) return undefined;
  const read = readProducts([rowsToRead("products.csv", sheet.columns, changed, settings)], settings);
  return {
    records: inPlace(book.products, changed, gone, read.products),
    issues: read.issues,
    leftOut: read.leftOut,
    written: new Map(read.products.map((product) => [product.source.row, productCells(product)])),
  };
}

/** Settings with the changed rows read again; one that cannot be read keeps the saved value. */
export function editedSettings(book: Book, sheet: LiveSheet, changed: ReadonlyArray<ChangedRow>): Reread<Settings> {
  const plain: Pick<Settings, "decimalMark"> = { decimalMark: "" };
  // a changed value is read by the conventions the book has: those stand in the sheet beside it
  const conventions: ReadonlyArray<keyof Settings> = ["decimalMark", "percentStyle", "dateOrder", "currency"];
  const touched = new Set(changed.map(({ row }) => row));
  const beside = settingDefinitions.flatMap(({ property }, row): ChangedRow[] =>
    conventions.includes(property) && !touched.has(row) && sheet.rows[row]![1] !== ""
      ? [{ row, cells: sheet.rows[row]!, typed: new Map() }]
      : [],
  );
  const read = readSettings(rowsToRead("settings.csv", sheet.columns, [...changed, ...beside], plain), "settings.csv");
  const settings: Settings = { ...book.settings };
  const written = new Map<number, string[]>();
  const bad = new Set(
    read.issues.filter(({ severity }) => severity === "error" || severity === "warning").map((i) => i.row),
  );
  for (const { row } of changed) {
    const definition = settingDefinitions[row];
    if (definition === undefined || bad.has(row)) continue;
    Object.assign(settings, { [definition.property]: read.settings[definition.property] });
    // the decimals follow the currency, as they do when a sheet is read
    const decimals = settingDefinitions.findIndex(({ property }) => property === "currencyDecimals");
    if (definition.property === "currency" && !touched.has(decimals)) {
      settings.currencyDecimals = read.settings.currencyDecimals;
    }
    const cells = [...sheet.rows[row]!];
    cells[1] = settingText(definition, settings);
    written.set(row, cells);
  }
  return { records: settings, issues: read.issues, leftOut: [], written };
}
