import { expect, test } from "vitest";
import {
  drawTriangular,
  type MarginBasis,
  type MarginUncertainty,
  simulateMargin,
} from "../../src/costing/products/margin-simulation.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../agreement.ts";

const basis: MarginBasis = {
  terms: { feeFraction: 0.1, feeFixed: 0.3, feeBase: "price", taxRate: 0, taxIncluded: false, shippingCharged: 0 },
  otherCostPerUnit: 2,
  targetMargin: 0.3,
};
const uncertain: MarginUncertainty = {
  mushrooms: (random) => 10 * (0.8 + 0.4 * random.uniform()),
  price: { low: 18, central: 20, high: 23 },
  costShare: { low: 0.9, high: 1.3 },
};
const momentsOf = (draw: () => number, count: number): { mean: number; variance: number } => {
  const values = Array.from({ length: count }, draw);
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  return { mean, variance: values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count };
};

test("triangular draws have their distribution's mean and variance (textbook formulas), within four standard errors", () => {
  const random = seededRandom(11);
  const { mean, variance } = momentsOf(() => drawTriangular(2, 3, 7, random), 20_000);
  const expected = (4 + 9 + 49 - 6 - 14 - 21) / 18;
  assertClose(mean, 4, 4 * Math.sqrt(expected / 20_000));
  assertClose(variance / expected, 1, 0.05);
  expect(drawTriangular(5, 5, 5, random)).toBe(5);
});

test("a triangular draw is where its distribution has the share drawn; by hand, from 2 by 4 to 7", () => {
  // below 4 the share is (x - 2)^2 / 10, above it 1 - (7 - x)^2 / 15
  const at = (share: number) => drawTriangular(2, 4, 7, { ...seededRandom(1), uniform: () => share });
  for (const [share, x] of [
    [0, 2],
    [0.1, 3],
    [0.4, 4],
    [1 - 4 / 15, 5],
    [1 - 1 / 15, 6],
  ] as const)
    assertClose(at(share), x, 1e-12);
  expect(() => drawTriangular(5, 4, 7, seededRandom(1))).toThrow("low <= central <= high must hold");
  expect(() => drawTriangular(2, 8, 7, seededRandom(1))).toThrow("received 2, 8, 7");
});

test("with everything certain the margin is the one worked out by hand", () => {
  const certain: MarginUncertainty = { mushrooms: () => 10.5, price: { low: 20, central: 20, high: 20 } };
  const found = simulateMargin(basis, certain, 200, seededRandom(1));
  const profit = 20 * 0.9 - 0.3 - 2 - 10.5;
  assertClose(found.margin.q05, profit / 20, 1e-12);
  assertClose(found.margin.q95, profit / 20, 1e-12);
  expect([found.chanceCovered, found.chanceTarget]).toEqual([1, profit / 20 >= 0.3 ? 1 : 0]);
});

test("the chance that the price covers cost is the share of the mushrooms' cost below what is left for it, by hand", () => {
  // uniform from 8 to 12; 20 x 0.9 - 0.3 - 8 leaves 9.7 for it: 42.5 %
  const found = simulateMargin(
    { ...basis, otherCostPerUnit: 8 },
    { mushrooms: uncertain.mushrooms, price: { low: 20, central: 20, high: 20 } },
    20_000,
    seededRandom(3),
  );
  assertClose(found.chanceCovered, 0.425, 4 * Math.sqrt((0.425 * 0.575) / 20_000));
});

test("a draw without an upper end covers nothing and is as low as the lowest", () => {
  let turn = 0;
  const found = simulateMargin(
    basis,
    { mushrooms: () => (turn++ % 4 === 0 ? Number.POSITIVE_INFINITY : 10), price: { low: 20, central: 20, high: 20 } },
    400,
    seededRandom(1),
  );
  expect(found.chanceCovered).toBe(0.75);
  expect(found.margin.q05).toBe(0);
});

test("the same seed gives the same answer, another seed nearly so, and quantiles rise", () => {
  const found = simulateMargin(basis, uncertain, 4000, seededRandom(20261));
  expect(simulateMargin(basis, uncertain, 4000, seededRandom(20261))).toEqual(found);
  const other = simulateMargin(basis, uncertain, 4000, seededRandom(5));
  assertClose(other.chanceTarget!, found.chanceTarget!, 0.05);
  assertClose(other.margin.q05, found.margin.q05, 0.02);
  expect(found.margin.q05).toBeLessThan(found.margin.q95);
});

test("wrong numbers are named", () => {
  const run =
    (changes: Partial<MarginUncertainty>, draws = 100) =>
    () =>
      simulateMargin(basis, { ...uncertain, ...changes }, draws, seededRandom(1));
  expect(run({}, 99)).toThrow("draws must be a whole number of 100 or more; received 99");
  expect(run({ price: { low: 0, central: 18, high: 22 } })).toThrow("price.low");
  expect(run({ price: { low: 20, central: 18, high: 22 } })).toThrow(
    "low <= central <= high must hold; received 20, 18, 22",
  );
  expect(() => simulateMargin({ ...basis, otherCostPerUnit: -1 }, uncertain, 100, seededRandom(1))).toThrow(
    "otherCostPerUnit",
  );
});
