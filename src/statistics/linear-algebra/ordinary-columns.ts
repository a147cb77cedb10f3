import type { ColumnArithmetic } from "./column-arithmetic.ts";

/**
 * Sum of products, from row `from` on.
 * @example dot(Float64Array.of(1, 2), Float64Array.of(3, 4)) // 11
 */
export function dot(a: Float64Array, b: Float64Array, from = 0): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/**
 * Euclidean length from row `from` on; values too large or too small to square are scaled first.
 * @example euclideanLength(Float64Array.of(3e200, 4e200)) // 5e200
 */
export function euclideanLength(column: Float64Array, from = 0): number {
  let largest = 0;
  for (let i = from; i < column.length; i++) largest = Math.max(largest, Math.abs(column[i]!));
  if (largest === 0 || !Number.isFinite(largest)) return largest;
  let sum = 0;
  for (let i = from; i < column.length; i++) {
    const scaled = column[i]! / largest;
    sum += scaled * scaled;
  }
  return largest * Math.sqrt(sum);
}

/** Columns of ordinary numbers, some 16 digits each. */
export const ordinary: ColumnArithmetic<number, Float64Array> = {
  zero: 0,
  one: 1,
  negate: (a) => -a,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  toNumber: (a) => a,
  empty: (length) => new Float64Array(length),
  copy: (column) => column.slice(),
  length: (column) => column.length,
  entry: (column, index) => column[index]!,
  setEntry: (column, index, value) => {
    column[index] = value;
  },
  dot,
  subtractMultiple: (target, factor, source, from) => {
    for (let i = from; i < target.length; i++) target[i] = target[i]! - factor * source[i]!;
  },
  euclideanLength,
};
