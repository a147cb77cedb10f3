import { studentTQuantile } from "../distributions/student-t.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";

/** Two estimates whose ratio is asked for, and how sure they are. */
export interface FiellerMeans {
  numerator: number;
  denominator: number;
  /** squared standard errors */
  varianceNumerator: number;
  varianceDenominator: number;
  covariance: number;
  /** of the variances; Infinity when they are known */
  degreesOfFreedom: number;
}

export interface FiellerInput extends FiellerMeans {
  /** 0.95 when absent */
  level?: number;
}

/** The values of a ratio that the data do not contradict: not always an interval. */
export type FiellerSet =
  /** low to high */
  | { kind: "bounded"; low: number; high: number }
  /** low and up; or up to high (the denominator is exactly at its critical value) */
  | { kind: "one-sided"; low: number }
  | { kind: "one-sided"; high: number }
  /** everything but the values between `below` and `above`: the denominator may be 0, so very large ratios of either sign are possible */
  | { kind: "exclusive"; below: number; above: number }
  /** every value: the data say nothing of the ratio */
  | { kind: "whole-line" };

export type FiellerRatio = FiellerSet & {
  /** one plain sentence without a full stop */
  says: string;
};

/**
 * Fieller's set for a ratio of two estimates: all values r for which numerator - r x denominator is not significantly different from 0.
 * @returns the set with its kind; when the denominator is not significantly different from 0 the set is not bounded
 * @throws RangeError if a value is not finite, a variance is below 0, the covariance is larger than the variances allow, the
 *   denominator is 0 with variance 0, or the degrees of freedom are not above 0
 * @source Fieller 1954, Journal of the Royal Statistical Society B 16(2):175-185
 * @example fiellerRatio({ numerator: 10, denominator: 5, varianceNumerator: 1, varianceDenominator: 0, covariance: 0, degreesOfFreedom: Infinity }).kind // "bounded"
 */
export function fiellerRatio(input: FiellerInput): FiellerRatio {
  const { numerator, denominator, varianceNumerator, varianceDenominator, covariance, degreesOfFreedom } = input;
  const level = input.level ?? 0.95;
  requireOpenProbability("fiellerRatio", "level", level);
  requireFinite("fiellerRatio", "numerator and denominator", [numerator, denominator]);
  requireFinite("fiellerRatio", "variances and covariance", [varianceNumerator, varianceDenominator, covariance]);
  if (varianceNumerator < 0 || varianceDenominator < 0) {
    throw new RangeError(
      `fiellerRatio: variances must be 0 or more; received ${varianceNumerator}, ${varianceDenominator}`,
    );
  }
  if (covariance * covariance > varianceNumerator * varianceDenominator * (1 + 1e-9)) {
    throw new RangeError(`fiellerRatio: the covariance ${covariance} is larger than the variances allow`);
  }
  if (denominator === 0 && varianceDenominator === 0) {
    throw new RangeError("fiellerRatio: the denominator is exactly 0, so there is no ratio");
  }
  const t = studentTQuantile((1 + level) / 2, degreesOfFreedom);
  // r^2 a - 2 r b + c <= 0
  const a = denominator * denominator - t * t * varianceDenominator;
  const b = numerator * denominator - t * t * covariance;
  const c = numerator * numerator - t * t * varianceNumerator;
  const set = solve(a, b, c, denominator * denominator);
  return { ...set, says: sentence(set) };
}

/**
 * The ratio at which the estimates lie t standard errors away from it: the end of Fieller's one-sided interval for that t.
 * With t drawn from Student's distribution these are draws of the ratio whose quantiles are Fieller's limits.
 * @returns Infinity or minus Infinity where no ratio lies so far off
 * @source Fieller 1954, Journal of the Royal Statistical Society B 16(2):175-185
 * @example fiellerRatioAt(0, { numerator: 10, denominator: 5, varianceNumerator: 1, varianceDenominator: 0, covariance: 0, degreesOfFreedom: 7 }) // 2
 */
export function fiellerRatioAt(t: number, means: FiellerMeans): number {
  const { numerator: y, denominator: x, varianceNumerator, varianceDenominator, covariance } = means;
  const a = x * x - t * t * varianceDenominator;
  if (!(a > 0)) return t > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  const b = x * y - t * t * covariance;
  const c = y * y - t * t * varianceNumerator;
  return (b + Math.sign(t) * Math.sqrt(Math.max(0, b * b - a * c))) / a;
}

function solve(a: number, b: number, c: number, scale: number): FiellerSet {
  const discriminant = b * b - a * c;
  if (Math.abs(a) <= 1e-14 * scale) {
    if (b === 0) return { kind: "whole-line" };
    return b > 0 ? { kind: "one-sided", low: c / (2 * b) } : { kind: "one-sided", high: c / (2 * b) };
  }
  if (discriminant <= 0) {
    // a > 0 with rounding below 0 happens only when both variances are 0: the ratio is exact
    return a > 0 ? { kind: "bounded", low: b / a, high: b / a } : { kind: "whole-line" };
  }
  // the root that adds numbers of one sign first, the other from their product, so that neither cancels
  const sum = b + (b >= 0 ? 1 : -1) * Math.sqrt(discriminant);
  const roots = [sum / a, c / sum].sort((x, y) => x - y) as [number, number];
  return a > 0
    ? { kind: "bounded", low: roots[0], high: roots[1] }
    : { kind: "exclusive", below: roots[0], above: roots[1] };
}

function sentence(set: FiellerSet): string {
  switch (set.kind) {
    case "bounded":
      return "the ratio lies between the two limits";
    case "one-sided":
      return "low" in set
        ? "the data set a lower limit and no upper one"
        : "the data set an upper limit and no lower one";
    case "exclusive":
      return "the denominator may be 0: only the values between the two limits are ruled out";
    case "whole-line":
      return "the data rule out no value of the ratio";
  }
}
