import { fUpperTail } from "../distributions/f.ts";
import { add, type DoubleDouble, divide, multiply, subtract, toNumber, zero } from "../linear-algebra/double-double.ts";
import { type GroupSums, sumsOfGroups } from "./group-sums.ts";

/** A line of an analysis of variance without a test. */
export interface VarianceLine {
  degreesOfFreedom: number;
  sumOfSquares: number;
  meanSquare: number;
}

/** Analysis of variance of independent groups. */
export interface OneWayAnova {
  between: VarianceLine;
  within: VarianceLine;
  total: { degreesOfFreedom: number; sumOfSquares: number };
  /** infinite when the groups differ and nothing varies within them */
  f: number;
  numeratorDf: number;
  denominatorDf: number;
  p: number;
  /** between over total sum of squares: eta squared */
  rSquared: number;
  /** square root of the within mean square */
  residualStandardDeviation: number;
  /** in the order given */
  groups: { count: number; mean: number }[];
}

/**
 * Whether the means of independent groups differ, taking their variances as equal.
 * @param groups the values of each group in any one unit; a group may have one value as long as another has more
 * @returns the table; sums of squares in the unit squared
 * @throws RangeError if there are fewer than two groups, a group is empty, all have one value, a value is not finite, or all
 *   values are equal
 * @source Fisher 1925; NIST/SEMATECH e-Handbook, section 7.4.3; sums in double-double from the first value on
 * @example oneWayAnova([[6, 8], [9, 11]]).f // 4.5
 */
export function oneWayAnova(groups: ReadonlyArray<ReadonlyArray<number>>): OneWayAnova {
  return tableOf("oneWayAnova", sumsOfGroups("oneWayAnova", groups, 1));
}

function tableOf(routine: string, groups: ReadonlyArray<GroupSums>): OneWayAnova {
  const count = groups.reduce((sum, group) => sum + group.count, 0);
  const numeratorDf = groups.length - 1;
  const denominatorDf = count - groups.length;
  if (denominatorDf < 1) throw new RangeError(`${routine}: a group must have 2 values or more; received 1 in each`);
  const origin = groups[0]!.mean;
  let grand: DoubleDouble = zero;
  let withinSum: DoubleDouble = zero;
  for (const group of groups) {
    grand = add(grand, multiply({ high: group.count, low: 0 }, subtract(group.mean, origin)));
    withinSum = add(withinSum, group.sumOfSquares);
  }
  grand = divide(grand, { high: count, low: 0 });
  let betweenSum: DoubleDouble = zero;
  for (const group of groups) {
    const deviation = subtract(subtract(group.mean, origin), grand);
    betweenSum = add(betweenSum, multiply({ high: group.count, low: 0 }, multiply(deviation, deviation)));
  }
  const within = toNumber(withinSum);
  const between = toNumber(betweenSum);
  const total = toNumber(add(withinSum, betweenSum));
  if (total === 0) throw new RangeError(`${routine}: the values must differ; received ${toNumber(origin)} only`);
  const f = between / numeratorDf / (within / denominatorDf);
  return {
    between: { degreesOfFreedom: numeratorDf, sumOfSquares: between, meanSquare: between / numeratorDf },
    within: { degreesOfFreedom: denominatorDf, sumOfSquares: within, meanSquare: within / denominatorDf },
    total: { degreesOfFreedom: count - 1, sumOfSquares: total },
    f,
    numeratorDf,
    denominatorDf,
    p: fUpperTail(f, numeratorDf, denominatorDf),
    rSquared: between / total,
    residualStandardDeviation: Math.sqrt(within / denominatorDf),
    groups: groups.map((group) => ({ count: group.count, mean: toNumber(group.mean) })),
  };
}
