import { expect, test } from "vitest";
import { compensatedSum, scaledSquares } from "../../../src/statistics/descriptive/deviations.ts";
import { mean } from "../../../src/statistics/descriptive/mean.ts";
import { meanInterval } from "../../../src/statistics/descriptive/mean-interval.ts";
import { quantileType7 } from "../../../src/statistics/descriptive/quantile.ts";
import { selectedQuantiles } from "../../../src/statistics/descriptive/selected-quantiles.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

test("sums carry what rounding drops, whichever way round it comes", () => {
  expect(compensatedSum([])).toBe(0);
  expect(compensatedSum([1e16, 1, -1e16])).toBe(1);
  expect(compensatedSum([1, 1e16, -1e16])).toBe(1);
  expect(compensatedSum([-1, -1e16, 1e16, 3])).toBe(2);
  expect(compensatedSum([1, 1e100, 1, -1e100])).toBe(2);
  expect(compensatedSum([0.5, -0.25, 4])).toBe(4.25);
});

test("squares of values at either end of the range of numbers", () => {
  for (const unit of [1, 1e300, 1e-300, 2 ** 1023, 5e-324 * 2 ** 10]) {
    const { scale, sum } = scaledSquares(Float64Array.of(0.75 * unit, -1 * unit, 0));
    assertClose((scale / unit) * (scale / unit) * sum, 1.5625, 1e-12);
  }
  expect(scaledSquares(Float64Array.of(0, 0))).toEqual({ scale: 1, sum: 0 });
});

test("means and errors of values with a large common part: as typed, to the last digit", () => {
  // by hand: deviations 0.1, 0.1 and 0.2 from 1000000.2 with signs
  const values = [1000000.1, 1000000.4, 1000000.1];
  assertClose(mean(values), 1000000.2, 1e-9);
  assertClose(meanInterval(values).standardError, 0.1, 1e-12);
  const { lower, upper, n, degreesOfFreedom, level } = meanInterval([1, 2, 3], 0.9);
  // Student's t of 2 degrees of freedom at 0.95: 2.919985580 of any textbook's table
  assertClose(upper - 2, 2.91998558 / Math.sqrt(3), 1e-8);
  assertClose(2 - lower, 2.91998558 / Math.sqrt(3), 1e-8);
  expect([n, degreesOfFreedom, level]).toEqual([3, 2, 0.9]);
});

test("quantiles without sorting are those of the sorted values: few values, thousands, ties, every share", () => {
  const random = seededRandom(12);
  for (const [count, different] of [
    [1, 5],
    [2, 5],
    [7, 3],
    [40, 1000],
    [700, 1e9],
    [5000, 1e9],
    [3000, 4],
  ] as const) {
    // biome-ignore format: sizes
    const values = Float64Array.from({ length: count }, () => random.integer(different) / 7);
    const shares = [0, 0.01, 0.25, 0.25, 0.5, 0.9, 0.999, 1];
    const expected = shares.map((share) => quantileType7([...values], share));
    expect(selectedQuantiles(values.slice(), shares)).toEqual(expected);
    for (const share of shares)
      expect(selectedQuantiles(values.slice(), [share])).toEqual([quantileType7([...values], share)]);
  }
  expect(() => selectedQuantiles(Float64Array.of(), [0.5])).toThrow(
    "selectedQuantiles: values needs at least 1 values; received 0",
  );
  expect(() => selectedQuantiles(Float64Array.of(1, 2), [0.5, 0.4])).toThrow("received 0.4 after 0.5");
  expect(() => selectedQuantiles(Float64Array.of(1, 2), [1.1])).toThrow("received 1.1 after 0");
  expect(() => selectedQuantiles(Float64Array.of(1, 2), [Number.NaN])).toThrow("received NaN after 0");
});
