import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { contingencyTable } from "./contingency-table.ts";

/** Outcome of the chi-square test of a table. */
export interface ChiSquareTest {
  chiSquare: number;
  degreesOfFreedom: number;
  p: number;
  /** expected counts if rows and columns are unrelated; below about 5 the p-value is rough and an exact test is better */
  expected: number[][];
  smallestExpected: number;
}

/**
 * Are the rows and columns of a table of counts related?
 * @param table counts, rows of equal length; empty rows and columns are left out
 * @param continuityCorrection Yates's correction, for two-by-two tables only; off unless asked for
 * @throws RangeError if a cell is not a whole number of 0 or more, fewer than two rows or columns hold counts, or the correction is asked of a larger table
 * @source Pearson 1900, Philosophical Magazine; NIST/SEMATECH e-Handbook of Statistical Methods, section 7.4.5; Yates
 *   1934, Supplement to the Journal of the Royal Statistical Society 1(2):217-235
 * @example chiSquareTest([[3, 1], [1, 3]]).chiSquare // 2
 */
export function chiSquareTest(
  table: ReadonlyArray<ReadonlyArray<number>>,
  continuityCorrection = false,
): ChiSquareTest {
  const { cells, rowTotals, columnTotals, total } = contingencyTable("chiSquareTest", table);
  if (continuityCorrection && (rowTotals.length > 2 || columnTotals.length > 2)) {
    throw new RangeError(
      `chiSquareTest: the continuity correction needs a two-by-two table; received ${rowTotals.length} by ${columnTotals.length}`,
    );
  }
  const expected = rowTotals.map((row) => columnTotals.map((column) => (row * column) / total));
  let chiSquare = 0;
  cells.forEach((row, i) => {
    row.forEach((count, j) => {
      const difference = Math.abs(count - expected[i]![j]!);
      const counted = continuityCorrection ? difference - Math.min(0.5, difference) : difference;
      chiSquare += counted ** 2 / expected[i]![j]!;
    });
  });
  const degreesOfFreedom = (rowTotals.length - 1) * (columnTotals.length - 1);
  return {
    chiSquare,
    degreesOfFreedom,
    p: chiSquareUpperTail(chiSquare, degreesOfFreedom),
    expected,
    smallestExpected: Math.min(...expected.flat()),
  };
}
