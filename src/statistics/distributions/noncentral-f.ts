import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { betaTails } from "./beta-tails.ts";
import { fCdf, fUpperTail } from "./f.ts";
import { gammaTails } from "./gamma.ts";
import { poissonMixture } from "./poisson-mixture.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";
import { tailQuantile } from "./tail-quantile.ts";

/**
 * Probability that a noncentral F variable is f or less.
 * @param f the variance ratio; below 0 the answer is 0
 * @param df1 degrees of freedom of the numerator, above 0 and finite
 * @param df2 degrees of freedom of the denominator, above 0, or infinity
 * @param noncentrality sum of squared true effects over the error variance, 0 or more (no division by 2 or by df1)
 * @returns a probability; relative error about 1e-12
 * @throws RangeError if an argument is outside its range
 * @source Poisson mixture of incomplete beta functions: Johnson, Kotz and Balakrishnan 1995, Continuous Univariate
 *   Distributions 2, chapter 30
 * @example noncentralFCdf(1, 2, 2, 0) // 0.5
 */
export function noncentralFCdf(f: number, df1: number, df2: number, noncentrality: number): number {
  requireArguments("noncentralFCdf", f, df1, df2, noncentrality);
  return tail("lower", f, df1, df2, noncentrality);
}

/**
 * Probability that a noncentral F variable is above f, exact also where it is tiny: the power of an analysis of variance.
 * @param f the variance ratio; below 0 the answer is 1
 * @param df1 degrees of freedom of the numerator, above 0 and finite
 * @param df2 degrees of freedom of the denominator, above 0, or infinity
 * @param noncentrality sum of squared true effects over the error variance, 0 or more (no division by 2 or by df1)
 * @throws RangeError if an argument is outside its range
 * @source as {@link noncentralFCdf}
 * @example noncentralFUpperTail(3, 2, 2, 0) // 0.25
 */
export function noncentralFUpperTail(f: number, df1: number, df2: number, noncentrality: number): number {
  requireArguments("noncentralFUpperTail", f, df1, df2, noncentrality);
  return tail("upper", f, df1, df2, noncentrality);
}

/**
 * The variance ratio at or below which a noncentral F variable falls with probability p.
 * @param p a probability above 0 and below 1
 * @param df1 degrees of freedom of the numerator, above 0 and finite
 * @param df2 degrees of freedom of the denominator, above 0, or infinity
 * @param noncentrality sum of squared true effects over the error variance, 0 or more (no division by 2 or by df1)
 * @throws RangeError if an argument is outside its range
 * @source inverse of {@link noncentralFCdf}
 * @example noncentralFQuantile(0.75, 2, 2, 0) // 3
 */
export function noncentralFQuantile(p: number, df1: number, df2: number, noncentrality: number): number {
  requireOpenProbability("noncentralFQuantile", "p", p);
  requireArguments("noncentralFQuantile", 1, df1, df2, noncentrality);
  const centre = 1 + noncentrality / df1;
  return tailQuantile(
    p,
    (f) => tail("lower", f, df1, df2, noncentrality),
    (f) => tail("upper", f, df1, df2, noncentrality),
    centre,
    centre,
    0,
  );
}

function requireArguments(routine: string, f: number, df1: number, df2: number, noncentrality: number): void {
  requireStatistic(routine, "f", f);
  requireDegreesOfFreedom(routine, "df1", df1);
  requireDegreesOfFreedom(routine, "df2", df2);
  requireFinite(routine, "df1", [df1]);
  requireFinite(routine, "noncentrality", [noncentrality]);
  if (noncentrality < 0) {
    throw new RangeError(`${routine}: noncentrality must be 0 or more; received ${noncentrality}`);
  }
}

function tail(side: "lower" | "upper", f: number, df1: number, df2: number, noncentrality: number): number {
  const mean = noncentrality / 2;
  if (f <= 0 || f === Number.POSITIVE_INFINITY || mean === 0) {
    return side === "lower" ? fCdf(f, df1, df2) : fUpperTail(f, df1, df2);
  }
  const ratio = (df1 / df2) * f;
  const value = (index: number): number =>
    df2 > 1e20
      ? gammaTails("noncentralF", df1 / 2 + index, (df1 / 2) * f)[side]
      : betaTails(ratio / (1 + ratio), 1 / (1 + ratio), df1 / 2 + index, df2 / 2)[side];
  return Math.min(1, poissonMixture(mean, 0, value));
}
