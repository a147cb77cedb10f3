import { requireOpenProbability } from "../require-numbers.ts";
import { meanInterval } from "./mean-interval.ts";
import { type TTest, testEstimate } from "./t-test.ts";
import { welchDegreesOfFreedom } from "./welch-degrees-of-freedom.ts";

/**
 * Do the means of two independent samples differ, their variances not assumed equal?
 * @param a two or more finite numbers, each from its own experimental unit
 * @param b the same for the other sample
 * @param level confidence level of the interval, 0.95 unless stated
 * @returns mean of a minus mean of b with interval, t, fractional degrees of freedom and two-sided p
 * @throws RangeError if a sample has fewer than two values, a value is not finite, or neither sample varies
 * @source Welch 1947, Biometrika 34(1/2):28-35
 * @example welchTTest([1, 2, 3], [2, 4, 6]).degreesOfFreedom // 2.941176470588235
 */
export function welchTTest(a: ReadonlyArray<number>, b: ReadonlyArray<number>, level = 0.95): TTest {
  requireOpenProbability("welchTTest", "level", level);
  const first = meanInterval(a, level);
  const second = meanInterval(b, level);
  const standardError = Math.hypot(first.standardError, second.standardError);
  // a relative scale keeps tiny or huge units within the range of numbers
  const scale = standardError > 0 ? standardError : 1;
  const degreesOfFreedom =
    standardError > 0
      ? welchDegreesOfFreedom(
          (first.standardError / scale) ** 2 * first.n,
          first.n,
          (second.standardError / scale) ** 2 * second.n,
          second.n,
        )
      : first.n + second.n - 2;
  return testEstimate("welchTTest", first.mean - second.mean, standardError, degreesOfFreedom, level);
}
