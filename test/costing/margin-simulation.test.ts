import { expect, test } from "vitest";
import {
  drawBeta,
  drawTriangular,
  type MarginBasis,
  type MarginUncertainty,
  simulateMargin,
} from "../../src/costing/products/margin-simulation.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../agreement.ts";

const basis: MarginBasis = {
  terms: { feeFraction: 0.1, feeFixed: 0.3, feeBase: "price", taxRate: 0, taxIncluded: false, shippingCharged: 0 },
  gramsNeeded: 50,
  otherCostPerUnit: 2,
  costPerGoodTray: 8,
  costPerLostTray: 4,
  costPerGram: 0.01,
  targetMargin: 0.3,
};
const uncertain: MarginUncertainty = {
  gramsPerGoodTray: { mean: 40, standardError: 3 },
  lost: 10,
  finished: 100,
  price: { low: 18, central: 20, high: 23 },
  costShare: { low: 0.9, high: 1.3 },
};
const momentsOf = (draw: () => number, count: number): { mean: number; variance: number } => {
  const values = Array.from({ length: count }, draw);
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  return { mean, variance: values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count };
};

test("beta and triangular draws have their distributions' means and variances (textbook formulas), within four standard errors", () => {
  const random = seededRandom(11);
  for (const [a, b] of [
    [0.5, 20.5],
    [3.5, 7.5],
    [10.5, 90.5],
  ] as const) {
    const { mean, variance } = momentsOf(() => drawBeta(a, b, random), 20_000);
    const expected = (a * b) / ((a + b) ** 2 * (a + b + 1));
    assertClose(mean, a / (a + b), 4 * Math.sqrt(expected / 20_000));
    assertClose(variance / expected, 1, 0.1);
  }
  const { mean, variance } = momentsOf(() => drawTriangular(2, 3, 7, random), 20_000);
  const expected = (4 + 9 + 49 - 6 - 14 - 21) / 18;
  assertClose(mean, 4, 4 * Math.sqrt(expected / 20_000));
  assertClose(variance / expected, 1, 0.05);
  expect(drawTriangular(5, 5, 5, random)).toBe(5);
});

test("with everything certain the margin is the one worked out by hand", () => {
  const certain: MarginUncertainty = {
    gramsPerGoodTray: { mean: 40, standardError: 0 },
    lost: 0,
    finished: 1e9,
    price: { low: 20, central: 20, high: 20 },
  };
  const found = simulateMargin(basis, certain, 200, seededRandom(1));
  const perGram = 8 / 40 + 0.01;
  const profit = 20 * 0.9 - 0.3 - 2 - 50 * perGram;
  assertClose(found.costPerGram.median, perGram, 1e-7);
  assertClose(found.profit.q05, profit, 1e-5);
  assertClose(found.profit.q95, profit, 1e-5);
  expect([found.chanceCovered, found.chanceTarget]).toEqual([1, profit / 20 >= 0.3 ? 1 : 0]);
});

test("the same seed gives the same answer, another seed nearly so, and quantiles rise", () => {
  const found = simulateMargin(basis, uncertain, 4000, seededRandom(20261));
  expect(simulateMargin(basis, uncertain, 4000, seededRandom(20261))).toEqual(found);
  const other = simulateMargin(basis, uncertain, 4000, seededRandom(5));
  assertClose(other.chanceTarget!, found.chanceTarget!, 0.05);
  assertClose(other.profit.median, found.profit.median, 0.1);
  for (const { q05, q25, median, q75, q95 } of [found.profit, found.margin, found.costPerGram]) {
    expect([q05, q25, median, q75, q95]).toEqual([q05, q25, median, q75, q95].toSorted((a, b) => a - b));
  }
});

test("mean cost of a gram agrees with the expected value over loss and yield, to simulation error", () => {
  const found = simulateMargin(
    { ...basis, costPerGram: 0 },
    { ...uncertain, gramsPerGoodTray: { mean: 40, standardError: 0 } },
    20_000,
    seededRandom(3),
  );
  // median of the odds of a Beta(10.5, 90.5) loss is near its mean 10.5/89.5, a little below
  assertClose(found.costPerGram.median, (8 + (10.5 / 89.5) * 4) / 40, 0.001);
});

test("wrong numbers are named", () => {
  const run =
    (changes: Partial<MarginUncertainty>, draws = 100) =>
    () =>
      simulateMargin(basis, { ...uncertain, ...changes }, draws, seededRandom(1));
  expect(run({}, 99)).toThrow("draws must be a whole number of 100 or more; received 99");
  expect(run({ lost: 101 })).toThrow("lost over finished");
  expect(run({ finished: 0 })).toThrow("finished");
  expect(run({ gramsPerGoodTray: { mean: 0, standardError: 1 } })).toThrow("gramsPerGoodTray.mean");
  expect(run({ price: { low: 20, central: 18, high: 22 } })).toThrow(
    "low <= central <= high must hold; received 20, 18, 22",
  );
  expect(() => drawBeta(0, 1, seededRandom(1))).toThrow("shapeA");
});
