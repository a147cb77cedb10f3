import { mean } from "../descriptive/mean.ts";
import { requireSample } from "../require-numbers.ts";

/** Limits for single values in time order, and for the steps between neighbours. */
export interface IndividualsChart {
  centre: number;
  lower: number;
  upper: number;
  /** standard deviation estimated from the moving range: mean moving range / 1.128 */
  sigma: number;
  meanMovingRange: number;
  movingRangeUpper: number;
  /** |value - previous value|, one fewer than the values */
  movingRanges: number[];
}

/** Mean range of two normal values, in standard deviations (d2), to the three decimals in which it is published and used. */
export const meanRangeOfTwo = 1.128;
/** Upper limit of the range of two values over the mean range (D4), likewise. */
const rangeLimitOfTwo = 3.267;

/**
 * Control chart for individual values: is the process steady, or has something changed?
 * @param values two or more in time order, in one unit
 * @returns limits in the values' unit; all equal when the values do not vary
 * @throws RangeError if there are fewer than two values or one is not finite
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2; constants: section 6.3.2.1 and ASTM Manual 7
 * @example individualsChart([10, 12, 11]).meanMovingRange // 1.5
 */
export function individualsChart(values: ReadonlyArray<number>): IndividualsChart {
  requireSample("individualsChart", "values", values, 2);
  const movingRanges = values.slice(1).map((value, index) => Math.abs(value - values[index]!));
  const centre = mean(values);
  const meanMovingRange = mean(movingRanges);
  const sigma = meanMovingRange / meanRangeOfTwo;
  return {
    centre,
    lower: centre - 3 * sigma,
    upper: centre + 3 * sigma,
    sigma,
    meanMovingRange,
    movingRangeUpper: rangeLimitOfTwo * meanMovingRange,
    movingRanges,
  };
}
