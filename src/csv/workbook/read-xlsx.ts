import type { SheetRow } from "../shape/find-header.ts";
import { dateText, percentText, plainNumberText } from "./plain-cell-text.ts";
import { xlsxExtras } from "./xlsx-extras.ts";
import type { NumberFormat } from "./xlsx-format.ts";

function numberText(value: number, format: NumberFormat | undefined): string {
  if (format === undefined) return plainNumberText(value);
  if (format.percent) return percentText(value);
  const gap = /^\p{L}/u.test(format.after) ? " " : "";
  return `${format.before}${plainNumberText(value)}${gap}${format.after}`;
}

function cellText(value: unknown, format: NumberFormat | undefined): string {
  if (typeof value === "string") return value;
  if (typeof value === "number") return numberText(value, format);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return value instanceof Date ? dateText(value) : "";
}

/**
 * The cells of one sheet of an .xlsx workbook as the text a person would type: dates as ISO 8601, numbers unrounded,
 * with the percent sign, unit or currency their format shows.
 * @param archive the whole file
 * @param sheet the worksheet's XML, for what the reading library leaves out
 * @throws Error where the workbook is damaged
 */
export async function readXlsx(
  archive: ArrayBuffer,
  sheetName: string,
  sheet: string,
  styles: string | undefined,
): Promise<SheetRow[]> {
  // first, because it also finds cells that lie outside of any sheet
  const { formats, errors } = xlsxExtras(sheet, styles);
  const { readSheet } = await import("read-excel-file/universal");
  const data: unknown[][] = await readSheet(archive, sheetName, { trim: false });
  const rows = data.map((values, index) => {
    const formatsInRow = formats.get(index);
    return { cells: values.map((value, column) => cellText(value, formatsInRow?.get(column))), row: index + 1 };
  });
  for (const [row, inRow] of errors) {
    while (rows.length <= row) rows.push({ cells: [], row: rows.length + 1 });
    const { cells } = rows[row]!;
    for (const [column, error] of inRow) {
      while (cells.length <= column) cells.push("");
      cells[column] = error;
    }
  }
  return rows;
}
