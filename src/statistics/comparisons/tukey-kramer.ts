import { studentizedRangeQuantile, studentizedRangeUpperTail } from "../distributions/studentized-range.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { type MeansWithCommonError, requireMeansWithCommonError } from "./means-with-common-error.ts";
import { allPairs, groupMeans, type PairOfGroups } from "./pair-of-groups.ts";

/** A pair of means with limits and p that hold for all pairs at once. */
export interface SimultaneousComparison extends PairOfGroups {
  lower: number;
  upper: number;
  /** of the difference */
  standardError: number;
  df: number;
  /** |difference| over the standard error of one mean: the difference's t times √2 */
  q: number;
  /** adjusted for all pairs */
  p: number;
}

/**
 * All differences between the means of independent groups with limits that hold together, taking variances as equal.
 * @param groups values of each group
 * @param level of the whole set of intervals; 0.95 unless stated
 * @returns pairs in the order 1-2, 1-3, ..., each the second mean less the first; exact for equal counts, conservative otherwise
 * @throws RangeError if there are fewer than two groups, one is empty, a value is not finite, or nothing varies within groups
 * @source Tukey 1953, The Problem of Multiple Comparisons, Princeton University (unpublished); Kramer 1956, Biometrics
 *   12(3):307-310; conservative: Hayter 1984, Annals of Statistics 12(1):61-75
 * @example tukeyKramer([[6, 8], [9, 11], [6, 7]])[0].p // 0.1753...
 */
export function tukeyKramer(groups: ReadonlyArray<ReadonlyArray<number>>, level = 0.95): SimultaneousComparison[] {
  const sums = groupMeans("tukeyKramer", groups, 1);
  const degreesOfFreedom = sums.reduce((sum, { count }) => sum + count - 1, 0);
  const squares = sums.reduce((sum, { count, variance }) => sum + (count - 1) * variance, 0);
  if (degreesOfFreedom < 1 || squares === 0) {
    throw new RangeError("tukeyKramer: values must differ within a group; received groups without any spread");
  }
  return tukeyKramerOfMeans(
    {
      means: sums.map(({ mean }) => mean),
      counts: sums.map(({ count }) => count),
      errorVariance: squares / degreesOfFreedom,
      degreesOfFreedom,
    },
    level,
  );
}

/**
 * As `tukeyKramer`, from the means and residual mean square of any balanced analysis, such as a trial in complete blocks.
 * @param level of the whole set of intervals; 0.95 unless stated
 * @throws RangeError if there are fewer than two means, lists differ in length, a mean is not finite, a count is not a whole
 *   number above 0, or the error variance or its degrees of freedom are not above 0
 * @source as {@link tukeyKramer}
 * @example tukeyKramerOfMeans({ means: [5.34, 7.72], counts: [5, 5], errorVariance: 1.331, degreesOfFreedom: 16 })[0].lower // 0.8331...
 */
export function tukeyKramerOfMeans(input: MeansWithCommonError, level = 0.95): SimultaneousComparison[] {
  const routine = "tukeyKramerOfMeans";
  const { means, counts, errorVariance, degreesOfFreedom: df } = input;
  requireMeansWithCommonError(routine, input);
  requireOpenProbability(routine, "level", level);
  const critical = studentizedRangeQuantile(level, means.length, df);
  return allPairs(means.map((mean) => ({ mean }))).map((pair) => {
    const ofOneMean = Math.sqrt((errorVariance / 2) * (1 / counts[pair.first]! + 1 / counts[pair.second]!));
    const q = Math.abs(pair.difference) / ofOneMean;
    return {
      ...pair,
      lower: pair.difference - critical * ofOneMean,
      upper: pair.difference + critical * ofOneMean,
      standardError: Math.SQRT2 * ofOneMean,
      df,
      q,
      p: studentizedRangeUpperTail(q, means.length, df),
    };
  });
}
