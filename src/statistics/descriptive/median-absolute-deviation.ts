import { requireSample } from "../require-numbers.ts";
import { median } from "./quantile.ts";

/** Makes the median absolute deviation of normal data estimate the standard deviation: 1 / the normal 0.75 quantile. */
export const normalConsistency = 1.4826;

/**
 * Median absolute deviation from the median: a spread that a few wild values cannot move.
 * @param values one or more finite numbers
 * @returns `raw` in the values' unit, and `scaled`, raw × 1.4826, which estimates the standard deviation of normal data
 * @throws RangeError if there are no values or one is not finite
 * @source Hampel 1974, Journal of the American Statistical Association 69(346):383-393
 * @example medianAbsoluteDeviation([1, 2, 3, 4, 100]).raw // 1
 */
export function medianAbsoluteDeviation(values: ReadonlyArray<number>): { raw: number; scaled: number } {
  requireSample("medianAbsoluteDeviation", "values", values, 1);
  const centre = median(values);
  const raw = median(values.map((value) => Math.abs(value - centre)));
  return { raw, scaled: normalConsistency * raw };
}
