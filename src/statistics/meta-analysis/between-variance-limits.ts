import { generalisedQ, spreadOf, type TrialEstimates } from "./between-trial-variance.ts";

function varianceWhere(trials: TrialEstimates, q: number): number {
  if (generalisedQ(trials, 0) <= q) return 0;
  let [low, high] = [0, Math.max(spreadOf(trials), ...trials.variances)];
  while (generalisedQ(trials, high) > q) high *= 2;
  for (let step = 0; step < 200 && high - low > 1e-14 * high; step++) {
    const middle = (low + high) / 2;
    if (generalisedQ(trials, middle) > q) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Limits of the variance between trials: the variances at which the generalised Q takes its upper and lower quantile.
 * @source Viechtbauer 2007, Statistics in Medicine 26(1):37-52
 * @internal
 */
export function betweenVarianceLimits(
  trials: TrialEstimates,
  upperQuantile: number,
  lowerQuantile: number,
): { lower: number; upper: number } {
  return { lower: varianceWhere(trials, upperQuantile), upper: varianceWhere(trials, lowerQuantile) };
}
