import { requireCount } from "../require-numbers.ts";

/** Columns whose products with themselves add up to a covariance matrix, or nearly. */
export interface PivotedCholesky {
  /** how many columns there are */
  rank: number;
  /** `size` rows of `rank` numbers: entry (i, j) at i * rank + j; rows times rows give the matrix */
  columns: Float64Array;
  /** largest variance that the columns leave out, in the matrix's unit */
  leftOut: number;
}

/**
 * Few columns that stand in for a smooth covariance matrix: Cholesky steps on the largest variance left, until nothing
 * worth the name is left or `mostColumns` are made.
 * @param size rows of the matrix, 1 or more
 * @param entry covariance of places i and j; symmetric, positive semidefinite
 * @param mostColumns 1 or more
 * @param enough stop when no place has more than this variance left
 * @throws RangeError if size or mostColumns is not a whole number of 1 or more
 * @source Harbrecht, Peters and Schneider 2012, Applied Numerical Mathematics 62(4):428-440
 * @example pivotedCholesky(2, () => 4, 2, 1e-12).rank // 1
 */
export function pivotedCholesky(
  size: number,
  entry: (i: number, j: number) => number,
  mostColumns: number,
  enough: number,
): PivotedCholesky {
  requireCount("pivotedCholesky", "size", size, 1);
  requireCount("pivotedCholesky", "mostColumns", mostColumns, 1);
  const left = Float64Array.from({ length: size }, (_, i) => entry(i, i));
  const made: Float64Array[] = [];
  const largest = (): number => left.reduce((best, value, i) => (value > left[best]! ? i : best), 0);
  let pivot = largest();
  while (made.length < Math.min(size, mostColumns) && left[pivot]! > enough) {
    const root = Math.sqrt(left[pivot]!);
    const column = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      let value = entry(i, pivot);
      for (const earlier of made) value -= earlier[i]! * earlier[pivot]!;
      column[i] = value / root;
    }
    made.push(column);
    for (let i = 0; i < size; i++) left[i] = Math.max(0, left[i]! - column[i]! * column[i]!);
    left[pivot] = 0;
    pivot = largest();
  }
  const rank = made.length;
  const columns = new Float64Array(size * rank);
  made.forEach((column, j) => {
    for (let i = 0; i < size; i++) columns[i * rank + j] = column[i]!;
  });
  return { rank, columns, leftOut: left[pivot]! };
}
