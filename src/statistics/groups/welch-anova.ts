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
 * Whether the means of independent groups differ, without taking their variances as equal.
 * @param groups the values of each group, at least two each
 * @returns F with whole numerator and fractional denominator degrees of freedom
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or the values
 *   of a group are all equal
 * @source Welch 1951, Biometrika 38(3/4):330-336
 * @example welchAnova([[6, 8], [9, 11]]).f // 4.5
 */
export function welchAnova(groups: ReadonlyArray<ReadonlyArray<number>>): FTest {
  const sums = sumsOfGroups("welchAnova", groups, 2);
  const precisions = sums.map(({ count, sumOfSquares }, i) => {
    const squares = toNumber(sumOfSquares);
    if (squares === 0) {
      throw new RangeError(
        `welchAnova: the values of a group must differ; received ${groups[i]![0]} only in group ${i + 1}`,
      );
    }
    return (count * (count - 1)) / squares;
  });
  const whole = precisions.reduce((sum, precision) => sum + precision, 0);
  const first = toNumber(sums[0]!.mean);
  const centre =
    precisions.reduce((sum, precision, i) => sum + precision * (toNumber(sums[i]!.mean) - first), 0) / whole;
  const numeratorDf = groups.length - 1;
  let spread = 0;
  let penalty = 0;
  precisions.forEach((precision, i) => {
    spread += precision * (toNumber(sums[i]!.mean) - first - centre) ** 2;
    penalty += (1 - precision / whole) ** 2 / (sums[i]!.count - 1);
  });
  const pairs = groups.length ** 2 - 1;
  const f = spread / numeratorDf / (1 + (2 * (groups.length - 2) * penalty) / pairs);
  const denominatorDf = pairs / (3 * penalty);
  return { f, numeratorDf, denominatorDf, p: fUpperTail(f, numeratorDf, denominatorDf) };
}
