import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { LiveColumn } from "./live-sheet.ts";

const plainDecimal = /^([-+]?\d+)\.(\d+)(\s*%)?$/;

/**
 * A number of ours as a text that the reader's own settings cannot turn into another one: with their decimal mark, and
 * never with exactly three decimals, which could be thousands.
 */
export function withoutDoubt(text: string, { decimalMark }: Pick<Settings, "decimalMark">): string {
  return text.replace(plainDecimal, (_, whole: string, decimals: string, sign = "") => {
    const mark = decimalMark === "comma" ? "," : ".";
    return `${whole}${mark}${decimals}${decimals.length === 3 ? "0" : ""}${sign}`;
  });
}

/** what a row that was added here has in the place of a file's name */
export const addedFile = "rows added in the report";

/** A row of a sheet with its changed cells as they were typed. */
export interface ChangedRow {
  row: number;
  cells: ReadonlyArray<string>;
  /** by column */
  typed: ReadonlyMap<number, string>;
}

/** Changed rows as a table for the readers of sheets; a row's number is its place in the sheet. */
export function rowsToRead(
  file: string,
  columns: ReadonlyArray<LiveColumn>,
  rows: ReadonlyArray<ChangedRow>,
  settings: Pick<Settings, "decimalMark">,
): RawTable {
  const kept = columns.flatMap(({ isExtra }, index) => (isExtra ? [] : [index]));
  return {
    file,
    header: kept.map((index) => columns[index]!.key),
    headerRow: 0,
    forEachRow(visit) {
      for (const { row, cells, typed } of rows) {
        const text = (index: number): string => {
          const own = cells[index] ?? "";
          return typed.get(index) ?? (columns[index]!.isNumber ? withoutDoubt(own, settings) : own);
        };
        visit(kept.map(text), row);
      }
    },
  };
}
