import { type Matrix, zeroMatrix } from "./dense-matrix.ts";

/** What the triangular factor of a positive definite matrix gives. */
export interface Cholesky {
  /** log of the determinant of the matrix */
  logDeterminant: number;
  /** solves matrix * x = right */
  solve(right: ArrayLike<number>): Float64Array;
  /** the inverse, symmetric */
  inverse(): Matrix;
}

/**
 * Cholesky factor of a symmetric matrix, scaled to a unit diagonal first so that columns in unlike units do not matter.
 * @param matrix symmetric; only its lower triangle is read
 * @returns undefined if the matrix is not positive definite to working accuracy
 * @source Golub and Van Loan 2013, Matrix Computations, 4th edition, algorithm 4.2.1
 * @example cholesky([Float64Array.of(4, 2), Float64Array.of(2, 3)]).solve([8, 8]) // [1, 2]
 */
export function cholesky(matrix: Matrix): Cholesky | undefined {
  const size = matrix.length;
  const lower = zeroMatrix(size, size);
  const scale = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const diagonal = matrix[i]![i]!;
    if (!(diagonal > 0) || !Number.isFinite(diagonal)) return undefined;
    scale[i] = Math.sqrt(diagonal);
  }
  for (let i = 0; i < size; i++) {
    const row = lower[i]!;
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? 1 : matrix[i]![j]! / (scale[i]! * scale[j]!);
      for (let k = 0; k < j; k++) sum -= row[k]! * lower[j]![k]!;
      if (i === j) {
        if (!(sum > size * 2e-16)) return undefined;
        row[i] = Math.sqrt(sum);
      } else {
        row[j] = sum / lower[j]![j]!;
      }
    }
  }
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * (Math.log(lower[i]![i]!) + Math.log(scale[i]!));

  const solve = (right: ArrayLike<number>): Float64Array => {
    const x = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      let sum = right[i]! / scale[i]!;
      for (let k = 0; k < i; k++) sum -= lower[i]![k]! * x[k]!;
      x[i] = sum / lower[i]![i]!;
    }
    for (let i = size - 1; i >= 0; i--) {
      let sum = x[i]!;
      for (let k = i + 1; k < size; k++) sum -= lower[k]![i]! * x[k]!;
      x[i] = sum / lower[i]![i]!;
    }
    for (let i = 0; i < size; i++) x[i]! /= scale[i]!;
    return x;
  };
  const inverse = (): Matrix => {
    const result = zeroMatrix(size, size);
    const unit = new Float64Array(size);
    for (let j = 0; j < size; j++) {
      unit[j] = 1;
      const column = solve(unit);
      unit[j] = 0;
      for (let i = 0; i < size; i++) result[i]![j] = column[i]!;
    }
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < i; j++) {
        const mean = (result[i]![j]! + result[j]![i]!) / 2;
        result[i]![j] = mean;
        result[j]![i] = mean;
      }
    }
    return result;
  };
  return { logDeterminant, solve, inverse };
}
