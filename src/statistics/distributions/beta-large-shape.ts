import { gammaLogSlope, gammaTails } from "./gamma-tails.ts";
import { stirlingError } from "./stirling-error.ts";

/**
 * Lower tail of the beta distribution where the first shape is much larger than the second, as a series of incomplete
 * gamma functions; the continued fraction needs too many steps there.
 * @param x from 0.7 to 1, and y = 1 - x given on its own
 * @param a first shape, at least 40 and at least 4 b²
 * @param b second shape
 * @source DiDonato and Morris 1992, Algorithm 708, ACM Transactions on Mathematical Software 18(3):360-373, routine BGRAT
 * @internal
 */
export function betaLowerLargeShape(x: number, y: number, a: number, b: number): number {
  const scale = a + (b - 1) / 2;
  const logX = y < 0.5 ? Math.log1p(-y) : Math.log(x);
  const u = -scale * logX;
  const slope = gammaLogSlope(b, u);
  if (slope === 0) return 0;
  const halfSquare = (logX / 2) ** 2;
  // log of Γ(a + b) / (Γ(a) scale^b)
  const logRatio =
    stirlingError(a + b) - stirlingError(a) + ((a + b - 0.5) * Math.log1p(b / a) - b) - b * Math.log1p((b - 1) / 2 / a);
  const coefficients = [1];
  let integral = gammaTails("regularizedBeta", b, u).upper / slope;
  let sum = integral;
  let power = 1;
  for (let n = 1; n < 200; n++) {
    const before = b + 2 * (n - 1);
    integral = (before * (before + 1) * integral + (u + before + 1) * power) / (4 * scale * scale);
    power *= halfSquare;
    coefficients.push(nextCoefficient(coefficients, b, n));
    const term = coefficients[n]! * integral;
    sum += term;
    if (Math.abs(term) < 1e-17 * Math.abs(sum)) break;
  }
  return Math.exp(logRatio) * slope * sum;
}

function nextCoefficient(coefficients: ReadonlyArray<number>, b: number, n: number): number {
  let sum = 0;
  let factorial = 1;
  for (let m = 1; m < n; m++) {
    factorial *= 2 * m * (2 * m + 1);
    sum += ((m * b - n) / factorial) * coefficients[n - m]!;
  }
  factorial *= 2 * n * (2 * n + 1);
  return (b - 1) / factorial + sum / n;
}
