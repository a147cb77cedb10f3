import { requirePositive } from "../require-numbers.ts";
import { devianceTerm, stirlingError } from "./stirling-error.ts";

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
