import fc from "fast-check";
import { expect, test } from "vitest";
import { mean } from "../../../src/statistics/descriptive/mean.ts";
import { meanInterval } from "../../../src/statistics/descriptive/mean-interval.ts";
import { median, quantileType7 } from "../../../src/statistics/descriptive/quantile.ts";
import { studentTTest } from "../../../src/statistics/descriptive/student-t-test.ts";
import { welchDegreesOfFreedom } from "../../../src/statistics/descriptive/welch-degrees-of-freedom.ts";
import { welchTTest } from "../../../src/statistics/descriptive/welch-t-test.ts";
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
      assertClose(median(reversed), median(values), 0);
    }),
    { numRuns: 100, seed: 3 },
  );
});

test("two routes to one answer: pooled and Welch t agree on equal sizes; two tied samples give p 1", () => {
  const a = [1, 2, 4, 7];
  const b = [3, 8, 9, 15];
  assertClose(welchTTest(a, b).t, studentTTest(a, b).t, 1e-14);
  assertClose(welchTTest(a, b).t, -welchTTest(b, a).t, 1e-15);
});

test("smallest samples, ties, no spread", () => {
  expect(mean([5])).toBe(5);
  expect(median([5])).toBe(5);
  expect(quantileType7([5], 0.3)).toBe(5);
  expect(meanInterval([2, 2])).toMatchObject({ mean: 2, lower: 2, upper: 2, standardError: 0 });
  // one arm without spread leaves the degrees of freedom of the other
  expect(welchTTest([1, 1, 1], [1, 2, 3, 4]).degreesOfFreedom).toBeCloseTo(3, 12);
  expect(welchDegreesOfFreedom(4, 5, 4, 5)).toBe(8);
  expect(mean([Number.MAX_VALUE, Number.MAX_VALUE])).toBe(Number.MAX_VALUE);
});

test("wrong calls", () => {
  for (const routine of [mean, median]) {
    expect(() => routine([])).toThrow("needs at least 1 values; received 0");
    expect(() => routine([Number.POSITIVE_INFINITY])).toThrow("value 1 is Infinity");
  }
  expect(() => quantileType7([1], 1.2)).toThrow("p must lie from 0 to 1; received 1.2");
  expect(() => welchTTest([1, 1], [2, 2])).toThrow("welchTTest: the values must vary");
  expect(() => studentTTest([1, 1], [2, 2])).toThrow("studentTTest: the values must vary");
  expect(() => welchTTest([1, 2], [2, 3], 1)).toThrow("level must lie between 0 and 1");
  expect(() => welchDegreesOfFreedom(0, 3, 0, 3)).toThrow("one variance must be above 0");
  expect(() => welchDegreesOfFreedom(-1, 3, 1, 3)).toThrow("received -1");
});
