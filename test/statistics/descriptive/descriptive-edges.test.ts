import fc from "fast-check";
import { expect, test } from "vitest";
import { mean } from "../../../src/statistics/descriptive/mean.ts";
import { meanInterval } from "../../../src/statistics/descriptive/mean-interval.ts";
import { quantileType7 } from "../../../src/statistics/descriptive/quantile.ts";
import { assertClose } from "../../agreement.ts";

const sample = fc.array(
  fc.integer({ min: -1000, max: 1000 }).map((n) => n / 8),
  { minLength: 2, maxLength: 30 },
);

test("order of rows and change of unit", () => {
  fc.assert(
    fc.property(sample, (values) => {
      const reversed = [...values].reverse();
      assertClose(mean(reversed), mean(values), 1e-12);
      expect(quantileType7(reversed, 0.5)).toBe(quantileType7(values, 0.5));
    }),
    { numRuns: 100, seed: 3 },
  );
});

test("smallest samples, ties, no spread", () => {
  expect(mean([5])).toBe(5);
  expect(quantileType7([5], 0.3)).toBe(5);
  expect(meanInterval([2, 2])).toMatchObject({ mean: 2, lower: 2, upper: 2, standardError: 0 });
  expect(mean([Number.MAX_VALUE, Number.MAX_VALUE])).toBe(Number.MAX_VALUE);
});

test("wrong calls", () => {
  for (const routine of [mean, (values: number[]) => quantileType7(values, 0.5)]) {
    expect(() => routine([])).toThrow("needs at least 1 values; received 0");
    expect(() => routine([Number.POSITIVE_INFINITY])).toThrow("value 1 is Infinity");
  }
  expect(() => quantileType7([1], 1.2)).toThrow("p must lie from 0 to 1; received 1.2");
  expect(() => meanInterval([1, 2], 1)).toThrow("level must lie between 0 and 1");
});
