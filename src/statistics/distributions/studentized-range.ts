import { requireCount } from "../require-numbers.ts";
import { integrateOverSpread } from "./integrate-over-spread.ts";
import { interpolatedRangeUpper } from "./interpolated-range.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";

/**
 * Probability that the studentized range of several independent means is above q, exact also where it is tiny: Tukey's
 * adjusted p-value.
 * @param q range of the means over the standard error of one mean; below 0 the answer is 1
 * @param groups how many means, a whole number of 2 or more
 * @param degreesOfFreedom of the standard error, above 0, whole or not, or infinity when it is known
 * @returns a probability; relative error below 1e-11
 * @throws RangeError if an argument is outside its range
 * @source Copenhaver and Holland 1988, Journal of Statistical Computation and Simulation 30(1):1-15, with own quadrature
 * @example studentizedRangeUpperTail(3.5, 3, 20) // 0.05589184...
 */
export function studentizedRangeUpperTail(q: number, groups: number, degreesOfFreedom: number): number {
  const routine = "studentizedRangeUpperTail";
  requireStatistic(routine, "q", q);
  requireCount(routine, "groups", groups, 2);
  requireDegreesOfFreedom(routine, "degreesOfFreedom", degreesOfFreedom);
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
