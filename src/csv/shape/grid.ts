import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { VisitRecord } from "../text/read-records.ts";

/** Reads all records of a sheet from the start; can be called again. */
export type ForEachRecord = (visit: VisitRecord) => void;

/** One record of a sheet before it is known what it is. */
export interface SheetRow {
  cells: string[];
  row: number;
}

/** Cells that a workbook shows as one. Rows count from 1, columns from 0; both ends are inside. */
export interface Merge {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

/** One sheet as rows of cells, whatever file it came from. */
export interface Grid {
  /** the path, with the workbook's tab after " > " */
  file: string;
  forEachRecord: ForEachRecord;
  merges: ReadonlyArray<Merge>;
  /** its cells came from delimited text, where a separator too many moves what follows */
  delimited: boolean;
}

/** A grid of rows in memory. */
export const gridOf = (file: string, rows: ReadonlyArray<SheetRow>, merges: ReadonlyArray<Merge> = []): Grid => ({
  file,
  merges,
  delimited: false,
  forEachRecord: (visit) => {
    for (const { cells, row } of rows) if (visit([...cells], row, false) === false) return;
  },
});

/** The first records of a grid that hold something. */
export function firstRows(forEachRecord: ForEachRecord, most: number): SheetRow[] {
  const rows: SheetRow[] = [];
  forEachRecord((cells, row) => {
    if (cells.some((cell) => cell.trim() !== "")) rows.push({ cells, row });
    return rows.length < most;
  });
  return rows;
}

/** Cells that are kept of a sheet while its parts are read one after the other, and parts from which on they are. */
const mostKept = 1 << 22;
const fewParts = 4;

/** A grid for reading so many parts of it: where there are many, each goes through records that are kept, if they fit. */
export function gridForParts(grid: Grid, parts: number): Grid {
  if (parts < fewParts) return grid;
  const kept: Parameters<VisitRecord>[] = [];
  let cells = 0;
  grid.forEachRecord((...record) => {
    kept.push(record);
    cells += record[0].length;
    return cells <= mostKept;
  });
  if (cells > mostKept) return grid;
  return { ...grid, forEachRecord: (visit) => void kept.every((record) => visit(...record) !== false) };
}

/** Some columns of a grid, from the first up to the one before the last. */
export function columnsOfGrid(grid: Grid, from: number, to: number): Grid {
  return {
    ...grid,
    forEachRecord: (visit) => grid.forEachRecord((cells, row, unclosed) => visit(cells.slice(from, to), row, unclosed)),
    merges: grid.merges.flatMap((merge) =>
      merge.left >= from && merge.left < to
        ? [{ ...merge, left: merge.left - from, right: Math.min(merge.right, to - 1) - from }]
        : [],
    ),
  };
}

/** Some rows of a grid, from the first up to the one before the last. */
export const rowsOfGrid = (grid: Grid, from: number, to: number): Grid => ({
  ...grid,
  forEachRecord: (visit) =>
    grid.forEachRecord((cells, row, unclosed) => row < to && (row < from || visit(cells, row, unclosed))),
});

/** The letter or letters a spreadsheet shows over a column. @example columnLetters(27) // "AB" */
export function columnLetters(column: number): string {
  let letters = "";
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26)) {
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  }
  return letters;
}

/** Rows of a refused table that are listed one by one. */
const mostListed = 100_000;

/** A table that is not read, for the reason its issue gives; each of its rows is set aside for it. */
export function refusedTable(
  { file, forEachRecord }: Grid,
  issue: Issue,
): { tables: never[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const { rule, reason } = issue;
  const leftOut: LeftOutRow[] = [];
  forEachRecord((cells, row) => {
    if (cells.some((cell) => cell.trim() !== "")) leftOut.push({ file, row, cells: [...cells], rule, reason });
    return leftOut.length < mostListed;
  });
  return { tables: [], issues: [issue], leftOut };
}
