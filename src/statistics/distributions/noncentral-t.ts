import { requireFinite } from "../require-numbers.ts";
import { betaTails } from "./beta-tails.ts";
import { integrateOverSpread } from "./integrate-over-spread.ts";
import { normalUpperTail } from "./normal.ts";
import { poissonMixture } from "./poisson-mixture.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";
import { studentTUpperTail } from "./student-t.ts";

/**
 * Probability that a noncentral t variable is above t, exact also where it is tiny.
 * @param t the statistic; infinities are allowed
 * @param degreesOfFreedom above 0, whole or not, or infinity
 * @param noncentrality the true difference over its true standard error; any finite number
 * @returns a probability; relative error about 1e-12
 * @throws RangeError if an argument is outside its range
 * @source Lenth 1989, algorithm AS 243, Applied Statistics 38(1):185-189: a Poisson mixture of incomplete beta functions;
 *   for t and noncentrality of opposite signs, where the mixture cancels, the defining integral
 * @example noncentralTUpperTail(0, 8, 0) // 0.5
 */
export function noncentralTUpperTail(t: number, degreesOfFreedom: number, noncentrality: number): number {
  const routine = "noncentralTUpperTail";
  requireStatistic(routine, "t", t);
  requireDegreesOfFreedom(routine, "degreesOfFreedom", degreesOfFreedom);
  requireFinite(routine, "noncentrality", [noncentrality]);
  if (t === Number.POSITIVE_INFINITY) return 0;
  if (t === Number.NEGATIVE_INFINITY) return 1;
  if (degreesOfFreedom > 1e20) return normalUpperTail(t - noncentrality);
  if (noncentrality === 0) return studentTUpperTail(t, degreesOfFreedom);
  if (t === 0) return normalUpperTail(-noncentrality);
  if (t > 0 && noncentrality > 0) return Math.min(1, mixture(t, degreesOfFreedom, noncentrality).upper);
  if (t < 0 && noncentrality < 0) {
    return Math.min(1, normalUpperTail(-noncentrality) + mixture(-t, degreesOfFreedom, -noncentrality).lower);
  }
  if (t > 0) return oppositeTail(t, degreesOfFreedom, -noncentrality);
  return 1 - oppositeTail(-t, degreesOfFreedom, noncentrality);
}

/** The parts of the distribution above t and between 0 and t, for t and noncentrality above 0. */
function mixture(t: number, degreesOfFreedom: number, noncentrality: number): { lower: number; upper: number } {
  const ratio = (t / degreesOfFreedom) * t;
  const [x, y] = ratio > 1e300 ? [1, degreesOfFreedom / t / t] : [ratio / (1 + ratio), 1 / (1 + ratio)];
  const mean = (noncentrality / 2) * noncentrality;
  const part = (tail: "lower" | "upper"): number => {
    const value = (index: number): number => betaTails(x, y, index + 0.5, degreesOfFreedom / 2)[tail];
    return mean === 0 ? value(0) / 2 : (poissonMixture(mean, 0, value) + poissonMixture(mean, 0.5, value)) / 2;
  };
  return { lower: part("lower"), upper: part("upper") };
}

/** The chance of exceeding t above 0 when the true mean lies `distance` below 0: a normal tail averaged over s. */
function oppositeTail(t: number, degreesOfFreedom: number, distance: number): number {
  const peak = 1 / Math.hypot(1, t / Math.sqrt(degreesOfFreedom));
  return integrateOverSpread(degreesOfFreedom, (s) => normalUpperTail(t * s + distance), peak);
}
