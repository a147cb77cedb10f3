import { requireCount, requireOpenProbability } from "../require-numbers.ts";
import { integrateOverSpread } from "./integrate-over-spread.ts";
import { interpolatedRangeUpper } from "./interpolated-range.ts";
import { normalQuantile } from "./normal.ts";
import { normalRange } from "./normal-range.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";
import { tailQuantile } from "./tail-quantile.ts";

/**
 * Probability that the studentized range of several independent means is q or less.
 * @param q range of the means over the standard error of one mean; below 0 the answer is 0
 * @param groups how many means, a whole number of 2 or more
 * @param degreesOfFreedom of the standard error, above 0, whole or not, or infinity when it is known
 * @returns a probability; error below 1e-12
 * @throws RangeError if an argument is outside its range
 * @source Copenhaver and Holland 1988, Journal of Statistical Computation and Simulation 30(1):1-15, with own quadrature
 * @example studentizedRangeCdf(3.5, 3, 20) // 0.94410815...
 */
export function studentizedRangeCdf(q: number, groups: number, degreesOfFreedom: number): number {
  requireArguments("studentizedRangeCdf", q, groups, degreesOfFreedom);
  return lowerTail(q, groups, degreesOfFreedom);
}

/**
 * Probability that the studentized range of several independent means is above q, exact also where it is tiny: Tukey's
 * adjusted p-value.
 * @param q range of the means over the standard error of one mean; below 0 the answer is 1
 * @param groups how many means, a whole number of 2 or more
 * @param degreesOfFreedom of the standard error, above 0, whole or not, or infinity when it is known
 * @returns a probability; relative error below 1e-11
 * @throws RangeError if an argument is outside its range
 * @source as {@link studentizedRangeCdf}
 * @example studentizedRangeUpperTail(3.5, 3, 20) // 0.05589184...
 */
export function studentizedRangeUpperTail(q: number, groups: number, degreesOfFreedom: number): number {
  requireArguments("studentizedRangeUpperTail", q, groups, degreesOfFreedom);
  return upperTail(q, groups, degreesOfFreedom);
}

/**
 * The studentized range at or below which several independent means fall with probability p.
 * @param p a probability above 0 and below 1
 * @param groups how many means, a whole number of 2 or more
 * @param degreesOfFreedom of the standard error, above 0, whole or not, or infinity when it is known
 * @throws RangeError if an argument is outside its range
 * @source inverse of {@link studentizedRangeCdf}
 * @example studentizedRangeQuantile(0.95, 4, 16) // 4.046...
 */
export function studentizedRangeQuantile(p: number, groups: number, degreesOfFreedom: number): number {
  requireOpenProbability("studentizedRangeQuantile", "p", p);
  requireArguments("studentizedRangeQuantile", 0, groups, degreesOfFreedom);
  // a Bonferroni bound for known spread; the search widens from there
  const centre = Math.max(0.5, -Math.SQRT2 * normalQuantile((1 - p) / (groups * (groups - 1))));
  return tailQuantile(
    p,
    (q) => lowerTail(q, groups, degreesOfFreedom),
    (q) => upperTail(q, groups, degreesOfFreedom),
    centre,
    centre / 4,
    0,
  );
}

function requireArguments(routine: string, q: number, groups: number, degreesOfFreedom: number): void {
  requireStatistic(routine, "q", q);
  requireCount(routine, "groups", groups, 2);
  requireDegreesOfFreedom(routine, "degreesOfFreedom", degreesOfFreedom);
}

function lowerTail(q: number, groups: number, degreesOfFreedom: number): number {
  if (q <= 0) return 0;
  if (q > 1e150) return 1 - upperTail(q, groups, degreesOfFreedom);
  const range = normalRange(groups);
  return Math.min(
    1,
    integrateOverSpread(degreesOfFreedom, (s) => range.lower(q * s)),
  );
}

function upperTail(q: number, groups: number, degreesOfFreedom: number): number {
  if (q <= 0) return 1;
  if (q === Number.POSITIVE_INFINITY) return 0;
  const rangeAbove = interpolatedRangeUpper(groups);
  const peak =
    degreesOfFreedom === Number.POSITIVE_INFINITY ? 1 : 1 / Math.hypot(1, q / Math.sqrt(2 * degreesOfFreedom));
  return Math.min(
    1,
    integrateOverSpread(degreesOfFreedom, (s) => rangeAbove(q * s), peak),
  );
}
