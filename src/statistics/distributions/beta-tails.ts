import { betaLowerLargeShape } from "./beta-large-shape.ts";
import { devianceTerm, stirlingError } from "./stirling-error.ts";

/** Both tails of a beta distribution at one point; they add up to 1. */
export interface BetaTails {
  /** the chance of x or less */
  lower: number;
  /** the chance of more than x */
  upper: number;
}

/**
 * x^a y^b / B(a, b), the slope of the beta distribution function against log(x / y).
 * @param x a number from 0 to 1, and y = 1 - x given on its own so that neither loses digits
 * @source Loader 2000, Fast and accurate computation of binomial probabilities (unpublished report), carried over to real
 *   a and b
 * @internal
 */
export function betaLogitSlope(x: number, y: number, a: number, b: number): number {
  const n = a + b;
  const exponent =
    stirlingError(n) - stirlingError(a) - stirlingError(b) - devianceTerm(a, n * x) - devianceTerm(b, n * y);
  return Math.sqrt((a / n) * (b / (2 * Math.PI))) * Math.exp(exponent);
}

/**
 * Both tails of the beta distribution with shapes a and b. The tail on the side of x away from the mean is computed
 * directly, so it keeps its digits however small it is.
 * @param x from 0 to 1, and y = 1 - x as accurately as it is known; a and b finite and above 0
 * @source power series and continued fraction: DiDonato and Morris 1992, Algorithm 708, ACM Transactions on Mathematical
 *   Software 18(3):360-373, routines BPSER and BFRAC; evaluating the fraction: Lentz 1976, Applied Optics 15(3):668-671
 * @internal
 */
export function betaTails(x: number, y: number, a: number, b: number): BetaTails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  if (x > (a + 1) / (a + b + 2)) {
    const { lower, upper } = nearTail(y, x, b, a);
    return { lower: upper, upper: lower };
  }
  return nearTail(x, y, a, b);
}

function nearTail(x: number, y: number, a: number, b: number): BetaTails {
  if (a >= 40 && a >= 4 * b * b && y <= 0.3) {
    const lower = Math.min(1, betaLowerLargeShape(x, y, a, b));
    return { lower, upper: 1 - lower };
  }
  const slope = betaLogitSlope(x, y, a, b);
  const shape = slope === 0 ? 0 : b * x <= 0.7 || (b <= 1 && x <= 0.9) ? series(x, y, a, b) : fraction(x, y, a, b);
  const lower = Math.min(1, slope * shape);
  return { lower, upper: 1 - lower };
}

/** I_x(a, b) divided by x^a y^b / B(a, b), as a power series in x. */
function series(x: number, y: number, a: number, b: number): number {
  let coefficient = 1;
  let sum = 1 / a;
  for (let n = 1; ; n++) {
    coefficient *= ((n - b) / n) * x;
    const term = coefficient / (a + n);
    sum += term;
    if (Math.abs(term) < 1e-17 * Math.abs(sum)) break;
  }
  return sum * Math.exp(-b * (y > 0.5 ? Math.log1p(-x) : Math.log(y)));
}

/** I_x(a, b) divided by x^a y^b / B(a, b), as a continued fraction, for x below about a / (a + b). */
function fraction(x: number, y: number, a: number, b: number): number {
  const tiny = 1e-300;
  // a - (a + b) x without losing digits: a y - b x
  const lambda = a * y - b * x;
  let value = (a / (a + 1)) * (lambda + 1);
  let c = value;
  let d = 0;
  for (let n = 1; n < 10_000_000; n++) {
    const twice = a + 2 * n;
    const top = ((a + n - 1) / (twice - 1)) * ((a + b + n - 1) / (twice - 1)) * n * (b - n) * x * x;
    const bottom = n + (n * (b - n) * x) / (twice - 1) + ((a + n) / (twice + 1)) * (lambda + 1 + n * (1 + y));
    d = bottom + top * d;
    if (Math.abs(d) < tiny) d = tiny;
    c = bottom + top / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 8e-16) break;
  }
  return 1 / value;
}
