import { writeCsv } from "../../csv/write-csv.ts";
import { defaultSettings, settingDefinitions } from "../../records/setting-definitions.ts";
import type { SheetName } from "./live-sheet.ts";
import { settingText } from "./settings-sheet-text.ts";
import { asideReasons, cellText, deletedRows, rowCount, savedRowCount, workbook } from "./workbook.ts";

/** Which settings are worth a line: those stated in the book or changed here. */
const isStated = (row: number, value: string): boolean =>
  value !== settingText(settingDefinitions[row]!, defaultSettings);

/** The names a saved sheet has, so that a book takes it for what it is. */
export function savedName(sheet: SheetName): string {
  const { name } = workbook().saved.book;
  const plain = name
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{N}._-]+/gu, "-")
    .replace(/^[-.]+|[-.]+$/g, "")
    .slice(0, 80);
  return sheet === "trays" ? `${plain || "book"}-trays.csv` : `${sheet}.csv`;
}

/**
 * A sheet as it stands now, in the canonical headers and order, with formulas guarded. Trays set aside stay in the sheet,
 * with the reason in their note: what happened to a tray is a result. Added rows come last, deleted ones are left out.
 */
export function savedCsv(name: SheetName): string {
  const { columns } = workbook().saved.sheets[name]!;
  const kept = columns.flatMap(({ isExtra }, index) => (isExtra ? [] : [index]));
  const header = kept.map((index) => columns[index]!.key);
  const gone = deletedRows.value[name];
  const body = Array.from({ length: rowCount(name) }, (_, row) => row)
    .filter((row) => !gone.has(row))
    .map((row) => ({ row, cells: kept.map((index) => cellText(name, row, index)) }))
    .filter(({ row, cells }) => row < savedRowCount(name) || cells.some((cell) => cell !== ""))
    .map(({ cells }) => cells);
  if (name === "settings")
    return writeCsv([header, ...body.filter((cells, row) => isStated(row, cells[1]!))], { guard: true });
  if (name !== "trays" || asideReasons.value.size === 0) return writeCsv([header, ...body], { guard: true });
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
