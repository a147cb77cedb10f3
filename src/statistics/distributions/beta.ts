import { requireOpenProbability, requirePositive } from "../require-numbers.ts";
import { betaQuantilePair } from "./beta-quantile-pair.ts";
import { betaTails } from "./beta-tails.ts";
import { stirlingError } from "./stirling-error.ts";

const logOfRootTwoPi = 0.9189385332046728;

/**
 * Natural logarithm of the beta function Γ(a) Γ(b) / Γ(a + b).
 * @param a shape, finite and above 0; b the same
 * @throws RangeError if a shape is not finite and above 0
 * @source Stirling's series with the large terms cancelled by hand, after DiDonato and Morris 1992, Algorithm 708, ACM
 *   Transactions on Mathematical Software 18(3):360-373
 * @example logBeta(2, 3) // log(1/12) = -2.4849066497880004
 */
export function logBeta(a: number, b: number): number {
  requirePositive("logBeta", "a", a);
  requirePositive("logBeta", "b", b);
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  const total = small + large;
  return (
    stirlingError(small) +
    stirlingError(large) -
    stirlingError(total) +
    logOfRootTwoPi -
    0.5 * Math.log(large) +
    (small - 0.5) * Math.log(small / total) +
    large * Math.log1p(-small / total)
  );
}

/**
 * Regularised incomplete beta function I_x(a, b): the chance that a beta variable is x or less.
 * @param x from 0 to 1
 * @param a first shape, finite and above 0
 * @param b second shape, finite and above 0
 * @throws RangeError if an argument is outside its range
 * @source DiDonato and Morris 1992, Algorithm 708, ACM Transactions on Mathematical Software 18(3):360-373
 * @example regularizedBeta(0.5, 2, 2) // 0.5
 */
export function regularizedBeta(x: number, a: number, b: number): number {
  requireBetaArguments("regularizedBeta", x, a, b);
  return betaTails(x, 1 - x, a, b).lower;
}

/**
 * The upper tail 1 - I_x(a, b), exact also where it is tiny.
 * @param x from 0 to 1
 * @param a first shape, finite and above 0
 * @param b second shape, finite and above 0
 * @throws RangeError if an argument is outside its range
 * @source as {@link regularizedBeta}
 * @example regularizedBetaUpper(0.75, 1, 2) // 0.0625
 */
export function regularizedBetaUpper(x: number, a: number, b: number): number {
  requireBetaArguments("regularizedBetaUpper", x, a, b);
  return betaTails(x, 1 - x, a, b).upper;
}

/**
 * The point at or below which a beta variable falls with probability p.
 * @param p a probability above 0 and below 1
 * @param a first shape, finite and above 0
 * @param b second shape, finite and above 0
 * @throws RangeError if an argument is outside its range
 * @source Newton's method on the incomplete beta function (own derivation)
 * @example betaQuantile(0.25, 2, 1) // 0.5
 */
export function betaQuantile(p: number, a: number, b: number): number {
  requireOpenProbability("betaQuantile", "p", p);
  requirePositive("betaQuantile", "a", a);
  requirePositive("betaQuantile", "b", b);
  return betaQuantilePair(p, 1 - p, a, b).x;
}

function requireBetaArguments(routine: string, x: number, a: number, b: number): void {
  if (!(x >= 0 && x <= 1)) throw new RangeError(`${routine}: x must lie from 0 to 1; received ${x}`);
  requirePositive(routine, "a", a);
  requirePositive(routine, "b", b);
}
