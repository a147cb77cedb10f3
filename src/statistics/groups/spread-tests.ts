import { median } from "../descriptive/quantile.ts";
import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { toNumber } from "../linear-algebra/double-double.ts";
import { groupSums, sumsOfGroups } from "./group-sums.ts";
import { oneWayAnova } from "./one-way-anova.ts";
import type { FTest } from "./welch-anova.ts";

/**
 * Whether the spreads of groups differ, judged by distances from each group's median: holds up when values are skewed.
 * @param groups the values of each group, at least two each
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or all
 *   distances are equal
 * @source Brown and Forsythe 1974, Journal of the American Statistical Association 69(346):364-367
 * @example brownForsytheTest([[1, 2, 4], [1, 5, 12]]).f // 1.6
 */
export function brownForsytheTest(groups: ReadonlyArray<ReadonlyArray<number>>): FTest {
  return distancesTest("brownForsytheTest", groups, median);
}

/**
 * Whether the spreads of groups differ, judged by distances from each group's mean.
 * @param groups the values of each group, at least two each
 * @throws RangeError as {@link brownForsytheTest}
 * @source Levene 1960, in Contributions to Probability and Statistics, 278-292
 * @example leveneTest([[1, 2, 4], [1, 5, 12]]).f // 3.3465...
 */
export function leveneTest(groups: ReadonlyArray<ReadonlyArray<number>>): FTest {
  return distancesTest("leveneTest", groups, (values) => toNumber(groupSums(values).mean));
}

function distancesTest(
  routine: string,
  groups: ReadonlyArray<ReadonlyArray<number>>,
  centre: (values: ReadonlyArray<number>) => number,
): FTest {
  sumsOfGroups(routine, groups, 2);
  const distances = groups.map((values) => {
    const middle = centre(values);
    return values.map((value) => Math.abs(value - middle));
  });
  const all = distances.flat();
  const widest = Math.max(...all.map(Math.abs));
  // distances that differ by the rounding of the centre only are equal
  if (Math.max(...all) - Math.min(...all) <= 1e-12 * widest) {
    throw new RangeError(`${routine}: the distances from the centre must differ; received ${all[0]} only`);
  }
  const { f, numeratorDf, denominatorDf, p } = oneWayAnova(distances);
  return { f, numeratorDf, denominatorDf, p };
}

/**
 * Whether the variances of normal groups differ. Misled by values that are not normal: prefer `brownForsytheTest`.
 * @param groups the values of each group, at least two each
 * @returns chi-square statistic with its degrees of freedom
 * @throws RangeError if there are fewer than two groups, one has fewer than two values, a value is not finite, or the values
 *   of a group are all equal
 * @source Bartlett 1937, Proceedings of the Royal Society A 160(901):268-282
 * @example bartlettTest([[1, 2, 4], [1, 5, 12]]).statistic // 2.1528...
 */
export function bartlettTest(groups: ReadonlyArray<ReadonlyArray<number>>): {
  statistic: number;
  degreesOfFreedom: number;
  p: number;
} {
  const sums = sumsOfGroups("bartlettTest", groups, 2);
  let pooledSquares = 0;
  let pooledDf = 0;
  let logs = 0;
  let reciprocals = 0;
  sums.forEach(({ count, sumOfSquares }, i) => {
    const squares = toNumber(sumOfSquares);
    if (squares === 0) {
      throw new RangeError(
        `bartlettTest: the values of a group must differ; received ${groups[i]![0]} only in group ${i + 1}`,
      );
    }
    pooledSquares += squares;
    pooledDf += count - 1;
    logs += (count - 1) * Math.log(squares / (count - 1));
    reciprocals += 1 / (count - 1);
  });
  const degreesOfFreedom = groups.length - 1;
  const correction = 1 + (reciprocals - 1 / pooledDf) / (3 * degreesOfFreedom);
  const statistic = Math.max((pooledDf * Math.log(pooledSquares / pooledDf) - logs) / correction, 0);
  return { statistic, degreesOfFreedom, p: chiSquareUpperTail(statistic, degreesOfFreedom) };
}
