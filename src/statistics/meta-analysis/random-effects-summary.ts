import { chiSquareQuantile } from "../distributions/chi-square.ts";
import { studentTQuantile } from "../distributions/student-t.ts";
import { requireOpenProbability, requirePositive, requireSameLength, requireSample } from "../require-numbers.ts";
import {
  generalisedQ,
  restrictedMaximumLikelihood,
  type TrialEstimates,
  weightedMean,
} from "./between-trial-variance.ts";
import { betweenVarianceLimits } from "./between-variance-limits.ts";

/** An estimate with its limits. */
export interface SummaryInterval {
  lower: number;
  upper: number;
}

/** What several trials say together. */
export interface RandomEffectsSummary {
  /** mean effect over the population of trials, in the estimates' unit */
  estimate: number;
  /** Hartung and Knapp's interval, but never narrower than the trials' own errors make it, as few trials can agree by luck */
  modifiedHartungKnapp: SummaryInterval;
  /** where the true effect of the next trial is expected; needs 3 trials or more */
  prediction?: SummaryInterval;
  /** variance of true effects between trials; limits by inverting the generalised Q */
  betweenVariance: SummaryInterval & { estimate: number };
  /** share of the variation between estimates that is not sampling error, from Cochran's Q: max(0, (Q - df) / Q) */
  iSquared: number;
  /** share of each trial in the mean, adding to 1 */
  weights: number[];
  level: number;
}

/**
 * Mean effect over several trials when the true effect may differ from trial to trial.
 * @param estimates effect found by each trial (a difference, a log ratio), all in one unit
 * @param standardErrors of the estimates, above 0
 * @param level of the intervals
 * @throws RangeError if there are fewer than 2 trials, a number is not finite, a standard error is not above 0, or lengths differ
 * @source Hartung and Knapp 2001, Statistics in Medicine 20(24):3875-3889; modified: Knapp and Hartung 2003, Statistics in
 *   Medicine 22(17):2693-2710; Higgins and Thompson 2002, Statistics in Medicine 21(11):1539-1558 (I squared); Higgins,
 *   Thompson and Spiegelhalter 2009, Journal of the Royal Statistical Society A 172(1):137-159 (prediction, k - 2 degrees of
 *   freedom)
 * @example randomEffectsSummary([1, 3], [1, 1]).estimate // 2
 */
export function randomEffectsSummary(
  estimates: ReadonlyArray<number>,
  standardErrors: ReadonlyArray<number>,
  level = 0.95,
): RandomEffectsSummary {
  const routine = "randomEffectsSummary";
  requireSample(routine, "estimates", estimates, 2);
  requireSameLength(routine, "estimates", estimates, "standardErrors", standardErrors);
  for (const error of standardErrors) requirePositive(routine, "standardErrors", error);
  requireOpenProbability(routine, "level", level);
  const trials: TrialEstimates = { estimates, variances: standardErrors.map((error) => error * error) };
  const between = restrictedMaximumLikelihood(trials);
  const { mean, weights, total } = weightedMean(trials, between);
  const df = estimates.length - 1;
  const spread = estimates.reduce((sum, estimate, k) => sum + weights[k]! * (estimate - mean) ** 2, 0) / df;
  const q = generalisedQ(trials, 0);
  const around = (degreesOfFreedom: number, standardError: number): SummaryInterval => {
    const reach = studentTQuantile((1 + level) / 2, degreesOfFreedom) * standardError;
    return { lower: mean - reach, upper: mean + reach };
  };
  return {
    estimate: mean,
    modifiedHartungKnapp: around(df, Math.sqrt(Math.max(1, spread) / total)),
    ...(df < 2 ? {} : { prediction: around(df - 1, Math.sqrt(between + 1 / total)) }),
    betweenVariance: {
      estimate: between,
      ...betweenVarianceLimits(trials, chiSquareQuantile((1 + level) / 2, df), chiSquareQuantile((1 - level) / 2, df)),
    },
    iSquared: q > df ? (q - df) / q : 0,
    weights: weights.map((weight) => weight / total),
    level,
  };
}
