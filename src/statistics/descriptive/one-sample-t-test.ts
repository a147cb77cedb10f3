import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { meanInterval } from "./mean-interval.ts";
import { type TTest, testEstimate } from "./t-test.ts";

/**
 * Does the mean of one sample differ from a stated value?
 * @param values two or more finite numbers that are not all equal, each from its own experimental unit
 * @param against the stated value, 0 unless given
 * @param level confidence level of the interval, 0.95 unless stated
 * @returns the mean (not its difference from the stated value) with interval, t, degrees of freedom and two-sided p
 * @throws RangeError if there are fewer than two values, one is not finite, all are equal, or the level is not between 0 and 1
 * @source Student 1908, Biometrika 6(1):1-25
 * @example oneSampleTTest([1, 2, 3]).t // 3.4641016151377544
 */
export function oneSampleTTest(values: ReadonlyArray<number>, against = 0, level = 0.95): TTest {
  requireOpenProbability("oneSampleTTest", "level", level);
  requireFinite("oneSampleTTest", "against", [against]);
  const { mean, standardError, degreesOfFreedom } = meanInterval(values, level);
  return testEstimate("oneSampleTTest", mean, standardError, degreesOfFreedom, level, against);
}
