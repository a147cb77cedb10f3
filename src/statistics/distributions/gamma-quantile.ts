import { requireOpenProbability, requirePositive } from "../require-numbers.ts";
import { gammaLogSlope, gammaTails } from "./gamma-tails.ts";

/**
 * The point at or below which a gamma variable of shape a and scale 1 falls with probability p.
 * @param p a probability above 0 and below 1
 * @param a shape, finite and above 0
 * @throws RangeError if p is not strictly between 0 and 1 or a is not finite and above 0
 * @source Newton's method on the logarithm of the nearer tail against log x, kept inside a bracket (own derivation)
 * @example gammaQuantile(0.5, 1) // log 2 = 0.6931471805599453
 */
export function gammaQuantile(p: number, a: number): number {
  requireOpenProbability("gammaQuantile", "p", p);
  requirePositive("gammaQuantile", "a", a);
  const useLower = p <= 0.5;
  const target = useLower ? p : 1 - p;
  let low = -745;
  let high = Math.log(a + 800 + 60 * Math.sqrt(a));
  let logX = Math.log(a);
  for (let step = 0; step < 400; step++) {
    const x = Math.exp(logX);
    const tails = gammaTails("gammaQuantile", a, x);
    const tail = useLower ? tails.lower : tails.upper;
    const slope = x > 0 ? gammaLogSlope(a, x) : 0;
    if (useLower ? tail < target : tail > target) low = logX;
    else high = logX;
    let next = (low + high) / 2;
    if (tail > 0 && slope > 0) {
      const change = ((Math.log(tail / target) * tail) / slope) * (useLower ? -1 : 1);
      // the correction is applied to x itself at the end, so rounding of log x costs no digits
      if (Math.abs(change) < 1e-9) return x * Math.exp(change);
      const newton = logX + change;
      if (newton > low && newton < high) next = newton;
    }
    if (next === logX) break;
    logX = next;
  }
  return Math.exp(logX);
}
