import { compensatedSum, deviationsFromMean } from "../descriptive/deviations.ts";
import { fUpperTail } from "../distributions/f.ts";
import { requireSample } from "../require-numbers.ts";

/** An F test. */
export interface FTest {
  f: number;
  numeratorDf: number;
  denominatorDf: number;
  p: number;
}

/**
 * Whether the means of independent groups differ, without taking their variances as equal: the usual sum of squares between
 * groups over what it would be by chance alone. Not the test of spreads by the same authors.
 * @param groups the values of each group, at least two each
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or no group's
 *   values vary
 * @source Brown and Forsythe 1974, Technometrics 16:129-132
 * @example brownForsytheMeans([[6, 8], [9, 11]]).f // 4.5
 */
export function brownForsytheMeans(groups: ReadonlyArray<ReadonlyArray<number>>): FTest {
  const routine = "brownForsytheMeans";
  if (groups.length < 2) throw new RangeError(`${routine}: at least 2 groups are needed; received ${groups.length}`);
  groups.forEach((group, i) => {
    requireSample(routine, `group ${i + 1}`, group, 2);
  });
  // from the mean of all, so that a large common part costs no digits
  const { deviations } = deviationsFromMean(routine, groups.flat(), 2);
  let at = 0;
  const sums = groups.map(({ length: count }) => {
    const own = deviations.subarray(at, at + count);
    at += count;
    const first = own[0]!;
    const mean = first + compensatedSum(own.map((value) => value - first)) / count;
    return { count, mean, variance: compensatedSum(own.map((value) => (value - mean) ** 2)) / (count - 1) };
  });
  const shares = sums.map(({ count, variance }) => (1 - count / deviations.length) * variance);
  const expected = shares.reduce((sum, share) => sum + share, 0);
  if (!(expected > 0)) throw new RangeError(`${routine}: the values of at least one group must differ`);
  const f = sums.reduce((sum, { count, mean }) => sum + count * mean ** 2, 0) / expected;
  const numeratorDf = groups.length - 1;
  const denominatorDf = 1 / shares.reduce((sum, share, i) => sum + (share / expected) ** 2 / (sums[i]!.count - 1), 0);
  return { f, numeratorDf, denominatorDf, p: fUpperTail(f, numeratorDf, denominatorDf) };
}
