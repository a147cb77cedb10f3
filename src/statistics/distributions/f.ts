import { requireOpenProbability } from "../require-numbers.ts";
import { betaQuantilePair } from "./beta-quantile-pair.ts";
import { type BetaTails, betaTails } from "./beta-tails.ts";
import { gammaTails } from "./gamma.ts";
import { gammaPoint } from "./gamma-quantile.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";

/** Beyond this many degrees of freedom a variance ratio is a chi-square divided by its degrees of freedom, to every digit held. */
const practicallyInfinite = 1e20;

/**
 * Probability that an F variable is f or less.
 * @param f the variance ratio; below 0 the answer is 0, infinity is allowed
 * @param df1 degrees of freedom of the numerator, above 0, whole or not, or infinity
 * @param df2 degrees of freedom of the denominator, above 0, whole or not, or infinity
 * @returns a probability; relative error about 1e-13 in the lower tail
 * @throws RangeError if f is not a number or the degrees of freedom are not above 0
 * @source as an incomplete beta function: Abramowitz and Stegun 1964, 26.6.2
 * @example fCdf(1, 2, 2) // 0.5
 */
export function fCdf(f: number, df1: number, df2: number): number {
  return tails("fCdf", f, df1, df2).lower;
}

/**
 * Probability that an F variable is above f, exact also where it is tiny: the p-value of an analysis of variance.
 * @param f the variance ratio; below 0 the answer is 1, infinity is allowed
 * @param df1 degrees of freedom of the numerator, above 0, whole or not, or infinity
 * @param df2 degrees of freedom of the denominator, above 0, whole or not, or infinity
 * @throws RangeError if f is not a number or the degrees of freedom are not above 0
 * @source as {@link fCdf}
 * @example fUpperTail(3, 2, 2) // 0.25
 */
export function fUpperTail(f: number, df1: number, df2: number): number {
  return tails("fUpperTail", f, df1, df2).upper;
}

/**
 * The variance ratio at or below which an F variable falls with probability p.
 * @param p a probability above 0 and below 1
 * @param df1 degrees of freedom of the numerator, above 0, whole or not, or infinity
 * @param df2 degrees of freedom of the denominator, above 0, whole or not, or infinity
 * @throws RangeError if p is not strictly between 0 and 1 or the degrees of freedom are not above 0
 * @source inverse of {@link fCdf}
 * @example fQuantile(0.75, 2, 2) // 3
 */
export function fQuantile(p: number, df1: number, df2: number): number {
  requireOpenProbability("fQuantile", "p", p);
  requireDegreesOfFreedom("fQuantile", "df1", df1);
  requireDegreesOfFreedom("fQuantile", "df2", df2);
  if (df1 > practicallyInfinite && df2 > practicallyInfinite) return 1;
  if (df2 > practicallyInfinite) return gammaPoint(p, 1 - p, df1 / 2) / (df1 / 2);
  if (df1 > practicallyInfinite) return df2 / 2 / gammaPoint(1 - p, p, df2 / 2);
  const { x, y } = betaQuantilePair(p, 1 - p, df1 / 2, df2 / 2);
  return (df2 / df1) * (x / y);
}

function tails(routine: string, f: number, df1: number, df2: number): BetaTails {
  requireStatistic(routine, "f", f);
  requireDegreesOfFreedom(routine, "df1", df1);
  requireDegreesOfFreedom(routine, "df2", df2);
  if (f <= 0) return { lower: 0, upper: 1 };
  if (f === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  if (df1 > practicallyInfinite && df2 > practicallyInfinite) {
    return f < 1 ? { lower: 0, upper: 1 } : { lower: 1, upper: 0 };
  }
  if (df2 > practicallyInfinite) return gammaTails(routine, df1 / 2, (df1 / 2) * f);
  if (df1 > practicallyInfinite) {
    const reversed = gammaTails(routine, df2 / 2, df2 / 2 / f);
    return { lower: reversed.upper, upper: reversed.lower };
  }
  const ratio = (df1 / df2) * f;
  return betaTails(ratio / (1 + ratio), 1 / (1 + ratio), df1 / 2, df2 / 2);
}
