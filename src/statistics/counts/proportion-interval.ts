import { normalQuantile } from "../distributions/normal.ts";

/**
 * Score limits of a proportion: on average close to their stated level, also for few trials. Counts need not be whole, such as
 * effective counts of clustered trials.
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
