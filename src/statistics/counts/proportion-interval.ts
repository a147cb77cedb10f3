import { normalQuantile } from "../distributions/normal.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { requireProportion } from "./require-proportion.ts";

/** An observed proportion with its interval; all between 0 and 1. */
export interface ProportionInterval {
  proportion: number;
  lower: number;
  upper: number;
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
  requireProportion("wilsonInterval", successes, trials);
  requireOpenProbability("wilsonInterval", "level", level);
  return { proportion: successes / trials, ...scoreLimits(successes, trials, level) };
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
