import { requireCount, requireSameLength } from "../require-numbers.ts";

/** A table of counts with its margins. Empty rows and columns are left out: they carry no information. */
export interface ContingencyTable {
  cells: number[][];
  rowTotals: number[];
  columnTotals: number[];
  total: number;
}

/**
 * Checks a table of counts and adds its margins.
 * @throws RangeError if a cell is not a whole number of 0 or more, the rows differ in length, or fewer than two rows or columns hold anything
 * @internal
 */
export function contingencyTable(routine: string, table: ReadonlyArray<ReadonlyArray<number>>): ContingencyTable {
  for (const row of table) {
    requireSameLength(routine, "the first row", table[0]!, "another row", row);
    for (const cell of row) requireCount(routine, "each cell", cell, 0);
  }
  const sum = (values: ReadonlyArray<number>): number => values.reduce((total, value) => total + value, 0);
  const filledRows = table.filter((row) => sum(row) > 0);
  const width = filledRows[0]?.length ?? 0;
  const keptColumns = Array.from({ length: width }, (_, column) => column).filter((column) =>
    filledRows.some((row) => row[column]! > 0),
  );
  if (filledRows.length < 2 || keptColumns.length < 2) {
    throw new RangeError(
      `${routine}: at least two rows and two columns must hold counts; received ${filledRows.length} and ${keptColumns.length}`,
    );
  }
  const cells = filledRows.map((row) => keptColumns.map((column) => row[column]!));
  const rowTotals = cells.map(sum);
  const columnTotals = keptColumns.map((_, column) => sum(cells.map((row) => row[column]!)));
  return { cells, rowTotals, columnTotals, total: sum(rowTotals) };
}
