/** What an algorithm on columns of numbers needs of the numbers, so that it is written once for ordinary and for long ones. */
export interface ColumnArithmetic<Scalar, Column> {
  readonly zero: Scalar;
  readonly one: Scalar;
  negate(a: Scalar): Scalar;
  subtract(a: Scalar, b: Scalar): Scalar;
  multiply(a: Scalar, b: Scalar): Scalar;
  divide(a: Scalar, b: Scalar): Scalar;
  /** the nearest ordinary number */
  toNumber(a: Scalar): number;
  /** a column of zeros */
  empty(length: number): Column;
  copy(column: Column): Column;
  length(column: Column): number;
  entry(column: Column, index: number): Scalar;
  setEntry(column: Column, index: number, value: Scalar): void;
  /** sum of a[i] × b[i] from row `from` on */
  dot(a: Column, b: Column, from: number): Scalar;
  /** target[i] -= factor × source[i] from row `from` on */
  subtractMultiple(target: Column, factor: Scalar, source: Column, from: number): void;
  /** Euclidean length from row `from` on */
  euclideanLength(column: Column, from: number): Scalar;
}
