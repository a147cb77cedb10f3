import { deviationsFromMean, scaledSquares } from "./deviations.ts";

/**
 * Sample variance, divisor n - 1.
 * @param values two or more finite numbers in one unit
 * @returns the variance in the unit squared
 * @throws RangeError if there are fewer than two values or one is not finite
 * @source corrected two-pass algorithm: Chan, Golub and LeVeque 1983, The American Statistician 37(3):242-247
 * @example sampleVariance([1, 2, 3, 4]) // 1.6666666666666667
 */
export function sampleVariance(values: ReadonlyArray<number>): number {
  const { scale, sum } = scaledSquares(deviationsFromMean("sampleVariance", values, 2).deviations);
  return (sum / (values.length - 1)) * scale * scale;
}

/**
 * Sample standard deviation: the root of the variance with divisor n - 1.
 * @param values two or more finite numbers in one unit
 * @returns the standard deviation in the same unit
 * @throws RangeError if there are fewer than two values or one is not finite
 * @source as {@link sampleVariance}
 * @example sampleStandardDeviation([10000001, 10000003, 10000002]) // 1
 */
export function sampleStandardDeviation(values: ReadonlyArray<number>): number {
  const { scale, sum } = scaledSquares(deviationsFromMean("sampleStandardDeviation", values, 2).deviations);
  return Math.sqrt(sum / (values.length - 1)) * scale;
}
