import { seededRandom } from "../random/seeded-random.ts";
import { requireCount, requireSample } from "../require-numbers.ts";
import { exactSums } from "./exact-sums.ts";
import {
  type PermutationOptions,
  type PermutationResult,
  permutationResult,
  usualDraws,
  usualExactUpTo,
} from "./permutation-result.ts";

/**
 * Permutation test of paired differences: how often a mean difference like it arises when each pair's sign is set by a coin.
 * @param differences one per pair, second treatment less first or the other way round
 * @param options exact when there are few enough sets of signs, else sampled with the seed given
 * @returns observed is the mean difference; p counts |mean| at least as large
 * @throws RangeError if there are no differences, one is not finite, or sampling is needed and no seed is given
 * @source Fisher 1935, The Design of Experiments, section 21 (from memory)
 * @example signFlipTest([1, 2, 3]).p // 2 of 8
 */
export function signFlipTest(differences: ReadonlyArray<number>, options: PermutationOptions = {}): PermutationResult {
  const routine = "signFlipTest";
  requireSample(routine, "differences", differences, 1);
  const { draws = usualDraws, exactUpTo = usualExactUpTo, seed } = options;
  requireCount(routine, "draws", draws, 1);
  const n = differences.length;
  const { values, scale, tolerance } = exactSums(differences, 2);
  const observedSum = values.reduce((sum, value) => sum + value, 0);
  const counts = { extreme: 0, atLeast: 0, atMost: 0, looked: 0 };
  const look = (sum: number): void => {
    counts.looked++;
    if (Math.abs(sum) >= Math.abs(observedSum) - tolerance) counts.extreme++;
    if (sum >= observedSum - tolerance) counts.atLeast++;
    if (sum <= observedSum + tolerance) counts.atMost++;
  };
  const observed = observedSum / n / scale;
  if (2 ** n <= exactUpTo) {
    const descend = (from: number, sum: number): void => {
      if (from === n) {
        look(sum);
        return;
      }
      descend(from + 1, sum + values[from]!);
      descend(from + 1, sum - values[from]!);
    };
    descend(0, 0);
    return permutationResult(observed, counts, undefined);
  }
  if (seed === undefined) {
    throw new RangeError(
      `${routine}: a seed is needed to sample from ${2 ** n} sets of signs, more than exactUpTo ${exactUpTo}; received none`,
    );
  }
  const random = seededRandom(seed);
  for (let draw = 0; draw < draws; draw++) {
    let sum = 0;
    for (let i = 0; i < n; ) {
      // thirty coins from one whole number
      let coins = random.integer(1 << 30);
      for (const end = Math.min(n, i + 30); i < end; i++) {
        sum += coins & 1 ? values[i]! : -values[i]!;
        coins >>= 1;
      }
    }
    look(sum);
  }
  return permutationResult(observed, counts, seed);
}
