import { midranks } from "../groups/midranks.ts";
import { requireSample } from "../require-numbers.ts";

/** An exact rank-sum test. */
export interface ExactRankSum {
  /** of the first group, tied values sharing the mean of their ranks */
  rankSum: number;
  /** pairs in which the first group's value is larger, ties counting half */
  u: number;
  /** u over the number of pairs: the chance that a value of the first group exceeds one of the second */
  probabilityOfSuperiority: number;
  /** rank sum at least as far from its expectation, on either side */
  p: number;
  pGreater: number;
  pLess: number;
}

/** The most values the distribution is worked out for: time grows with the fourth power. */
const mostValues = 200;

/**
 * Exact rank-sum test of two independent groups, ties included: every way of dealing the observed ranks counts once.
 * @param a values of one group, b of the other; one or more each, at most 200 together
 * @throws RangeError if a group is empty, there are more than 200 values, or one is not finite
 * @source Wilcoxon 1945, Biometrics Bulletin 1(6):80-83; with ties, by counting sums of midranks: Streitberg and Röhmel
 *   1986, Statistical Software Newsletter 12(1):10-17
 * @example exactRankSum([1, 2], [3, 4]).p // 2 of 6
 */
export function exactRankSum(a: ReadonlyArray<number>, b: ReadonlyArray<number>): ExactRankSum {
  requireSample("exactRankSum", "a", a, 1);
  requireSample("exactRankSum", "b", b, 1);
  const all = a.length + b.length;
  if (all > mostValues) throw new RangeError(`exactRankSum: at most ${mostValues} values are handled; received ${all}`);
  // midranks are halves, so their doubles are whole and sums of them exact
  const doubled = midranks([...a, ...b]).ranks.map((rank) => 2 * rank);
  const observed = doubled.subarray(0, a.length).reduce((sum, rank) => sum + rank, 0);
  const shares = sharesOfSums(doubled, a.length);
  const centre = a.length * (all + 1);
  let [extreme, atLeast, atMost] = [0, 0, 0];
  shares.forEach((share, sum) => {
    if (Math.abs(sum - centre) >= Math.abs(observed - centre)) extreme += share;
    if (sum >= observed) atLeast += share;
    if (sum <= observed) atMost += share;
  });
  const u = observed / 2 - (a.length * (a.length + 1)) / 2;
  return {
    rankSum: observed / 2,
    u,
    probabilityOfSuperiority: u / (a.length * b.length),
    p: Math.min(1, extreme),
    pGreater: Math.min(1, atLeast),
    pLess: Math.min(1, atMost),
  };
}

/** Share of the ways to take `take` of the ranks that have each sum. */
function sharesOfSums(ranks: Float64Array, take: number): Float64Array {
  const largest = [...ranks]
    .sort((x, y) => y - x)
    .slice(0, take)
    .reduce((sum, rank) => sum + rank, 0);
  // ways[k] holds, for k ranks taken, the number of ways to each sum, scaled at each step to a chance so nothing overflows
  const chances = Array.from({ length: take + 1 }, () => new Float64Array(largest + 1));
  chances[0]![0] = 1;
  ranks.forEach((rank, seen) => {
    for (let k = Math.min(take, seen + 1); k >= 0; k--) {
      // of seen + 1 ranks, k taken: the newest is among them with chance k / (seen + 1)
      const withNewest = k / (seen + 1);
      const row = chances[k]!;
      const before = k > 0 ? chances[k - 1]! : row;
      for (let sum = largest; sum >= 0; sum--) {
        const taken = k > 0 && sum >= rank ? withNewest * before[sum - rank]! : 0;
        const left = seen + 1 > k ? (1 - withNewest) * row[sum]! : 0;
        row[sum] = taken + left;
      }
    }
  });
  return chances[take]!;
}
