import { compensatedSum, deviationsFromMean, scaledSquares } from "./deviations.ts";

/**
 * Correlation of each value with the one before it: how far neighbours in time or on the shelf resemble each other.
 * @param values two or more finite numbers in their order, not all equal
 * @returns Σ (y[i] - ȳ)(y[i + 1] - ȳ) / Σ (y[i] - ȳ)², between -1 and 1
 * @throws RangeError if there are fewer than two values, one is not finite, or all are equal
 * @source NIST Statistical Reference Datasets, univariate summary statistics: lag-1 autocorrelation
 * @example lagOneAutocorrelation([10000001, 10000003, 10000002]) // -0.5
 */
export function lagOneAutocorrelation(values: ReadonlyArray<number>): number {
  const { deviations } = deviationsFromMean("lagOneAutocorrelation", values, 2);
  const { scale, sum } = scaledSquares(deviations);
  if (sum === 0) throw new RangeError(`lagOneAutocorrelation: the values must not all be equal; received ${values[0]}`);
  const products = deviations.subarray(1).map((deviation, index) => (deviation / scale) * (deviations[index]! / scale));
  return compensatedSum(products) / sum;
}
