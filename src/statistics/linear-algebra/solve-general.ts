import type { Matrix } from "./dense-matrix.ts";

/**
 * Solves matrix * X = right for a square matrix by elimination with row exchanges.
 * @param matrix square; overwritten
 * @param right as many rows as the matrix; overwritten with the solution
 * @returns the log of the determinant's absolute value
 * @throws RangeError if the matrix is singular
 * @source Golub and Van Loan 1996, Matrix Computations, 3rd edition, algorithm 3.4.1
 * @example
 * const right = [Float64Array.of(4), Float64Array.of(3)];
 * solveGeneral([Float64Array.of(0, 2), Float64Array.of(1, 0)], right);
 * right // [[3], [2]]
 */
export function solveGeneral(matrix: Matrix, right: Matrix): number {
  const size = matrix.length;
  let logDeterminant = 0;
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let row = pivot + 1; row < size; row++) {
      if (Math.abs(matrix[row]![pivot]!) > Math.abs(matrix[best]![pivot]!)) best = row;
    }
    [matrix[pivot], matrix[best]] = [matrix[best]!, matrix[pivot]!];
    [right[pivot], right[best]] = [right[best]!, right[pivot]!];
    const pivotRow = matrix[pivot]!;
    const pivotRight = right[pivot]!;
    const diagonal = pivotRow[pivot]!;
    if (diagonal === 0 || !Number.isFinite(diagonal)) {
      throw new RangeError(`solveGeneral: the matrix must be invertible; pivot ${pivot + 1} is ${diagonal}`);
    }
    logDeterminant += Math.log(Math.abs(diagonal));
    for (let row = pivot + 1; row < size; row++) {
      const target = matrix[row]!;
      const factor = target[pivot]! / diagonal;
      if (factor === 0) continue;
      for (let j = pivot + 1; j < size; j++) target[j]! -= factor * pivotRow[j]!;
      const targetRight = right[row]!;
      for (let j = 0; j < targetRight.length; j++) targetRight[j]! -= factor * pivotRight[j]!;
    }
  }
  for (let row = size - 1; row >= 0; row--) {
    const source = matrix[row]!;
    const target = right[row]!;
    for (let k = row + 1; k < size; k++) {
      const factor = source[k]!;
      if (factor === 0) continue;
      const solved = right[k]!;
      for (let j = 0; j < target.length; j++) target[j]! -= factor * solved[j]!;
    }
    for (let j = 0; j < target.length; j++) target[j]! /= source[row]!;
  }
  return logDeterminant;
}
