import { deviationsFromMean } from "./deviations.ts";

/**
 * Arithmetic mean.
 * @param values one or more finite numbers in one unit
 * @returns the mean in the same unit
 * @throws RangeError if there are no values or one is not finite
 * @source two-pass mean: Chan, Golub and LeVeque 1983, The American Statistician 37(3):242-247
 * @example mean([0.1, 0.2, 0.3]) // 0.2
 */
export function mean(values: ReadonlyArray<number>): number {
  return deviationsFromMean("mean", values, 1).mean;
}
