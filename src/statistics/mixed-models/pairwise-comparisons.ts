import { studentizedRangeUpperTail } from "../distributions/studentized-range.ts";
import { type ContrastResult, contrastTest } from "./contrast-test.ts";
import { estimatedMeans, type MeanOptions } from "./estimated-means.ts";
import type { MixedModel } from "./fit-mixed-model.ts";

/** Difference of two estimated means: the first less the second. The interval and p are for this pair alone. */
export interface PairComparison extends ContrastResult {
  first: string;
  second: string;
  /** p allowing for all pairs of this factor, by Tukey's studentised range; approximate when the trial is unbalanced */
  pTukey: number;
}

/**
 * All differences between the estimated means of one factor.
 * @param factor name of a factor term
 * @throws RangeError as `estimatedMeans`
 * @source Tukey 1953, The Problem of Multiple Comparisons, Princeton University (unpublished); unequal precision: Kramer
 *   1956, Biometrics 12(3):307-310
 * @example pairwiseComparisons(fit, "dose")[0].estimate // -3.75, with the set-up of fitMixedModel
 */
export function pairwiseComparisons(fit: MixedModel, factor: string, options: MeanOptions = {}): PairComparison[] {
  const means = estimatedMeans(fit, [factor], options);
  return means.flatMap((first, a) =>
    means.slice(a + 1).map((second) => {
      const weights = first.weights.map((weight, k) => weight - second.weights[k]!);
      const contrast = contrastTest(fit, weights, options);
      const pTukey = studentizedRangeUpperTail(Math.abs(contrast.t) * Math.SQRT2, means.length, contrast.df);
      return { first: first.levels[factor]!, second: second.levels[factor]!, ...contrast, pTukey };
    }),
  );
}
