import { normalUpperTail } from "../distributions/normal.ts";
import { requireSample } from "../require-numbers.ts";

/** Outcome of the rank-sum test by its normal approximation. */
export interface RankSumTest {
  /** how many pairs (one of each sample) have the first sample's value above the second's; ties count one half */
  u: number;
  z: number;
  /** two-sided, with continuity and tie corrections */
  p: number;
}

/**
 * Does one sample tend to hold larger values than another? Normal approximation, corrected for ties and continuity: rough
 * below about ten values per sample.
 * @param a one or more finite numbers
 * @param b one or more finite numbers, not all equal to each other and to a
 * @throws RangeError if a sample is empty, a value is not finite, or all values are equal
 * @source Wilcoxon 1945, Biometrics Bulletin 1(6):80-83; Mann and Whitney 1947, Annals of Mathematical Statistics
 *   18(1):50-60
 * @example rankSumTest([1, 2, 3], [4, 5, 6]).u // 0
 */
export function rankSumTest(a: ReadonlyArray<number>, b: ReadonlyArray<number>): RankSumTest {
  requireSample("rankSumTest", "a", a, 1);
  requireSample("rankSumTest", "b", b, 1);
  const sorted = Float64Array.from([...a, ...b]).sort();
  const total = sorted.length;
  let tieSum = 0;
  const rankOf = new Map<number, number>();
  for (let first = 0; first < total; ) {
    let next = first + 1;
    while (next < total && sorted[next] === sorted[first]) next++;
    const tied = next - first;
    tieSum += tied ** 3 - tied;
    rankOf.set(sorted[first]!, (first + 1 + next) / 2);
    first = next;
  }
  const rankSum = a.reduce((sum, value) => sum + rankOf.get(value)!, 0);
  const u = rankSum - (a.length * (a.length + 1)) / 2;
  const variance = ((a.length * b.length) / 12) * (total + 1 - tieSum / (total * (total - 1)));
  if (!(variance > 0)) throw new RangeError(`rankSumTest: the values must not all be equal; received ${sorted[0]}`);
  const excess = u - (a.length * b.length) / 2;
  const z = (excess - Math.sign(excess) * 0.5) / Math.sqrt(variance);
  return { u, z, p: Math.min(1, 2 * normalUpperTail(Math.abs(z))) };
}
