import { exactSum } from "../linear-algebra/double-double.ts";
import { decimalRemainder } from "../linear-algebra/typed-decimal.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";
import { oneSampleTTest } from "./one-sample-t-test.ts";
import type { TTest } from "./t-test.ts";

/**
 * Do two treatments tried on the same units (or side by side in the same block) differ on average?
 * @param a outcome of each pair under the first treatment
 * @param b outcome of the same pairs, in the same order, under the second
 * @param level confidence level of the interval, 0.95 unless stated
 * @returns mean of a - b with interval, t, degrees of freedom (pairs - 1) and two-sided p
 * @throws RangeError if the columns differ in length, have fewer than two pairs, hold a non-finite value, or all differences are equal
 * @source Student 1908, Biometrika 6(1):1-25
 * @example pairedTTest([3, 5, 9], [1, 2, 5]).estimate // 3
 */
export function pairedTTest(a: ReadonlyArray<number>, b: ReadonlyArray<number>, level = 0.95): TTest {
  requireSameLength("pairedTTest", "a", a, "b", b);
  requireFinite("pairedTTest", "a", a);
  requireFinite("pairedTTest", "b", b);
  return oneSampleTTest(
    a.map((value, index) => decimalDifference(value, b[index]!)),
    0,
    level,
  );
}

/** a - b rounded once, each taken as the decimal it was typed as: 0.3 - 0.1 is 0.2, not 0.19999999999999998. */
function decimalDifference(a: number, b: number): number {
  const stored = exactSum(a, -b);
  return stored.high + (stored.low + (decimalRemainder(a) - decimalRemainder(b)));
}
