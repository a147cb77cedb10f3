import type { LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { RowSource } from "../../records/tray.ts";
import type { Edits, LiveSheet, SheetName } from "./live-sheet.ts";
import type { SavedBook } from "./saved-book.ts";

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
export interface EditedRow {
  /** its place in the sheet, from 1; added rows count on behind the sheet's own */
  row: number;
  cells: ReadonlyArray<string>;
  /** by column */
  typed: ReadonlyMap<number, string>;
}

/** A sheet as it stands with the changes. */
export interface EditedSheet {
  sheet: LiveSheet;
  /** deleted ones left out, and added ones that hold nothing */
  rows: EditedRow[];
  /** those with a changed cell, added ones among them */
  changed: EditedRow[];
  /** places of deleted rows of its own, ascending */
  gone: number[];
  /** the same text, the same changes */
  key: string;
}

/** A sheet of a saved book with the changes in it; undefined where the book has no such sheet. */
export function editedSheet({ sheets }: SavedBook, edits: Edits, name: SheetName): EditedSheet | undefined {
  const sheet = sheets[name];
  if (sheet === undefined) return undefined;
  const own = sheet.rows.length;
  const count = own + (edits.added[name] ?? 0);
  const deleted = new Set(edits.deleted.flatMap((place) => (place.sheet === name ? [place.row] : [])));
  const typed = new Map<number, Map<number, string>>();
  for (const { sheet: in_, row, column, text } of edits.cells) {
    const isEmpty = row >= own && text.trim() === "";
    if (in_ !== name || row < 0 || row >= count || deleted.has(row) || isEmpty) continue;
    typed.set(row, (typed.get(row) ?? new Map<number, string>()).set(column, text));
  }
  const rows: EditedRow[] = [];
  for (let row = 0; row < count; row++) {
    if (deleted.has(row) || (row >= own && !typed.has(row))) continue;
    rows.push({ row: row + 1, cells: sheet.rows[row] ?? [], typed: typed.get(row) ?? new Map() });
  }
  const changed = rows.filter((row) => row.typed.size > 0);
  const gone = [...deleted]
    .filter((row) => row >= 0 && row < own)
    .sort((a, b) => a - b)
    .map((row) => row + 1);
  const key = JSON.stringify([changed.map(({ row, typed }) => [row, ...typed]), gone]);
  return { sheet, rows, changed, gone, key };
}

/** Whether nothing in a sheet differs from the saved book. */
export const isAsSaved = ({ changed, gone }: EditedSheet): boolean => changed.length + gone.length === 0;

/** A sheet as a table for the readers of sheets. @param file its name in the log */
export function tableOf(file: string, { sheet, rows }: EditedSheet, settings: Pick<Settings, "decimalMark">): RawTable {
  const kept = sheet.columns.flatMap(({ isExtra }, index) => (isExtra ? [] : [index]));
  return {
    file,
    header: kept.map((index) => sheet.columns[index]!.key),
    headerRow: 0,
    forEachRow(visit) {
      for (const { row, cells, typed } of rows) {
        const text = (index: number): string => {
          const own = cells[index] ?? "";
          return typed.get(index) ?? (sheet.columns[index]!.isNumber ? withoutDoubt(own, settings) : own);
        };
        visit(kept.map(text), row);
      }
    },
  };
}

/** Where a row came from: its file and row as read, or its place among the added ones. */
export const sourceOf = (
  { sheet }: EditedSheet,
  row: number,
  own: (place: number) => RowSource | undefined,
): RowSource =>
  (row <= sheet.rows.length ? own(row - 1) : undefined) ?? { file: addedFile, row: row - sheet.rows.length };

/** A sheet's deleted rows, as rows left out. */
export const deletedRows = (edited: EditedSheet, own: (place: number) => RowSource | undefined): LeftOutRow[] =>
  edited.gone.map((row) => ({
    ...sourceOf(edited, row, own),
    cells: edited.sheet.rows[row - 1]!,
    rule: "row-deleted",
    reason: "deleted in the report",
  }));

/** What is said of the changed sheet that is not said of the saved one. */
export function newlySaid<T>(before: ReadonlyArray<T>, now: ReadonlyArray<T>): T[] {
  const known = new Set(before.map((one) => JSON.stringify(one)));
  return now.filter((one) => !known.has(JSON.stringify(one)));
}
