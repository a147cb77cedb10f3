import { mean } from "../descriptive/mean.ts";
import { requireFinite } from "../require-numbers.ts";
import { controlConstants } from "./control-constants.ts";

/** Limits for the means and ranges of small samples of equal size in time order. */
export interface MeanAndRangeChart {
  centre: number;
  lower: number;
  upper: number;
  /** standard deviation of a single value estimated from the ranges */
  sigma: number;
  meanRange: number;
  rangeLower: number;
  rangeUpper: number;
  means: number[];
  ranges: number[];
  /** positions, from 0, of samples whose mean lies outside its limits */
  meansOutside: number[];
  /** positions, from 0, of samples whose range lies outside its limits */
  rangesOutside: number[];
}

/**
 * Control chart for means and ranges of samples, such as the trays of one cook.
 * @param samples one or more samples of 2 to 10 values each, all of one size, in time order and one unit
 * @throws RangeError if there is no sample, sizes differ or are outside 2 to 10, or a value is not finite
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.1
 * @example meanAndRangeChart([[1, 3], [2, 4]]).meanRange // 2
 */
export function meanAndRangeChart(samples: ReadonlyArray<ReadonlyArray<number>>): MeanAndRangeChart {
  const size = samples[0]?.length ?? 0;
  const { d2, D3, D4, A2 } = controlConstants(size);
  for (const sample of samples) {
    requireFinite("meanAndRangeChart", "values", sample);
    if (sample.length !== size) {
      throw new RangeError(`meanAndRangeChart: samples must be of one size; received ${size} and ${sample.length}`);
    }
  }
  const means = samples.map((sample) => mean(sample));
  const ranges = samples.map((sample) => Math.max(...sample) - Math.min(...sample));
  const centre = mean(means);
  const meanRange = mean(ranges);
  const lower = centre - A2 * meanRange;
  const upper = centre + A2 * meanRange;
  const rangeLower = D3 * meanRange;
  const rangeUpper = D4 * meanRange;
  const outsideOf = (column: number[], low: number, high: number): number[] =>
    column.flatMap((value, index) => (value < low || value > high ? [index] : []));
  return {
    centre,
    lower,
    upper,
    sigma: meanRange / d2,
    meanRange,
    rangeLower,
    rangeUpper,
    means,
    ranges,
    meansOutside: outsideOf(means, lower, upper),
    rangesOutside: outsideOf(ranges, rangeLower, rangeUpper),
  };
}
