import { power } from "../power.ts";
import { requireFinite, requirePositive, requireSample } from "../require-numbers.ts";

/** Settings of an exponentially weighted moving average chart. */
export interface WeightedAverageSettings {
  /** weight of the newest value, above 0 and at most 1; 0.2 to 0.3 is usual */
  weight: number;
  /** where the process should be, or its mean over a steady stretch; the average starts here */
  target: number;
  /** of single values, over a steady stretch, in their unit */
  standardDeviation: number;
}

/** One point of the chart. */
export interface WeightedAveragePoint {
  average: number;
  lower: number;
  upper: number;
  outside: boolean;
}

/**
 * Exponentially weighted moving average chart: sensitive to small, lasting shifts.
 * @param values one or more in time order, in one unit
 * @returns one point per value, with limits of three standard deviations of that average
 * @throws RangeError if there are no values, one is not finite, or a setting is out of range
 * @source Roberts 1959, Technometrics 1(3):239-250; NIST/SEMATECH e-Handbook, section 6.3.2.4
 * @example weightedAverageChart([52], { weight: 0.3, target: 50, standardDeviation: 2 })[0].average // 50.6
 */
export function weightedAverageChart(
  values: ReadonlyArray<number>,
  settings: WeightedAverageSettings,
): WeightedAveragePoint[] {
  const { weight, target, standardDeviation } = settings;
  requireSample("weightedAverageChart", "values", values, 1);
  requireFinite("weightedAverageChart", "target", [target]);
  requirePositive("weightedAverageChart", "standardDeviation", standardDeviation);
  if (!(weight > 0 && weight <= 1)) {
    throw new RangeError(`weightedAverageChart: weight must be above 0 and at most 1; received ${weight}`);
  }
  let average = target;
  return values.map((value, index) => {
    average = weight * value + (1 - weight) * average;
    const settled = 1 - power(1 - weight, 2 * (index + 1));
    const reach = 3 * standardDeviation * Math.sqrt((weight / (2 - weight)) * settled);
    const lower = target - reach;
    const upper = target + reach;
    return { average, lower, upper, outside: average < lower || average > upper };
  });
}
