import { fCdf, fUpperTail } from "../distributions/f.ts";
import { sampleVariance } from "./sample-variance.ts";

/** Outcome of comparing two variances. */
export interface VarianceRatioTest {
  /** variance of the first sample over that of the second */
  f: number;
  df1: number;
  df2: number;
  /** two-sided */
  p: number;
}

/**
 * Do the variances of two normal samples differ? Very sensitive to non-normal data.
 * @param a two or more finite numbers
 * @param b two or more finite numbers that are not all equal
 * @throws RangeError if a sample has fewer than two values, a value is not finite, or b does not vary
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.9
 * @example varianceRatioTest([1, 2, 3], [2, 4, 6]).f // 0.25
 */
export function varianceRatioTest(a: ReadonlyArray<number>, b: ReadonlyArray<number>): VarianceRatioTest {
  const varianceB = sampleVariance(b);
  if (varianceB === 0) throw new RangeError("varianceRatioTest: b must vary; received a variance of 0");
  const f = sampleVariance(a) / varianceB;
  const df1 = a.length - 1;
  const df2 = b.length - 1;
  return { f, df1, df2, p: Math.min(1, 2 * Math.min(fCdf(f, df1, df2), fUpperTail(f, df1, df2))) };
}
