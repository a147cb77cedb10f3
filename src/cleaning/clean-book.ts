import type { Book, ColumnReading } from "../records/book.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import type { Settings } from "../records/setting.ts";
import type { RawTable, SheetSource, TemperatureReading } from "../records/sheet.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { type BookTables, openBookSheets } from "./open-book-sheets.ts";
import { checkTrays } from "./plausibility/check-trays.ts";
import { type HarvestTable, readHarvestTable } from "./rows/read-harvest-table.ts";
import { readColumnPins } from "./side-sheets/read-column-pins.ts";
import { readCosts } from "./side-sheets/read-costs.ts";
import { readProducts } from "./side-sheets/read-products.ts";
import { readTemperatureLog } from "./side-sheets/read-temperature-log.ts";
import { roleByName } from "./sort-sources.ts";
import { assembleTrays } from "./trays/assemble-trays.ts";
import { noteMissingNumbers } from "./trays/missing-numbers.ts";
import type { TrayLog } from "./trays/tray-log.ts";
import { unifySpellings } from "./trays/unify-spellings.ts";

/** What may be told to and asked of a cleaning. */
export interface CleanOptions {
  /** called now and then with the rows of a harvest sheet read so far */
  onProgress?: (done: { file: string; rows: number }) => void;
  /** the book's name; the first harvest file's unless told */
  name?: string;
}

function trayLog(harvests: ReadonlyArray<HarvestTable>, issues: Issue[]): TrayLog {
  const headers = new Map(
    harvests.map(({ file, plans }) => {
      const byField = new Map<string, string>();
      for (const { field, header } of plans) if (!byField.has(field)) byField.set(field, header);
      return [file, byField] as const;
    }),
  );
  return {
    headerOf: (file: string, field: HarvestFieldKey) => headers.get(file)?.get(field) ?? "",
    hasOutcomes: (file: string) => headers.get(file)?.has("outcome") ?? false,
    add: (issue) => void issues.push(issue),
  };
}

/** Puts the log in the order of file, row and column. */
function inSheetOrder(issues: Issue[], columns: ReadonlyArray<ColumnReading>): Issue[] {
  const files = new Map([...new Set(issues.map(({ file }) => file))].sort().map((file, index) => [file, index]));
  const places = new Map<string, Map<string, number>>();
  for (const { file, header } of columns) {
    const headers = places.get(file) ?? new Map<string, number>();
    if (!headers.has(header)) headers.set(header, headers.size);
    places.set(file, headers);
  }
  const placeOf = ({ file, column }: Issue): number => places.get(file)?.get(column) ?? -1;
  return issues.sort((a, b) =>
    a.file !== b.file ? files.get(a.file)! - files.get(b.file)! : a.row - b.row || placeOf(a) - placeOf(b),
  );
}

/** Every harvest sheet read, its rows put together to trays, and the trays checked. */
function readHarvests(
  tables: ReadonlyArray<RawTable>,
  settings: Settings,
  pins: ReadonlyArray<ColumnPin>,
  issues: Issue[],
  leftOut: ReadonlyArray<LeftOutRow>,
  onProgress: CleanOptions["onProgress"],
): Pick<Book, "trays" | "columns" | "harvestFiles"> {
  const harvests = tables.map((table) =>
    readHarvestTable(table, settings, pins, (rows) => onProgress?.({ file: table.file, rows })),
  );
  for (const harvest of harvests) for (const issue of harvest.issues) issues.push(issue);
  const log = trayLog(harvests, issues);
  const drafts = harvests.length === 1 ? harvests[0]!.drafts : harvests.flatMap((harvest) => harvest.drafts);
  unifySpellings(
    drafts,
    harvests.map(({ levels }) => levels),
    log,
  );
  const evidence =
    harvests.length === 1 ? harvests[0]!.evidence : new Map(harvests.flatMap((harvest) => [...harvest.evidence]));
  const trays = assembleTrays(drafts, log, evidence);
  checkTrays(trays, settings, log);
  noteMissingNumbers(trays, leftOut, log);
  return {
    trays,
    columns: harvests.flatMap(({ columns }) => columns),
    harvestFiles: harvests.map(({ file, rows }) => ({ file, rows })),
  };
}

/** Cost and product sheets none of which could be opened as a table: everything in them is missing. */
function unopened(sources: ReadonlyArray<SheetSource>, tables: BookTables["tables"]): UnreadMoney[] {
  return sources.flatMap((source): UnreadMoney[] => {
    const sheet = roleByName(source);
    if (sheet !== "costs" && sheet !== "products") return [];
    if (tables[sheet].some(({ file }) => file === source.path || file.startsWith(`${source.path} > `))) return [];
    const reason = "nothing in the sheet could be read as a table";
    return [{ sheet, name: source.path, reason, source: { file: source.path, row: 0 }, inUse: false }];
  });
}

const nameOf = (file: string): string =>
  file
    .split(" > ")[0]!
    .split("/")
    .at(-1)!
    .replace(/\.[^.]+$/, "");

/**
 * Cleans a book: reads all its sheets, whatever they look like, and puts them together to typed records in metric units.
 * Nothing is dropped in silence: every value read otherwise than typed, every doubt and every row left out is in the log.
 * @param sources the book's sheets in any order: settings.csv, costs.csv, products.csv, columns.csv and temperature logs
 * by name or contents; every other sheet that looks like one is a harvest sheet
 * @returns the book; no content makes it throw
 * @throws what reading a source's bytes throws
 */
export async function cleanBook(sources: ReadonlyArray<SheetSource>, options: CleanOptions = {}): Promise<Book> {
  const ordered = [...sources].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  const take = (part: { issues: Issue[]; leftOut?: LeftOutRow[] }): void => {
    for (const issue of part.issues) issues.push(issue);
    for (const row of part.leftOut ?? []) leftOut.push(row);
  };
  const opened = await openBookSheets(ordered);
  take(opened);
  const { tables, settings } = opened;
  const pinned = readColumnPins(tables.columns);
  take(pinned);
  const harvest = readHarvests(tables.harvest, settings, pinned.pins, issues, leftOut, options.onProgress);
  const book: Book = {
    name: options.name ?? nameOf(harvest.harvestFiles[0]?.file ?? "book"),
    settings,
    trays: harvest.trays,
    temperatureLog: [] as TemperatureReading[],
    columns: harvest.columns,
    issues,
    leftOut,
    harvestFiles: harvest.harvestFiles,
  };
  const unread = unopened(ordered, tables);
  if (tables.costs.length > 0) {
    const costs = readCosts(tables.costs, settings);
    take(costs);
    book.costLines = costs.costLines;
    unread.push(...costs.unread);
  }
  if (tables.products.length > 0) {
    const products = readProducts(tables.products, settings);
    take(products);
    book.products = products.products;
    unread.push(...products.unread);
  }
  if (tables["temperature log"].length > 0) {
    const logged = readTemperatureLog(tables["temperature log"], settings);
    take(logged);
    book.temperatureLog = logged.readings;
  }
  if (unread.length > 0) book.unread = unread;
  book.issues = inSheetOrder(issues, book.columns);
  return book;
}
