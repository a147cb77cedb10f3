import type { Matrix } from "../../../src/statistics/linear-algebra/dense-matrix.ts";

/** Rows and columns swapped. */
export const transpose = (matrix: Matrix): Matrix =>
  Array.from(matrix[0] ?? [], (_, j) => Float64Array.from(matrix, (row) => row[j]!));
