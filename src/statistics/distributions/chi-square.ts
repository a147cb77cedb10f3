import { requireOpenProbability } from "../require-numbers.ts";
import { gammaQuantile } from "./gamma-quantile.ts";
import { gammaTails } from "./gamma-tails.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";

/**
 * Probability that a chi-square variable is above x, exact also where it is tiny.
 * @param x the statistic; below 0 the answer is 1
 * @param degreesOfFreedom above 0 and finite, whole or not
 * @throws RangeError if x is not a number or the degrees of freedom are not finite and above 0
 * @source as an incomplete gamma function: Abramowitz and Stegun 1964, 26.4.19
 * @example chiSquareUpperTail(2, 2) // 1/e = 0.36787944117144233
 */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  requireStatistic("chiSquareUpperTail", "x", x);
  requireDegreesOfFreedom("chiSquareUpperTail", "degreesOfFreedom", degreesOfFreedom);
  return gammaTails("chiSquareUpperTail", degreesOfFreedom / 2, Math.max(0, x) / 2).upper;
}

/**
 * The x at or below which a chi-square variable falls with probability p.
 * @param p a probability above 0 and below 1
 * @param degreesOfFreedom above 0 and finite, whole or not
 * @throws RangeError if p is not strictly between 0 and 1 or the degrees of freedom are not finite and above 0
 * @source inverse of {@link chiSquareUpperTail}
 * @example chiSquareQuantile(0.95, 1) // 3.841458820694124
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  requireOpenProbability("chiSquareQuantile", "p", p);
  requireDegreesOfFreedom("chiSquareQuantile", "degreesOfFreedom", degreesOfFreedom);
  return 2 * gammaQuantile(p, degreesOfFreedom / 2);
}
