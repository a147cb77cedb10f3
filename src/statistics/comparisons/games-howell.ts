import { studentizedRangeQuantile, studentizedRangeUpperTail } from "../distributions/studentized-range.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { allPairs, groupMeans } from "./pair-of-groups.ts";
import type { SimultaneousComparison } from "./tukey-kramer.ts";
import { welchDifference } from "./welch-difference.ts";

/**
 * All differences between the means of independent groups with limits that hold together (nearly), without taking variances
 * as equal.
 * @param groups values of each group, at least two each
 * @param level of the whole set of intervals; 0.95 unless stated
 * @returns pairs in the order 1-2, 1-3, ..., each the second mean less the first, with its own degrees of freedom
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or neither
 *   group of a pair varies
 * @source Games and Howell 1976, Journal of Educational Statistics 1(2):113-125; a little liberal below about 6 values a
 *   group
 * @example gamesHowell([[6, 8], [9, 13], [6, 7]])[0].p // 0.4076...
 */
export function gamesHowell(groups: ReadonlyArray<ReadonlyArray<number>>, level = 0.95): SimultaneousComparison[] {
  requireOpenProbability("gamesHowell", "level", level);
  const means = groupMeans("gamesHowell", groups, 2);
  return allPairs(means).map((pair) => {
    const { standardError, df } = welchDifference("gamesHowell", means[pair.first]!, means[pair.second]!);
    const half = (studentizedRangeQuantile(level, groups.length, df) / Math.SQRT2) * standardError;
    const q = (Math.SQRT2 * Math.abs(pair.difference)) / standardError;
    return {
      ...pair,
      lower: pair.difference - half,
      upper: pair.difference + half,
      standardError,
      df,
      q,
      p: studentizedRangeUpperTail(q, groups.length, df),
    };
  });
}
