/** Estimates with their sampling variances, one per trial. */
export interface TrialEstimates {
  estimates: ReadonlyArray<number>;
  variances: ReadonlyArray<number>;
}

/**
 * Weighted mean with weights 1 / (variance + between).
 * @example weightedMean({ estimates: [1, 3], variances: [1, 1] }, 0).mean // 2
 */
export function weightedMean(
  trials: TrialEstimates,
  between: number,
): { mean: number; weights: number[]; total: number } {
  const weights = trials.variances.map((variance) => 1 / (variance + between));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = trials.estimates.reduce((sum, estimate, k) => sum + (weights[k]! / total) * estimate, 0);
  return { mean, weights, total };
}

/**
 * Cochran's Q: weighted squared deviations from the mean, with weights that allow for a variance between trials; it falls as
 * that variance grows, and is the published Q where it is 0.
 * @example generalisedQ({ estimates: [1, 3], variances: [1, 1] }, 0) // 2
 */
export function generalisedQ(trials: TrialEstimates, between: number): number {
  const { mean, weights } = weightedMean(trials, between);
  return trials.estimates.reduce((sum, estimate, k) => sum + weights[k]! * (estimate - mean) ** 2, 0);
}

/**
 * Restricted deviance at a variance between trials, less a constant; and its slope.
 */
function restrictedDeviance(trials: TrialEstimates, between: number): { deviance: number; slope: number } {
  const { mean, weights, total } = weightedMean(trials, between);
  let deviance = Math.log(total);
  let slope = 0;
  weights.forEach((weight, k) => {
    const deviation = trials.estimates[k]! - mean;
    deviance += weight * deviation * deviation - Math.log(weight);
    slope += weight - (weight * weight) / total - weight * weight * deviation * deviation;
  });
  return { deviance, slope };
}

/**
 * Spread of the estimates: an upper bound to start a search for the variance between trials from.
 * @internal
 */
export function spreadOf(trials: TrialEstimates): number {
  const mean = trials.estimates.reduce((sum, estimate) => sum + estimate / trials.estimates.length, 0);
  return trials.estimates.reduce((sum, estimate) => sum + (estimate - mean) ** 2, 0);
}

/**
 * Variance between trials by restricted maximum likelihood: the lowest point of the deviance over a grid, then the root of its
 * slope by halving; 0 when the deviance is least there.
 * @source Viechtbauer 2005, Journal of Educational and Behavioral Statistics 30(3):261-293
 * @internal
 */
export function restrictedMaximumLikelihood(trials: TrialEstimates): number {
  const smallest = Math.min(...trials.variances);
  const largest = Math.max(spreadOf(trials), ...trials.variances);
  const grid = [0];
  for (let value = smallest * 1e-6; value < largest * 2; value *= 1.3) grid.push(value);
  let best = 0;
  const deviances = grid.map((between) => restrictedDeviance(trials, between).deviance);
  deviances.forEach((deviance, k) => {
    if (deviance < deviances[best]!) best = k;
  });
  if (best === 0) return 0;
  let [low, high] = [grid[best - 1]!, grid[best + 1] ?? largest * 3];
  for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
    const middle = (low + high) / 2;
    if (restrictedDeviance(trials, middle).slope < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
