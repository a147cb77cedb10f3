import { requirePositive } from "../require-numbers.ts";
import { devianceTerm, stirlingError } from "./stirling-error.ts";

const logOfRootTwoPi = 0.9189385332046728;

/**
 * Natural logarithm of the gamma function.
 * @param x a finite number above 0
 * @throws RangeError if x is not finite and above 0
 * @source Stirling's series, Abramowitz and Stegun 1964, 6.1.41
 * @example logGamma(5) // log 24 = 3.1780538303479458
 */
export function logGamma(x: number): number {
  requirePositive("logGamma", "x", x);
  if (x === 1 || x === 2) return 0;
  return stirlingError(x) + (x - 0.5) * Math.log(x) - x + logOfRootTwoPi;
}

/**
 * Regularised lower incomplete gamma function P(a, x): the chance that a gamma variable of shape a and scale 1 is x or less.
 * @param a shape, finite and above 0
 * @param x 0 or more; infinity is allowed
 * @throws RangeError if a or x is outside its range
 * @source power series and Legendre's continued fraction, Abramowitz and Stegun 1964, 6.5.29 and 6.5.31
 * @example regularizedGammaP(1, 1) // 1 - 1/e = 0.6321205588285577
 */
export function regularizedGammaP(a: number, x: number): number {
  return gammaTails("regularizedGammaP", a, x).lower;
}

/**
 * Regularised upper incomplete gamma function Q(a, x) = 1 - P(a, x), exact also where it is tiny.
 * @param a shape, finite and above 0
 * @param x 0 or more; infinity is allowed
 * @throws RangeError if a or x is outside its range
 * @source as {@link regularizedGammaP}
 * @example regularizedGammaQ(1, 50) // exp(-50) = 1.9287498479639178e-22
 */
export function regularizedGammaQ(a: number, x: number): number {
  return gammaTails("regularizedGammaQ", a, x).upper;
}

/**
 * x^a exp(-x) / Γ(a): the slope of P(a, x) against log x.
 * @internal
 */
export function gammaLogSlope(a: number, x: number): number {
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(-stirlingError(a) - devianceTerm(a, x));
}

/**
 * Both tails of the gamma distribution, the smaller one computed directly.
 * @internal
 */
export function gammaTails(routine: string, a: number, x: number): { lower: number; upper: number } {
  requirePositive(routine, "a", a);
  if (!(x >= 0)) throw new RangeError(`${routine}: x must be 0 or more; received ${x}`);
  if (x === 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  const slope = gammaLogSlope(a, x);
  if (slope === 0) return x < a ? { lower: 0, upper: 1 } : { lower: 1, upper: 0 };
  if (x < a + 1) {
    const lower = Math.min(1, slope * lowerSeries(a, x));
    return { lower, upper: 1 - lower };
  }
  const upper = Math.min(1, slope * upperFraction(a, x));
  return { lower: 1 - upper, upper };
}

function lowerSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; ; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < 1e-17 * sum) return sum;
  }
}

/** Γ(a, x) / (x^a exp(-x)) by the modified Lentz method. */
function upperFraction(a: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let value = d;
  for (let n = 1; ; n++) {
    const step = -n * (n - a);
    b += 2;
    d = step * d + b;
    if (Math.abs(d) < tiny) d = tiny;
    c = b + step / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 8e-16 || n > 10_000_000) return value;
  }
}
