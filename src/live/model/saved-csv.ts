import { writeCsv } from "../../csv/write-csv.ts";
import { defaultSettings, settingDefinitions } from "../../records/setting-definitions.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import type { FileToSave } from "./files-to-save.ts";
import { settingText } from "./settings-sheet-text.ts";
import { asideReasons, cellText, deletedRows, savedRowCount, workbook } from "./workbook.ts";

/** Which settings are worth a line: those stated in the book or changed here. */
const isStated = (row: number, value: string): boolean =>
  value !== settingText(settingDefinitions[row]!, defaultSettings);

const inFile = (file: string, source: string): boolean => file === source || file.startsWith(`${source} `);

/** Rows of a file's sheet that are not in the money and cannot be changed here: what was bought must not get lost. */
function unreadRowsOf({ sheet, source }: FileToSave): UnreadMoney[] {
  const { unread = [] } = workbook().saved.book;
  return unread.filter(
    (one) => one.sheet === sheet && !one.inUse && one.source.row > 0 && inFile(one.source.file, source),
  );
}

/** How many rows of a file were left out of the book and are not in the saved file. */
export function leftOutOf(file: FileToSave): number {
  const { leftOut } = workbook().saved.book;
  const carried = new Set(unreadRowsOf(file).map(({ source }) => source.row));
  return leftOut.filter(({ file: own, row }) => inFile(own, file.source) && !carried.has(row)).length;
}

const nameColumns = { costs: "item", products: "product" } as const;
/** What every line needs, so that one without it is asked for. */
const neededColumns = { costs: "pack_price", products: "fee_pct" } as const;

/** An unread row as it can be written: its name, a cell that asks, and in its note what stood there and why it was not read. */
function unreadCells({ name, reason, source }: UnreadMoney, sheet: "costs" | "products", header: string[]): string[] {
  const typed = workbook().saved.book.leftOut.find(({ file, row }) => file === source.file && row === source.row);
  const cells = (typed?.cells ?? []).filter((cell) => cell.trim() !== "").join(" | ");
  const note = `not read: ${reason}${cells === "" ? "" : `; typed: ${cells}`}`;
  const texts: Record<string, string> = { [nameColumns[sheet]]: name, [neededColumns[sheet]]: "?", note };
  return header.map((key) => texts[key] ?? "");
}

/**
 * A file's rows as they stand now, in the canonical headers and order, with formulas guarded. Trays set aside stay in it,
 * with the reason in their note: what happened to a tray is a result. Added rows come last, deleted ones are left out; a
 * money row that could not be read stands behind them by its name, so that it is asked for again.
 */
export function savedCsv(file: FileToSave): string {
  const name = file.sheet;
  const { columns } = workbook().saved.sheets[name]!;
  const kept = columns.flatMap(({ isExtra }, index) => (isExtra ? [] : [index]));
  const header = kept.map((index) => columns[index]!.key);
  const gone = deletedRows.value[name];
  const body = [...file.rows]
    .filter((row) => !gone.has(row))
    .map((row) => ({ row, cells: kept.map((index) => cellText(name, row, index)) }))
    .filter(({ row, cells }) => row < savedRowCount(name) || cells.some((cell) => cell !== ""))
    .map(({ cells }) => cells);
  if (name === "settings")
    return writeCsv([header, ...body.filter((cells, row) => isStated(row, cells[1]!))], { guard: true });
  if (name !== "trays") {
    const unread = unreadRowsOf(file).map((row) => unreadCells(row, name, header));
    return writeCsv([header, ...body, ...unread], { guard: true });
  }
  if (asideReasons.value.size === 0) return writeCsv([header, ...body], { guard: true });
  const noteAt = header.indexOf("note");
  if (noteAt < 0) header.push("note");
  const noted = body.map((cells) => {
    const reason = asideReasons.value.get(cells[0]!);
    const note = (noteAt < 0 ? "" : cells[noteAt]!).trim();
    const said = reason === undefined ? note : `${note}${note === "" ? "" : "; "}set aside: ${reason}`;
    return noteAt < 0 ? [...cells, said] : cells.map((cell, index) => (index === noteAt ? said : cell));
  });
  return writeCsv([header, ...noted], { guard: true });
}
