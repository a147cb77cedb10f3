import { requireOpenProbability } from "../require-numbers.ts";
import { meanInterval } from "./mean-interval.ts";
import { type TTest, testEstimate } from "./t-test.ts";

/**
 * Do the means of two independent samples differ, their variances assumed equal?
 * @param a two or more finite numbers, each from its own experimental unit
 * @param b the same for the other sample
 * @param level confidence level of the interval, 0.95 unless stated
 * @returns mean of a minus mean of b with interval, t, degrees of freedom (nA + nB - 2) and two-sided p
 * @throws RangeError if a sample has fewer than two values, a value is not finite, or neither sample varies
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.3, equal variances
 * @example studentTTest([1, 2, 3], [2, 4, 6]).degreesOfFreedom // 4
 */
export function studentTTest(a: ReadonlyArray<number>, b: ReadonlyArray<number>, level = 0.95): TTest {
  requireOpenProbability("studentTTest", "level", level);
  const first = meanInterval(a, level);
  const second = meanInterval(b, level);
  const degreesOfFreedom = first.n + second.n - 2;
  const deviationA = first.standardError * Math.sqrt(first.n) * Math.sqrt((first.n - 1) / degreesOfFreedom);
  const deviationB = second.standardError * Math.sqrt(second.n) * Math.sqrt((second.n - 1) / degreesOfFreedom);
  const standardError = Math.hypot(deviationA, deviationB) * Math.sqrt(1 / first.n + 1 / second.n);
  return testEstimate("studentTTest", first.mean - second.mean, standardError, degreesOfFreedom, level);
}
