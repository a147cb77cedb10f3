import { decimalRemainder } from "../linear-algebra/typed-decimal.ts";
import { requireSample } from "../require-numbers.ts";

/** A column taken apart into its mean and what is left of each value. */
export interface Deviations {
  mean: number;
  /** value - mean, in the column's order, to full relative accuracy */
  deviations: Float64Array;
}

/**
 * Mean and deviations from it. The mean is found in two passes, and each value counts as the decimal it was typed as,
 * not as its nearest double, so that 1000000.1 and 1000000.3 differ by exactly 0.2.
 * @param routine named in the error
 * @param values in one unit
 * @param atLeast how many values are needed
 * @throws RangeError if there are fewer values or one is not finite
 * @source corrected two-pass algorithm: Chan, Golub and LeVeque 1983, The American Statistician 37(3):242-247
 * @internal
 */
export function deviationsFromMean(routine: string, values: ReadonlyArray<number>, atLeast: number): Deviations {
  requireSample(routine, "values", values, atLeast);
  const count = values.length;
  // equal values have no spread at all, not the rounding of one
  if (values.every((value) => value === values[0])) return { mean: values[0]!, deviations: new Float64Array(count) };
  // halving keeps the sum of huge values within the range of numbers
  const start = (compensatedSum(values.map((value) => value / 2)) / count) * 2;
  const deviations = Float64Array.from(values, (value) => value - start + decimalRemainder(value));
  const shift = compensatedSum(deviations) / count;
  for (let index = 0; index < count; index++) deviations[index]! -= shift;
  return { mean: start + shift, deviations };
}

/**
 * A sum that carries along what rounding drops.
 * @source Neumaier 1974, Zeitschrift für Angewandte Mathematik und Mechanik 54(1):39-51
 * @example compensatedSum([1e16, 1, -1e16]) // 1
 */
export function compensatedSum(values: ArrayLike<number>): number {
  let sum = 0;
  let dropped = 0;
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    const next = sum + value;
    dropped += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + dropped;
}

/**
 * Sum of squares, scaled so that it neither overflows nor underflows on the way: `scale`² times `sum`.
 * @internal
 */
export function scaledSquares(deviations: Float64Array): { scale: number; sum: number } {
  let largest = 0;
  for (const deviation of deviations) largest = Math.max(largest, Math.abs(deviation));
  if (largest === 0) return { scale: 1, sum: 0 };
  // a power of two, so that scaling costs no digits
  const scale = 2 ** Math.max(-1022, Math.min(1023, Math.floor(Math.log2(largest))));
  return { scale, sum: compensatedSum(deviations.map((deviation) => (deviation / scale) ** 2)) };
}
