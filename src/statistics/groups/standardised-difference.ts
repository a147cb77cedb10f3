import { findRoot } from "../distributions/find-root.ts";
import { logGamma } from "../distributions/gamma.ts";
import { noncentralTCdf } from "../distributions/noncentral-t.ts";
import { toNumber } from "../linear-algebra/double-double.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { sumsOfGroups } from "./group-sums.ts";

/** A difference of two means in units of the standard deviation within groups. */
export interface StandardisedDifference {
  /** second mean less the first, over the pooled standard deviation */
  cohensD: number;
  /** limits of the population value, for both estimates */
  lower: number;
  upper: number;
  /** Cohen's d with its small-sample bias removed */
  hedgesG: number;
  level: number;
}

/**
 * How many standard deviations apart two groups are.
 * @param first values of one group, second of the other; at least two in all but one group, none empty
 * @param level of the interval; 0.95 unless stated
 * @returns both estimates with an interval from the noncentral t distribution
 * @throws RangeError if a group is empty, both have one value, a value is not finite, or nothing varies within groups
 * @source Hedges and Olkin 1985, Statistical Methods for Meta-Analysis, 81-86; interval: Steiger and Fouladi 1997, in
 *   What If There Were No Significance Tests, 221-257
 * @example standardisedDifference([1, 2, 3], [2, 3, 4]).cohensD // 1
 */
export function standardisedDifference(
  first: ReadonlyArray<number>,
  second: ReadonlyArray<number>,
  level = 0.95,
): StandardisedDifference {
  const routine = "standardisedDifference";
  requireOpenProbability(routine, "level", level);
  const [a, b] = sumsOfGroups(routine, [first, second], 1);
  const df = first.length + second.length - 2;
  const pooled = Math.sqrt((toNumber(a!.sumOfSquares) + toNumber(b!.sumOfSquares)) / Math.max(df, 1));
  if (pooled === 0)
    throw new RangeError(`${routine}: values must differ within a group; received groups without spread`);
  const cohensD = (toNumber(b!.mean) - toNumber(a!.mean)) / pooled;
  const perUnit = Math.sqrt((first.length * second.length) / (first.length + second.length));
  const t = cohensD * perUnit;
  return {
    cohensD,
    lower: noncentralityOfT(t, df, (1 + level) / 2) / perUnit,
    upper: noncentralityOfT(t, df, (1 - level) / 2) / perUnit,
    hedgesG: cohensD * smallSampleFactor(df),
    level,
  };
}

/** The noncentrality under which t or less has the probability wanted. */
function noncentralityOfT(t: number, df: number, target: number): number {
  const above = (noncentrality: number) => noncentralTCdf(t, df, noncentrality) - target;
  let reach = 4 + Math.abs(t);
  while (above(t - reach) < 0 || above(t + reach) > 0) reach *= 2;
  return findRoot(above, t - reach, t + reach, 1e-12);
}

/** What turns Cohen's d into Hedges' g: exact, not the usual 1 - 3 / (4 df - 1). */
function smallSampleFactor(df: number): number {
  if (df === 1) return 0;
  return Math.exp(logGamma(df / 2) - logGamma((df - 1) / 2)) / Math.sqrt(df / 2);
}
