import { chiSquareQuantile, chiSquareUpperTail } from "../distributions/chi-square.ts";
import { normalQuantile, normalUpperTail } from "../distributions/normal.ts";
import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { requireOpenProbability, requirePositive, requireSameLength, requireSample } from "../require-numbers.ts";
import {
  type BetweenTrialMethod,
  cochranQ,
  derSimonianLaird,
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

/** An interval and test from the t distribution. */
export interface TInterval extends SummaryInterval {
  standardError: number;
  t: number;
  df: number;
  p: number;
}

/** What several trials say together. */
export interface RandomEffectsSummary {
  trials: number;
  /** mean effect over the population of trials, in the estimates' unit */
  estimate: number;
  /** Hartung-Knapp interval from the t distribution, as published */
  hartungKnapp: TInterval;
  /** the same, but never narrower than the trials' own errors make it: the one to report, as few trials can agree by luck */
  modifiedHartungKnapp: TInterval;
  /** normal interval, too narrow for few trials; kept for comparison with published summaries */
  normal: SummaryInterval & { standardError: number; z: number; p: number };
  /** where the true effect of the next trial is expected; needs 3 trials or more */
  prediction?: SummaryInterval & { df: number };
  /** variance of true effects between trials; limits by inverting the generalised Q */
  betweenVariance: SummaryInterval & { estimate: number; method: BetweenTrialMethod };
  heterogeneity: {
    /** Cochran's Q with its degrees of freedom and p */
    q: number;
    df: number;
    p: number;
    /** share of the variation between estimates that is not sampling error, from Q: max(0, (Q - df) / Q) */
    iSquared: number;
    /** the same from the estimated variance and the typical sampling variance */
    iSquaredFromVariance: number;
  };
  /** share of each trial in the mean, adding to 1 */
  weights: number[];
  level: number;
}

/**
 * Mean effect over several trials when the true effect may differ from trial to trial.
 * @param estimates effect found by each trial (a difference, a log ratio), all in one unit
 * @param standardErrors of the estimates, above 0
 * @param options between: "REML" unless stated; level 0.95 unless stated
 * @throws RangeError if there are fewer than 2 trials, a number is not finite, a standard error is not above 0, or lengths differ
 * @source DerSimonian and Laird 1986, Controlled Clinical Trials 7(3):177-188; Hartung and Knapp 2001, Statistics in
 *   Medicine 20(24):3875-3889; modified: Knapp and Hartung 2003, Statistics in Medicine 22(17):2693-2710; Higgins and
 *   Thompson 2002, Statistics in Medicine 21(11):1539-1558 (Q, I squared); Higgins, Thompson and Spiegelhalter 2009,
 *   Journal of the Royal Statistical Society A 172(1):137-159 (prediction, k - 2 degrees of freedom)
 * @example randomEffectsSummary([1, 3], [1, 1]).estimate // 2
 */
export function randomEffectsSummary(
  estimates: ReadonlyArray<number>,
  standardErrors: ReadonlyArray<number>,
  options: { between?: BetweenTrialMethod; level?: number } = {},
): RandomEffectsSummary {
  const routine = "randomEffectsSummary";
  const { between: method = "REML", level = 0.95 } = options;
  requireSample(routine, "estimates", estimates, 2);
  requireSameLength(routine, "estimates", estimates, "standardErrors", standardErrors);
  for (const error of standardErrors) requirePositive(routine, "standardErrors", error);
  requireOpenProbability(routine, "level", level);
  const count = estimates.length;
  const trials: TrialEstimates = { estimates, variances: standardErrors.map((error) => error * error) };
  const between = method === "REML" ? restrictedMaximumLikelihood(trials) : derSimonianLaird(trials);
  const { mean, weights, total } = weightedMean(trials, between);
  const df = count - 1;
  const spread = estimates.reduce((sum, estimate, k) => sum + weights[k]! * (estimate - mean) ** 2, 0) / df;

  const normalError = Math.sqrt(1 / total);
  const z = mean / normalError;
  const normalReach = normalQuantile((1 + level) / 2) * normalError;
  const q = cochranQ(trials);
  const fixed = weightedMean(trials, 0);
  const squares = fixed.weights.reduce((sum, weight) => sum + weight * weight, 0);
  const typicalVariance = (df * fixed.total) / (fixed.total ** 2 - squares);
  const summary: RandomEffectsSummary = {
    trials: count,
    estimate: mean,
    hartungKnapp: tInterval(mean, Math.sqrt(spread / total), df, level),
    modifiedHartungKnapp: tInterval(mean, Math.sqrt(Math.max(1, spread) / total), df, level),
    normal: {
      lower: mean - normalReach,
      upper: mean + normalReach,
      standardError: normalError,
      z,
      p: 2 * normalUpperTail(Math.abs(z)),
    },
    betweenVariance: {
      estimate: between,
      method,
      ...betweenVarianceLimits(trials, chiSquareQuantile((1 + level) / 2, df), chiSquareQuantile((1 - level) / 2, df)),
    },
    heterogeneity: {
      q,
      df,
      p: chiSquareUpperTail(q, df),
      iSquared: q > df ? (q - df) / q : 0,
      iSquaredFromVariance: between / (between + typicalVariance),
    },
    weights: weights.map((weight) => weight / total),
    level,
  };
  if (count < 3) return summary;
  const predictionReach = studentTQuantile((1 + level) / 2, count - 2) * Math.sqrt(between + 1 / total);
  return {
    ...summary,
    prediction: { lower: mean - predictionReach, upper: mean + predictionReach, df: count - 2 },
  };
}

function tInterval(mean: number, standardError: number, df: number, level: number): TInterval {
  const reach = studentTQuantile((1 + level) / 2, df) * standardError;
  // estimates exactly alike leave no error at all: then any mean but 0 is infinitely many errors away from 0
  const t = mean === 0 ? 0 : mean / standardError;
  return { lower: mean - reach, upper: mean + reach, standardError, t, df, p: studentTTwoTailed(t, df) };
}
