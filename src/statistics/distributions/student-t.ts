import { requireOpenProbability } from "../require-numbers.ts";
import { betaQuantilePair } from "./beta-quantile-pair.ts";
import { betaTails } from "./beta-tails.ts";
import { normalQuantile, normalUpperTail } from "./normal.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";

/** Beyond this many degrees of freedom t and normal agree to more digits than a number holds. */
const practicallyNormal = 1e20;

/**
 * Probability that a t variable is t or less.
 * @param t the statistic; infinities are allowed
 * @param degreesOfFreedom above 0, whole or not, or infinity for the normal distribution
 * @returns a probability; relative error about 1e-13 in the lower tail
 * @throws RangeError if t is not a number or the degrees of freedom are not above 0
 * @source as an incomplete beta function: Abramowitz and Stegun 1964, 26.5.27
 * @example studentTCdf(1, 1) // 0.75
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireArguments("studentTCdf", t, degreesOfFreedom);
  return upperTail(-t, degreesOfFreedom);
}

/**
 * Probability that a t variable is above t, exact also where it is tiny.
 * @param t the statistic; infinities are allowed
 * @param degreesOfFreedom above 0, whole or not, or infinity for the normal distribution
 * @throws RangeError if t is not a number or the degrees of freedom are not above 0
 * @source as {@link studentTCdf}
 * @example studentTUpperTail(1, 1) // 0.25
 */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
  requireArguments("studentTUpperTail", t, degreesOfFreedom);
  return upperTail(t, degreesOfFreedom);
}

/**
 * Probability that a t variable is at least as far from 0 as t, on either side: the two-sided p-value.
 * @param t the statistic; infinities are allowed
 * @param degreesOfFreedom above 0, whole or not, or infinity for the normal distribution
 * @throws RangeError if t is not a number or the degrees of freedom are not above 0
 * @source as {@link studentTCdf}
 * @example studentTTwoTailed(-1, 1) // 0.5
 */
export function studentTTwoTailed(t: number, degreesOfFreedom: number): number {
  requireArguments("studentTTwoTailed", t, degreesOfFreedom);
  return bothTails(t, degreesOfFreedom);
}

/**
 * The t at or below which a t variable falls with probability p.
 * @param p a probability above 0 and below 1
 * @param degreesOfFreedom above 0, whole or not, or infinity for the normal distribution
 * @throws RangeError if p is not strictly between 0 and 1 or the degrees of freedom are not above 0
 * @source inverse of {@link studentTCdf}
 * @example studentTQuantile(0.975, 5) // 2.5705818356363137
 */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
  requireOpenProbability("studentTQuantile", "p", p);
  requireDegreesOfFreedom("studentTQuantile", "degreesOfFreedom", degreesOfFreedom);
  if (p === 0.5) return 0;
  if (degreesOfFreedom > practicallyNormal) return normalQuantile(p);
  const nearer = Math.min(p, 1 - p);
  const { x, y } = betaQuantilePair(2 * nearer, 1 - 2 * nearer, degreesOfFreedom / 2, 0.5);
  const t = Math.sqrt(degreesOfFreedom * (y / x));
  return p < 0.5 ? -t : t;
}

function requireArguments(routine: string, t: number, degreesOfFreedom: number): void {
  requireStatistic(routine, "t", t);
  requireDegreesOfFreedom(routine, "degreesOfFreedom", degreesOfFreedom);
}

function bothTails(t: number, degreesOfFreedom: number): number {
  const size = Math.abs(t);
  if (degreesOfFreedom > practicallyNormal) return 2 * normalUpperTail(size);
  // x = df / (df + t²) and 1 - x; where t² is no number any more, x is 0 and so is the tail
  const ratio = (size / degreesOfFreedom) * size;
  return betaTails(1 / (1 + ratio), ratio / (1 + ratio), degreesOfFreedom / 2, 0.5).lower;
}

function upperTail(t: number, degreesOfFreedom: number): number {
  const half = bothTails(t, degreesOfFreedom) / 2;
  return t >= 0 ? half : 1 - half;
}
