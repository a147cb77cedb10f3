import { seededRandom } from "../random/seeded-random.ts";
import { requireCount, requireSample } from "../require-numbers.ts";
import { choose } from "./count-arrangements.ts";
import { exactSums } from "./exact-sums.ts";
import {
  type PermutationOptions,
  type PermutationResult,
  permutationResult,
  usualDraws,
  usualExactUpTo,
} from "./permutation-result.ts";

/**
 * Permutation test of the difference of two means: how often a difference like it arises when the same values are dealt to the
 * two groups at random.
 * @param a values of one group, b of the other; one or more each, counts may differ
 * @param options exact when there are few enough ways to deal, else sampled with the seed given
 * @returns observed is mean of a less mean of b; p counts |difference| at least as large
 * @throws RangeError if a group is empty, a value is not finite, or sampling is needed and no seed is given
 * @source Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:119-130
 * @example twoSamplePermutation([1, 2], [3, 4]).p // 2 of 6
 */
export function twoSamplePermutation(
  a: ReadonlyArray<number>,
  b: ReadonlyArray<number>,
  options: PermutationOptions = {},
): PermutationResult {
  const routine = "twoSamplePermutation";
  requireSample(routine, "a", a, 1);
  requireSample(routine, "b", b, 1);
  const { draws = usualDraws, exactUpTo = usualExactUpTo, seed } = options;
  requireCount(routine, "draws", draws, 1);
  const n = a.length;
  const all = a.length + b.length;
  const { values, scale, tolerance } = exactSums([...a, ...b], 2 * all);
  const total = values.reduce((sum, value) => sum + value, 0);
  const observedSum = values.subarray(0, n).reduce((sum, value) => sum + value, 0);
  // the difference of means rises with the sum of the first group; sum × all - total × n is that difference times n (all - n)
  const centre = total * n;
  const observedDeviation = observedSum * all - centre;
  const slack = tolerance * all;
  const counts = { extreme: 0, atLeast: 0, atMost: 0, looked: 0 };
  const look = (sum: number): void => {
    const deviation = sum * all - centre;
    counts.looked++;
    if (Math.abs(deviation) >= Math.abs(observedDeviation) - slack) counts.extreme++;
    if (deviation >= observedDeviation - slack) counts.atLeast++;
    if (deviation <= observedDeviation + slack) counts.atMost++;
  };
  const observed = observedDeviation / (n * (all - n)) / scale;
  if (choose(all, n) <= exactUpTo) {
    everySum(values, n, look);
    return permutationResult(observed, counts, undefined);
  }
  if (seed === undefined) {
    throw new RangeError(
      `${routine}: a seed is needed to sample from ${choose(all, n)} arrangements, more than exactUpTo ${exactUpTo}; received none`,
    );
  }
  const random = seededRandom(seed);
  // only the smaller group has to be dealt; the other's sum is what is left
  const dealt = Math.min(n, all - n);
  for (let draw = 0; draw < draws; draw++) {
    let sum = 0;
    for (let i = 0; i < dealt; i++) {
      const other = i + random.integer(all - i);
      const value = values[other]!;
      values[other] = values[i]!;
      values[i] = value;
      sum += value;
    }
    look(dealt === n ? sum : total - sum);
  }
  return permutationResult(observed, counts, seed);
}

/** Visits the sum of every choice of `take` of the values. */
function everySum(values: Float64Array, take: number, visit: (sum: number) => void): void {
  const descend = (from: number, left: number, sum: number): void => {
    if (left === 0) {
      visit(sum);
      return;
    }
    for (let i = from; i <= values.length - left; i++) descend(i + 1, left - 1, sum + values[i]!);
  };
  descend(0, take, 0);
}
