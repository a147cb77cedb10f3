import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { benjaminiHochbergAdjustment, bonferroniAdjustment, holmAdjustment } from "./p-value-adjustments.ts";
import { allPairs, groupMeans, type PairOfGroups } from "./pair-of-groups.ts";
import { welchDifference } from "./welch-difference.ts";

/** A pair of means compared on its own, with p-values adjusted for all pairs. */
export interface WelchComparison extends PairOfGroups {
  /** limits of this pair on its own, not simultaneous */
  lower: number;
  upper: number;
  standardError: number;
  t: number;
  df: number;
  /** for this pair on its own, two-tailed */
  p: number;
  pHolm: number;
  pBonferroni: number;
  pBenjaminiHochberg: number;
}

/**
 * Welch's t test of every pair of groups, with p-values adjusted for the number of pairs.
 * @param groups values of each group, at least two each
 * @param level of each interval on its own; 0.95 unless stated
 * @returns pairs in the order 1-2, 1-3, ..., each the second mean less the first
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or neither
 *   group of a pair varies
 * @source Welch 1947, Biometrika 34(1/2):28-35; Holm 1979, Scandinavian Journal of Statistics 6(2):65-70
 * @example pairwiseWelch([[6, 8], [9, 13], [6, 7]])[0].pHolm // 0.7529...
 */
export function pairwiseWelch(groups: ReadonlyArray<ReadonlyArray<number>>, level = 0.95): WelchComparison[] {
  requireOpenProbability("pairwiseWelch", "level", level);
  const means = groupMeans("pairwiseWelch", groups, 2);
  const pairs = allPairs(means).map((pair) => {
    const { standardError, df } = welchDifference("pairwiseWelch", means[pair.first]!, means[pair.second]!);
    const t = pair.difference / standardError;
    const half = studentTQuantile((1 + level) / 2, df) * standardError;
    return {
      ...pair,
      lower: pair.difference - half,
      upper: pair.difference + half,
      standardError,
      t,
      df,
      p: studentTTwoTailed(t, df),
    };
  });
  const raw = pairs.map(({ p }) => p);
  const holm = holmAdjustment(raw);
  const bonferroni = bonferroniAdjustment(raw);
  const benjaminiHochberg = benjaminiHochbergAdjustment(raw);
  return pairs.map((pair, i) => ({
    ...pair,
    pHolm: holm[i]!,
    pBonferroni: bonferroni[i]!,
    pBenjaminiHochberg: benjaminiHochberg[i]!,
  }));
}
