import { studentTQuantile } from "../distributions/student-t.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { deviationsFromMean, scaledSquares } from "./deviations.ts";

/** A mean with its interval. */
export interface MeanInterval {
  mean: number;
  lower: number;
  upper: number;
  /** confidence level, 0 to 1, both sides together */
  level: number;
  standardError: number;
  degreesOfFreedom: number;
  n: number;
}

/**
 * Mean of a sample with its t interval.
 * @param values two or more finite numbers, each from its own experimental unit
 * @param level confidence level, 0.95 unless stated
 * @returns mean, interval and standard error in the values' unit; a zero-width interval when all values are equal
 * @throws RangeError if there are fewer than two values, one is not finite, or the level is not between 0 and 1
 * @source Student 1908, Biometrika 6(1):1-25
 * @example meanInterval([1, 2, 3]).upper // 4.4841377...
 */
export function meanInterval(values: ReadonlyArray<number>, level = 0.95): MeanInterval {
  requireOpenProbability("meanInterval", "level", level);
  const { mean, deviations } = deviationsFromMean("meanInterval", values, 2);
  const { scale, sum } = scaledSquares(deviations);
  const n = values.length;
  const standardError = Math.sqrt(sum / (n - 1) / n) * scale;
  const reach = studentTQuantile((1 + level) / 2, n - 1) * standardError;
  return { mean, lower: mean - reach, upper: mean + reach, level, standardError, degreesOfFreedom: n - 1, n };
}
