import type { ColumnArithmetic } from "./column-arithmetic.ts";

/** The operations on single numbers that solving a triangle needs. */
type Scalars<Scalar> = Pick<ColumnArithmetic<Scalar, unknown>, "zero" | "one" | "subtract" | "multiply" | "divide">;

/** A square matrix by rows with zeros below its diagonal. */
export type UpperTriangle<Scalar> = ReadonlyArray<ArrayLike<Scalar>>;

/**
 * Solves R x = v for an upper triangle.
 * @param upper R by rows, without a 0 on its diagonal
 * @param right v
 * @source back substitution
 * @example solveUpper(ordinary, [[2, 1], [0, 4]], [5, 4]) // [2, 1]
 */
export function solveUpper<Scalar>(
  numbers: Scalars<Scalar>,
  upper: UpperTriangle<Scalar>,
  right: ArrayLike<Scalar>,
): Scalar[] {
  const solution: Scalar[] = upper.map(() => numbers.zero);
  for (let i = upper.length - 1; i >= 0; i--) {
    const row = upper[i]!;
    let sum = right[i] as Scalar;
    for (let j = i + 1; j < upper.length; j++) sum = numbers.subtract(sum, numbers.multiply(row[j]!, solution[j]!));
    solution[i] = numbers.divide(sum, row[i]!);
  }
  return solution;
}

/**
 * Solves R'x = v for an upper triangle.
 * @param upper R by rows, without a 0 on its diagonal
 * @param right v
 * @source forward substitution
 * @example solveUpperTransposed(ordinary, [[2, 1], [0, 4]], [4, 10]) // [2, 2]
 */
export function solveUpperTransposed<Scalar>(
  numbers: Scalars<Scalar>,
  upper: UpperTriangle<Scalar>,
  right: ArrayLike<Scalar>,
): Scalar[] {
  const solution: Scalar[] = upper.map(() => numbers.zero);
  for (let i = 0; i < upper.length; i++) {
    let sum = right[i] as Scalar;
    for (let j = 0; j < i; j++) sum = numbers.subtract(sum, numbers.multiply(upper[j]![i]!, solution[j]!));
    solution[i] = numbers.divide(sum, upper[i]![i]!);
  }
  return solution;
}

/**
 * The inverse of R'R, symmetric: the covariance of least-squares estimates apart from the error variance.
 * @param upper R by rows, without a 0 on its diagonal
 * @example inverseCrossProduct([[2, 0], [0, 4]]) // [[0.25, 0], [0, 0.0625]]
 */
export function inverseCrossProduct(upper: UpperTriangle<number>): number[][] {
  const columns = upper.map((_, place) => inverseColumn(upper, place));
  return upper.map((_, i) =>
    upper.map((__, j) => {
      let sum = 0;
      for (let k = Math.max(i, j); k < upper.length; k++) sum += columns[k]![i]! * columns[k]![j]!;
      return sum;
    }),
  );
}

/** A column of the inverse of R. */
function inverseColumn(upper: UpperTriangle<number>, place: number): Float64Array {
  const column = new Float64Array(upper.length);
  for (let i = place; i >= 0; i--) {
    let sum = i === place ? 1 : 0;
    for (let j = i + 1; j <= place; j++) sum -= upper[i]![j]! * column[j]!;
    column[i] = sum / upper[i]![i]!;
  }
  return column;
}
