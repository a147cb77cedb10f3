import { mean } from "../descriptive/mean.ts";
import { requireSample } from "../require-numbers.ts";
import { controlConstants } from "./control-constants.ts";

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
  /** positions, from 0, of values outside the limits */
  outside: number[];
  /** positions, from 0 and as in `movingRanges`, of steps above their limit */
  movingRangesOutside: number[];
}

/**
 * Control chart for individual values: is the process steady, or has something changed?
 * @param values two or more in time order, in one unit
 * @param baseline how many leading values set the limits; all unless stated, which hides a change that is already there
 * @returns limits in the values' unit; all equal when the baseline does not vary
 * @throws RangeError if there are fewer than two values, one is not finite, or the baseline is not from 2 to the number of values
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2
 * @example individualsChart([10, 12, 11]).meanMovingRange // 1.5
 */
export function individualsChart(values: ReadonlyArray<number>, baseline = values.length): IndividualsChart {
  requireSample("individualsChart", "values", values, 2);
  if (!Number.isInteger(baseline) || baseline < 2 || baseline > values.length) {
    throw new RangeError(
      `individualsChart: baseline must be a whole number from 2 to ${values.length}; received ${baseline}`,
    );
  }
  const { d2, D4 } = controlConstants(2);
  const movingRanges = values.slice(1).map((value, index) => Math.abs(value - values[index]!));
  const centre = mean(values.slice(0, baseline));
  const meanMovingRange = mean(movingRanges.slice(0, baseline - 1));
  const sigma = meanMovingRange / d2;
  const lower = centre - 3 * sigma;
  const upper = centre + 3 * sigma;
  const movingRangeUpper = D4 * meanMovingRange;
  const positions = (column: number[], out: (value: number) => boolean): number[] =>
    column.flatMap((value, index) => (out(value) ? [index] : []));
  return {
    centre,
    lower,
    upper,
    sigma,
    meanMovingRange,
    movingRangeUpper,
    movingRanges,
    outside: positions([...values], (value) => value < lower || value > upper),
    movingRangesOutside: positions(movingRanges, (range) => range > movingRangeUpper),
  };
}
