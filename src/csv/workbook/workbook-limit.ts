import type { NotASheet } from "../not-a-sheet.ts";

/** Something in a workbook goes beyond what is read; it is refused with what it is. */
export class WorkbookLimit extends Error {
  /** @param detail where in it, or how much of it */
  constructor(
    readonly why: NotASheet,
    readonly detail = "",
  ) {
    super(`${why} ${detail}`);
  }
}

// What fits into 300 MB and is read in seconds: a year of temperatures by the minute still does. Common practice, no source.
/** bytes of the file */
export const largestArchive = 100_000_000;
/** bytes of the parts that are opened, unpacked */
export const largestParts = 80_000_000;
/** cells of its tabs, with the empty ones before the last of each row */
const mostCells = 2_000_000;
/** filled cells of a row: with trays as columns, more trays than anyone has in one sheet */
const mostColumns = 4096;
/** tabs that are looked at */
export const mostTabs = 400;

/** Counts the cells of a workbook while they are read. */
export class CellCount {
  private left = mostCells;

  /** @throws WorkbookLimit where there are more than are read */
  add(cells: number, row: number): void {
    this.left -= cells;
    if (this.left < 0)
      throw new WorkbookLimit("many cells", `${mostCells.toLocaleString("en")} are reached in row ${row}`);
  }

  /** @param filled cells of a row so far @throws WorkbookLimit where a row has more than are read */
  addToRow(filled: number, tab: string, row: number): void {
    if (filled > mostColumns) throw new WorkbookLimit("many columns", `tab ${tab}, row ${row}`);
  }
}
