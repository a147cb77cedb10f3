import { appendAll } from "../records/append-all.ts";
import type { Book } from "../records/book.ts";
import { fileStem } from "../records/file-stem.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable, SheetSource, TemperatureReading } from "../records/sheet.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import { accountForRows } from "./account-for-rows.ts";
import { leaveUnread } from "./columns/leave-unread.ts";
import { pinsWithoutColumn } from "./columns/plan-columns.ts";
import { limitedToTrays } from "./costs/limit-to-trays.ts";
import { readCosts } from "./costs/read-costs.ts";
import { inSheetOrder } from "./in-sheet-order.ts";
import { lossesToldElsewhere } from "./losses-told-elsewhere.ts";
import { missingColumns } from "./missing-columns.ts";
import { moneyBesideTrays } from "./money-beside-trays.ts";
import { type BookTables, openBookSheets } from "./open-book-sheets.ts";
import { readProducts } from "./products/read-products.ts";
import { remarksOfLoss } from "./read-remarks.ts";
import { readTemperatureLog } from "./side-sheets/read-temperature-log.ts";
import { roleByName } from "./sort-sources.ts";
import { checkBookTrays, readTrays, rowsOnlyPlanned, type TrayOptions } from "./trays/read-trays.ts";

/** What may be passed to and asked of a cleaning. */
export interface CleanOptions extends TrayOptions {
  /** the book's name; the first harvest file's unless given */
  name?: string;
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

/** A book whose sheets are all of other things: said as an error, unless one says already why a sheet is not read. */
function withoutHarvest(
  sources: ReadonlyArray<SheetSource>,
  harvest: ReadonlyArray<RawTable>,
  issues: ReadonlyArray<Issue>,
): Issue[] {
  const [first] = sources;
  if (first === undefined || harvest.length > 0 || issues.some(({ severity }) => severity === "error")) return [];
  const others = sources.filter((source) => [undefined, "harvest", "temperature log"].includes(roleByName(source)));
  const only = others.length === 1 ? others[0] : undefined;
  return [
    logEntry({
      file: (only ?? first).path,
      rule: "no-harvest-sheet-found",
      severity: "error",
      reason: only === undefined ? "no harvest sheet was found in the book" : "it is no harvest sheet",
      expected: "a sheet with a row for each tray: its name, what was set (a dose, say), its weight or how it was lost",
      action: "Put a harvest sheet into the book; columns named tray, dose and fresh g are known in any sheet",
    }),
  ];
}

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
  const { tables, settings, stated, settingsOf, pinned } = opened;
  take(pinned);
  const told = { ...options, besides: lossesToldElsewhere(leftOut) };
  const harvest = readTrays(tables.harvest, settingsOf, pinned.pins, issues, told);
  const money = leaveUnread(tables, pinned.pins);
  take({ issues: pinsWithoutColumn(pinned.pins, [...harvest.columns, ...money.left]) });
  appendAll(leftOut, harvest.leftOut);
  appendAll(leftOut, rowsOnlyPlanned(harvest.planned ?? []));
  checkBookTrays(harvest.trays, settings, leftOut, harvest.log);
  const book: Book = {
    name: options.name ?? fileStem((harvest.harvestFiles[0]?.file ?? "book").split(" > ")[0]!),
    settings,
    trays: harvest.trays,
    ...(harvest.planned === undefined ? {} : { planned: harvest.planned }),
    temperatureLog: [] as TemperatureReading[],
    columns: harvest.columns,
    issues,
    leftOut,
    harvestFiles: harvest.harvestFiles,
  };
  const counted = accountForRows(tables.harvest, book.trays, leftOut);
  book.account = counted.account;
  take({ issues: [...counted.issues, ...missingColumns(book, tables.harvest), ...remarksOfLoss(leftOut)] });
  // where no sheet is a harvest sheet, that one was refused is not by the way
  const isNone = book.harvestFiles.length === 0 && tables.costs.length === 0 && tables.products.length === 0;
  for (const issue of isNone ? issues : []) if (issue.rule === "no-harvest-sheet") issue.severity = "error";
  take({ issues: withoutHarvest(ordered, tables.harvest, issues) });
  const beside = moneyBesideTrays(harvest.columns, leftOut, issues, tables);
  const unread = [...opened.unread, ...unopened(ordered, tables), ...beside];
  if (tables.costs.length > 0) {
    const costs = readCosts(money.costs, settings);
    take(costs);
    book.costLines = limitedToTrays(costs.costLines, book.columns);
    appendAll(unread, costs.unread);
  }
  if (tables.products.length > 0) {
    const products = readProducts(money.products, settings, stated.has("ownerLabourRate"));
    take(products);
    book.products = products.products;
    appendAll(unread, products.unread);
  }
  if (tables["temperature log"].length > 0) {
    const { readings, ...logged } = readTemperatureLog(tables["temperature log"], settings);
    take(logged);
    book.temperatureLog = readings;
  }
  if (unread.length > 0) book.unread = unread;
  book.issues = inSheetOrder(issues, book.columns);
  return book;
}
