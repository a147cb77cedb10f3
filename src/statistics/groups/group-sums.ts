import { add, type DoubleDouble, divide, multiply, subtract, zero } from "../linear-algebra/double-double.ts";
import { typedDecimal } from "../linear-algebra/typed-decimal.ts";
import { requireSample } from "../require-numbers.ts";

/** Count, mean and sum of squares of one group, carried to 32 digits. */
export interface GroupSums {
  count: number;
  mean: DoubleDouble;
  /** of the deviations from the mean */
  sumOfSquares: DoubleDouble;
}

/**
 * Mean and sum of squared deviations of values taken as typed decimals. Everything is measured from the first value, so a
 * large common part costs no digits and equal values give exactly 0.
 * @internal
 */
function groupSums(values: ReadonlyArray<number>): GroupSums {
  const origin = typedDecimal(values[0]!);
  const count = { high: values.length, low: 0 };
  const shifted = values.map((value) => subtract(typedDecimal(value), origin));
  let sum = zero;
  for (const value of shifted) sum = add(sum, value);
  const mean = divide(sum, count);
  let sumOfSquares = zero;
  for (const value of shifted) {
    const deviation = subtract(value, mean);
    sumOfSquares = add(sumOfSquares, multiply(deviation, deviation));
  }
  return { count: values.length, mean: add(origin, mean), sumOfSquares };
}

/**
 * Sums of each of several groups.
 * @throws RangeError if there are fewer than two groups, one has fewer than `atLeast` values, or a value is not finite
 * @internal
 */
export function sumsOfGroups(
  routine: string,
  groups: ReadonlyArray<ReadonlyArray<number>>,
  atLeast: number,
): GroupSums[] {
  if (groups.length < 2) throw new RangeError(`${routine}: at least 2 groups are needed; received ${groups.length}`);
  groups.forEach((group, i) => {
    requireSample(routine, `group ${i + 1}`, group, atLeast);
  });
  return groups.map(groupSums);
}
