import type { ColumnArithmetic } from "./column-arithmetic.ts";
import {
  type DoubleDouble,
  divide,
  multiply,
  negate,
  one,
  splitter,
  squareRoot,
  subtract,
  toNumber,
  zero,
} from "./double-double.ts";
import { decimalRemainder } from "./typed-decimal.ts";

/** A column of double-doubles, kept as two arrays so that long loops allocate nothing. */
export interface DoubleDoubleColumn {
  high: Float64Array;
  low: Float64Array;
}

/**
 * A column of zeros.
 * @example emptyColumn(2).high // [0, 0]
 */
export function emptyColumn(length: number): DoubleDoubleColumn {
  return { high: new Float64Array(length), low: new Float64Array(length) };
}

/**
 * The decimals that the values were typed as.
 * @example columnOf([0.1]).low // [-5.551115123125783e-18]
 */
export function columnOf(values: ArrayLike<number>): DoubleDoubleColumn {
  const column = emptyColumn(values.length);
  for (let i = 0; i < values.length; i++) {
    column.high[i] = values[i]!;
    column.low[i] = decimalRemainder(values[i]!);
  }
  return column;
}

/**
 * The same numbers in arrays of their own.
 * @example copyColumn(columnOf([1, 2])).high // [1, 2]
 */
export function copyColumn(column: DoubleDoubleColumn): DoubleDoubleColumn {
  return { high: column.high.slice(), low: column.low.slice() };
}

/**
 * One number of a column.
 * @example entry(columnOf([1, 2]), 1) // { high: 2, low: 0 }
 */
export function entry(column: DoubleDoubleColumn, index: number): DoubleDouble {
  return { high: column.high[index]!, low: column.low[index]! };
}

/**
 * Writes one number of a column.
 * @example
 * const column = emptyColumn(1);
 * setEntry(column, 0, { high: 3, low: 0 });
 * column.high // [3]
 */
export function setEntry(column: DoubleDoubleColumn, index: number, value: DoubleDouble): void {
  column.high[index] = value.high;
  column.low[index] = value.low;
}

/**
 * Sum of a[i] × b[i] from row `from` on.
 * @example dotProduct(columnOf([2, 3]), columnOf([4, 5])).high // 23
 */
export function dotProduct(a: DoubleDoubleColumn, b: DoubleDoubleColumn, from = 0): DoubleDouble {
  const { high: aHigh, low: aLow } = a;
  const { high: bHigh, low: bLow } = b;
  let sum = 0;
  let carry = 0;
  for (let i = from; i < aHigh.length; i++) {
    const x = aHigh[i]!;
    const y = bHigh[i]!;
    const product = x * y;
    const scaledX = splitter * x;
    const headX = scaledX - (scaledX - x);
    const tailX = x - headX;
    const scaledY = splitter * y;
    const headY = scaledY - (scaledY - y);
    const tailY = y - headY;
    const error = tailX * tailY - (product - headX * headY - tailX * headY - headX * tailY);
    const next = sum + product;
    const part = next - sum;
    carry += sum - (next - part) + (product - part) + (error + (x * bLow[i]! + aLow[i]! * y));
    // renormalised at each step, so the carry never outgrows the digits it has
    sum = next + carry;
    carry -= sum - next;
  }
  return { high: sum, low: carry };
}

/**
 * target[i] -= factor × source[i] from row `from` on.
 * @example
 * const column = columnOf([5, 5]);
 * subtractMultiple(column, { high: 2, low: 0 }, columnOf([1, 2]));
 * column.high // [3, 1]
 */
export function subtractMultiple(
  target: DoubleDoubleColumn,
  factor: DoubleDouble,
  source: DoubleDoubleColumn,
  from = 0,
): void {
  const { high: tHigh, low: tLow } = target;
  const { high: sHigh, low: sLow } = source;
  const f = -factor.high;
  const fLow = -factor.low;
  const scaledF = splitter * f;
  const headF = scaledF - (scaledF - f);
  const tailF = f - headF;
  for (let i = from; i < tHigh.length; i++) {
    const y = sHigh[i]!;
    const product = f * y;
    const scaledY = splitter * y;
    const headY = scaledY - (scaledY - y);
    const tailY = y - headY;
    const error = tailF * tailY - (product - headF * headY - tailF * headY - headF * tailY);
    const x = tHigh[i]!;
    const sum = x + product;
    const part = sum - x;
    const rest = x - (sum - part) + (product - part) + (tLow[i]! + (error + (f * sLow[i]! + fLow * y)));
    const high = sum + rest;
    tHigh[i] = high;
    tLow[i] = rest - (high - sum);
  }
}

/**
 * Euclidean length from row `from` on.
 * @example columnLength(columnOf([3, 4])).high // 5
 */
export function columnLength(column: DoubleDoubleColumn, from = 0): DoubleDouble {
  return squareRoot(dotProduct(column, column, from));
}

/** Columns of double-doubles, some 32 digits each. */
export const doubleDouble: ColumnArithmetic<DoubleDouble, DoubleDoubleColumn> = {
  zero,
  one,
  negate,
  subtract,
  multiply,
  divide,
  toNumber,
  empty: emptyColumn,
  copy: copyColumn,
  length: (column) => column.high.length,
  entry,
  setEntry,
  dot: dotProduct,
  subtractMultiple,
  euclideanLength: columnLength,
};
