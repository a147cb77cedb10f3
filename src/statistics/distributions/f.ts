import { betaTails } from "./beta-tails.ts";
import { gammaTails } from "./gamma-tails.ts";
import { requireDegreesOfFreedom, requireStatistic } from "./require-degrees-of-freedom.ts";

/** Beyond this many degrees of freedom a variance ratio is a chi-square divided by its degrees of freedom, to every digit held. */
const practicallyInfinite = 1e20;

/**
 * Probability that an F variable is above f, exact also where it is tiny: the p-value of an analysis of variance.
 * @param f the variance ratio; below 0 the answer is 1, infinity is allowed
 * @param df1 degrees of freedom of the numerator, above 0, whole or not, or infinity
 * @param df2 degrees of freedom of the denominator, above 0, whole or not, or infinity
 * @throws RangeError if f is not a number or the degrees of freedom are not above 0
 * @source as an incomplete beta function: Abramowitz and Stegun 1964, 26.6.2
 * @example fUpperTail(3, 2, 2) // 0.25
 */
export function fUpperTail(f: number, df1: number, df2: number): number {
  requireStatistic("fUpperTail", "f", f);
  requireDegreesOfFreedom("fUpperTail", "df1", df1);
  requireDegreesOfFreedom("fUpperTail", "df2", df2);
  if (f <= 0) return 1;
  if (f === Number.POSITIVE_INFINITY) return 0;
  if (df1 > practicallyInfinite && df2 > practicallyInfinite) return f < 1 ? 1 : 0;
  if (df2 > practicallyInfinite) return gammaTails("fUpperTail", df1 / 2, (df1 / 2) * f).upper;
  if (df1 > practicallyInfinite) return gammaTails("fUpperTail", df2 / 2, df2 / 2 / f).lower;
  const ratio = (df1 / df2) * f;
  return betaTails(ratio / (1 + ratio), 1 / (1 + ratio), df1 / 2, df2 / 2).upper;
}
