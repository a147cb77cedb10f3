import { requireCount } from "../require-numbers.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import { intraclassCorrelation } from "./intraclass-correlation.ts";

/** How well repeated observations of the same group agree. */
export interface Repeatability {
  /** share of the variance between groups for a single observation, with limits */
  single: { estimate: number; lower: number; upper: number };
  /** the same for the mean of `observations` from each group */
  ofMean: { estimate: number; lower: number; upper: number };
  observations: number;
  /** standard deviation of observations of the same group, in the response's unit */
  standardDeviation: number;
  /** two observations of the same group differ by less than this in 95 of 100 cases: 1.96 * sqrt(2) * standardDeviation */
  limit: number;
  level: number;
}

/**
 * Repeatability of single observations and of means of several, and the repeatability limit.
 * @param observations how many are averaged for `ofMean`
 * @param level 0.95 unless stated
 * @throws RangeError if `observations` is not a whole number of 1 or more
 * @source repeatability: Falconer and Mackay 1996, Introduction to Quantitative Genetics, chapter 8; limit: ISO
 *   5725-6:1994
 * @example repeatability(fit, 4).ofMean.estimate // 0.9937..., with the set-up of fitMixedModel
 */
export function repeatability(fit: MixedModel, observations: number, level = 0.95): Repeatability {
  requireCount("repeatability", "observations", observations, 1);
  const single = intraclassCorrelation(fit, undefined, level);
  const average = (share: number): number => (observations * share) / (1 + (observations - 1) * share);
  const standardDeviation = fit.residual.standardDeviation;
  return {
    single: { estimate: single.estimate, lower: single.lower, upper: single.upper },
    ofMean: { estimate: average(single.estimate), lower: average(single.lower), upper: average(single.upper) },
    observations,
    standardDeviation,
    limit: 1.959963984540054 * Math.SQRT2 * standardDeviation,
    level,
  };
}
