import type { Book, ColumnReading } from "../../records/book.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Product } from "../../records/product.ts";
import type { TemperatureReading } from "../../records/sheet.ts";
import type { Tray } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { type PackedRecords, packRecords, unpackRecords } from "./packed-records.ts";

const lists = [
  ...(["trays", "costLines", "products", "unread", "temperatureLog", "columns", "issues", "leftOut"] as const),
] as const;

interface BookData {
  name: string;
  settings: Book["settings"];
  harvestFiles: Book["harvestFiles"];
  readings: Book["readings"];
  account: Book["account"];
  lists: Partial<Record<(typeof lists)[number], PackedRecords>>;
}

/** A book as text, for `readBookData`. */
export function writeBookData(book: Book): string {
  const { name, settings, harvestFiles, readings, account } = book;
  const packed: BookData = { name, settings, harvestFiles, readings, account, lists: {} };
  for (const list of lists) {
    const records = book[list];
    if (records !== undefined) packed.lists[list] = packRecords(records);
  }
  return JSON.stringify(packed);
}

/** The book that was written. @throws SyntaxError if the text is not what `writeBookData` gives */
export function readBookData(text: string): Book {
  const { name, settings, harvestFiles, readings, account, lists: packed } = JSON.parse(text) as BookData;
  const listOf = <T>(list: (typeof lists)[number]): T[] =>
    packed[list] === undefined ? [] : unpackRecords<T>(packed[list]);
  return {
    name,
    settings,
    harvestFiles,
    ...(readings === undefined ? {} : { readings }),
    ...(account === undefined ? {} : { account }),
    trays: listOf<Tray>("trays"),
    ...(packed.costLines === undefined ? {} : { costLines: listOf<CostLine>("costLines") }),
    ...(packed.products === undefined ? {} : { products: listOf<Product>("products") }),
    ...(packed.unread === undefined ? {} : { unread: listOf<UnreadMoney>("unread") }),
    temperatureLog: listOf<TemperatureReading>("temperatureLog"),
    columns: listOf<ColumnReading>("columns"),
    issues: listOf<Issue>("issues"),
    leftOut: listOf<LeftOutRow>("leftOut"),
  };
}
