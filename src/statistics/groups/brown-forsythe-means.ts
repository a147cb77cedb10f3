import { fUpperTail } from "../distributions/f.ts";
import { toNumber } from "../linear-algebra/double-double.ts";
import { sumsOfGroups } from "./group-sums.ts";

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
  const sums = sumsOfGroups("brownForsytheMeans", groups, 2);
  const total = sums.reduce((sum, { count }) => sum + count, 0);
  const first = toNumber(sums[0]!.mean);
  const means = sums.map(({ mean }) => toNumber(mean) - first);
  const grand = means.reduce((sum, mean, i) => sum + (sums[i]!.count / total) * mean, 0);
  const shares = sums.map(({ count, sumOfSquares }) => (1 - count / total) * (toNumber(sumOfSquares) / (count - 1)));
  const expected = shares.reduce((sum, share) => sum + share, 0);
  if (!(expected > 0)) throw new RangeError("brownForsytheMeans: the values of at least one group must differ");
  const between = means.reduce((sum, mean, i) => sum + sums[i]!.count * (mean - grand) ** 2, 0);
  const f = between / expected;
  const numeratorDf = groups.length - 1;
  const denominatorDf = 1 / shares.reduce((sum, share, i) => sum + (share / expected) ** 2 / (sums[i]!.count - 1), 0);
  return { f, numeratorDf, denominatorDf, p: fUpperTail(f, numeratorDf, denominatorDf) };
}
