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

test("the same as sorting many values, spread, tied and in order", () => {
  const random = seededRandom(3);
  for (const value of [() => random.normal(), () => random.integer(7), (i: number) => i, (i: number) => -i, () => 1]) {
    const values = Array.from({ length: 5000 }, (_, i) => value(i));
    const shares = [0.025, 0.1, 0.5, 0.975];
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
