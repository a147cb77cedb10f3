import type { RawTable } from "./sheet.ts";

/**
 * A table under another header, with other cells in its rows.
 * @param cellsOf the cells of a row, as many as the header has; the array it is given is its to change
 */
export const withRows = (
  table: RawTable,
  header: string[],
  cellsOf: (cells: string[], row: number) => string[],
): RawTable => ({
  ...table,
  header,
  forEachRow: (visit) => table.forEachRow((cells, row) => visit(cellsOf(cells, row), row)),
});
