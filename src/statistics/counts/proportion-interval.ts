import { betaQuantile, regularizedBeta, regularizedBetaUpper } from "../distributions/beta.ts";
import { findRoot } from "../distributions/find-root.ts";
import { normalQuantile } from "../distributions/normal.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { requireProportion } from "./require-proportion.ts";

/** An observed proportion with its interval; all between 0 and 1. */
export interface ProportionInterval {
  proportion: number;
  lower: number;
  upper: number;
  level: number;
}

/**
 * Score interval of a proportion: on average close to its stated level, also for few trials.
 * @param successes how many of the trials had the outcome
 * @param trials independent trials, 1 or more
 * @param level confidence level, 0.95 unless stated
 * @throws RangeError if the counts are not whole, successes exceed trials, or the level is not between 0 and 1
 * @source Wilson 1927, Journal of the American Statistical Association 22(158):209-212
 * @example wilsonInterval(0, 20).upper // 0.16112...
 */
export function wilsonInterval(successes: number, trials: number, level = 0.95): ProportionInterval {
  check("wilsonInterval", successes, trials, level);
  return { proportion: successes / trials, ...scoreLimits(successes, trials, level), level };
}

/**
 * Score limits of a proportion for counts that need not be whole, such as effective counts of clustered trials.
 * @param successes from 0 to `trials`; @param trials above 0; @param level confidence level
 * @source Wilson 1927, Journal of the American Statistical Association 22:209-212
 * @example scoreLimits(0, 20, 0.95).upper // 0.16112...
 */
export function scoreLimits(successes: number, trials: number, level: number): { lower: number; upper: number } {
  const square = normalQuantile((1 + level) / 2) ** 2;
  const failures = trials - successes;
  const reach = Math.sqrt(square * (square / 4 + (successes * failures) / trials));
  const top = successes + square / 2;
  const width = trials + square;
  // each limit nearer 0 or 1 is written so that nothing is subtracted
  return {
    lower: (successes * successes) / trials / (top + reach),
    upper: failures === 0 ? 1 : Math.min(1, (top + reach) / width),
  };
}

/**
 * Exact interval of a proportion: never below its stated level, usually above.
 * @param successes how many of the trials had the outcome
 * @param trials independent trials, 1 or more
 * @param level confidence level, 0.95 unless stated
 * @throws RangeError if the counts are not whole, successes exceed trials, or the level is not between 0 and 1
 * @source Clopper and Pearson 1934, Biometrika 26(4):404-413
 * @example exactInterval(0, 10).upper // 0.3084971078187608
 */
export function exactInterval(successes: number, trials: number, level = 0.95): ProportionInterval {
  check("exactInterval", successes, trials, level);
  const tail = (1 - level) / 2;
  return {
    proportion: successes / trials,
    lower: successes === 0 ? 0 : betaQuantile(tail, successes, trials - successes + 1),
    upper: successes === trials ? 1 : 1 - betaQuantile(tail, trials - successes, successes + 1),
    level,
  };
}

/**
 * Mid-p interval of a proportion: the exact interval with half the chance of the observed count left out, which brings
 * its coverage close to the stated level on average.
 * @param successes how many of the trials had the outcome
 * @param trials independent trials, 1 or more
 * @param level confidence level, 0.95 unless stated
 * @throws RangeError if the counts are not whole, successes exceed trials, or the level is not between 0 and 1
 * @source Lancaster 1961, Journal of the American Statistical Association 56(294):223-234; Berry and Armitage 1995, The
 *   Statistician 44(4):417-423
 * @example midPInterval(0, 10).upper // 0.2588655...
 */
export function midPInterval(successes: number, trials: number, level = 0.95): ProportionInterval {
  check("midPInterval", successes, trials, level);
  const tail = (1 - level) / 2;
  const failures = trials - successes;
  // chances of at most, and at least, the observed count
  const atMost = (p: number): number => (failures === 0 ? 1 : regularizedBetaUpper(p, successes + 1, failures));
  const atLeast = (p: number): number => (successes === 0 ? 1 : regularizedBeta(p, successes, failures + 1));
  const midUpperTail = (p: number): number => (atLeast(p) + 1 - atMost(p)) / 2;
  const midLowerTail = (p: number): number => (atMost(p) + 1 - atLeast(p)) / 2;
  return {
    proportion: successes / trials,
    lower: successes === 0 ? 0 : findRoot((p) => midUpperTail(p) - tail, 0, 1),
    upper: failures === 0 ? 1 : findRoot((p) => midLowerTail(p) - tail, 0, 1),
    level,
  };
}

/**
 * Adjusted normal interval of a proportion; its limits can fall outside 0 to 1 and are left so. Prefer the score interval.
 * @param successes how many of the trials had the outcome
 * @param trials independent trials, 1 or more
 * @param level confidence level, 0.95 unless stated
 * @throws RangeError if the counts are not whole, successes exceed trials, or the level is not between 0 and 1
 * @source Agresti and Coull 1998, The American Statistician 52(2):119-126
 * @example adjustedNormalInterval(10, 20).lower // 0.299298...
 */
export function adjustedNormalInterval(successes: number, trials: number, level = 0.95): ProportionInterval {
  check("adjustedNormalInterval", successes, trials, level);
  const z = normalQuantile((1 + level) / 2);
  const widened = trials + z * z;
  const centre = (successes + (z * z) / 2) / widened;
  const reach = z * Math.sqrt((centre * (1 - centre)) / widened);
  return { proportion: successes / trials, lower: centre - reach, upper: centre + reach, level };
}

function check(routine: string, successes: number, trials: number, level: number): void {
  requireProportion(routine, successes, trials);
  requireOpenProbability(routine, "level", level);
}
