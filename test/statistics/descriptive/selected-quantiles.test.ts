import { expect, test } from "vitest";
import { quantileType7 } from "../../../src/statistics/descriptive/quantile.ts";
import { selectedQuantiles } from "../../../src/statistics/descriptive/selected-quantiles.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";

test("the same as sorting, with ties, for many sizes", () => {
  const random = seededRandom(2);
  const shares = [0, 0.025, 0.3, 0.5, 0.5, 0.975, 1];
  for (let size = 1; size <= 120; size++) {
    const values = Array.from({ length: size }, () => (size % 3 === 0 ? random.integer(5) : random.normal()));
    expect(selectedQuantiles(Float64Array.from(values), shares)).toEqual(shares.map((p) => quantileType7(values, p)));
  }
});

test("R's quantile(c(2, 7, 1, 8, 2, 8), c(.25, .9)), type 7 by its definition: 2 and 8", () => {
  expect(selectedQuantiles(Float64Array.of(2, 7, 1, 8, 2, 8), [0.25, 0.9])).toEqual([2, 8]);
});

test("refusals", () => {
  expect(() => selectedQuantiles(new Float64Array(0), [0.5])).toThrow(/values/);
  expect(() => selectedQuantiles(Float64Array.of(1), [0.5, 0.4])).toThrow(/rise/);
  expect(() => selectedQuantiles(Float64Array.of(1), [1.1])).toThrow(/received 1.1/);
});
