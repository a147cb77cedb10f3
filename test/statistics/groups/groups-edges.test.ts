import fc from "fast-check";
import { expect, test } from "vitest";
import { studentTTwoTailed } from "../../../src/statistics/distributions/student-t.ts";
import { oneWayAnova } from "../../../src/statistics/groups/one-way-anova.ts";
import { pureError } from "../../../src/statistics/groups/pure-error.ts";
import { randomisedBlocks } from "../../../src/statistics/groups/randomised-blocks.ts";
import { friedmanTest, kruskalWallis } from "../../../src/statistics/groups/rank-tests.ts";
import { shapiroWilk } from "../../../src/statistics/groups/shapiro-wilk.ts";
import { bartlettTest, brownForsytheTest, leveneTest } from "../../../src/statistics/groups/spread-tests.ts";
import { twoWayAnova } from "../../../src/statistics/groups/two-way-anova.ts";
import { welchAnova } from "../../../src/statistics/groups/welch-anova.ts";
import { assertClose } from "../../agreement.ts";

const all = { oneWayAnova, welchAnova, kruskalWallis, brownForsytheTest, leveneTest, bartlettTest };

test("one group, empty groups and values that are not numbers are refused by name", () => {
  for (const [name, run] of Object.entries(all)) {
    expect(() => run([[1, 2, 3]]), name).toThrow(new RegExp(`^${name}: at least 2 groups are needed; received 1`));
    expect(() => run([[1, 2, 3], []]), name).toThrow(new RegExp(`^${name}: group 2 needs at least`));
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(
        () =>
          run([
            [1, 2],
            [3, bad],
          ]),
        name,
      ).toThrow(new RegExp(`^${name}: group 2 must be finite numbers; value 2 is`));
    }
  }
});

test("no spread at all is refused, never answered as no difference", () => {
  for (const [name, run] of Object.entries(all))
    expect(
      () =>
        run([
          [2, 2],
          [2, 2, 2],
        ]),
      name,
    ).toThrow(RangeError);
  expect(() =>
    oneWayAnova([
      [0.1, 0.1],
      [0.1, 0.1, 0.1],
    ]),
  ).toThrow(/the values must differ; received 0.1 only/);
  expect(() => oneWayAnova([[1], [2]])).toThrow(/a group must have 2 values or more/);
});

test("spread between groups only: F is infinite, Welch cannot tell", () => {
  const table = oneWayAnova([
    [0.1, 0.1, 0.1],
    [0.3, 0.3],
  ]);
  expect([table.f, table.p, table.within.sumOfSquares, table.rSquared]).toEqual([Number.POSITIVE_INFINITY, 0, 0, 1]);
  expect(() =>
    welchAnova([
      [1, 1, 1],
      [2, 3],
    ]),
  ).toThrow(/received 1 only in group 1/);
});

test("two groups: F is t squared, with unequal counts and a group of one", () => {
  const [a, b] = [
    [1, 2, 4],
    [3, 5, 6, 9],
  ];
  const table = oneWayAnova([a, b]);
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = (values: number[]) => values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0);
  const t = (mean(b) - mean(a)) / Math.sqrt(((squares(a) + squares(b)) / 5) * (1 / 3 + 1 / 4));
  assertClose(table.f, t * t, 1e-12);
  assertClose(table.p, studentTTwoTailed(t, 5), 1e-14);
  expect(oneWayAnova([[3], [1, 2]]).denominatorDf).toBe(1);
});

test("scale, shift and order change no test", () => {
  const value = fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10);
  const group = fc.uniqueArray(value, { minLength: 3, maxLength: 7 });
  fc.assert(
    fc.property(group, group, group, (a, b, c) => {
      for (const run of [oneWayAnova, welchAnova]) {
        const plain = run([a, b, c]);
        const moved = run([c, a, b].map((own) => [...own].reverse().map((one) => one * 4 + 1000)));
        assertClose(moved.f, plain.f, 1e-9 * (1 + plain.f));
      }
      const ranks = kruskalWallis([a, b, c]);
      assertClose(
        kruskalWallis([c, a, b].map((own) => own.map((one) => Math.exp(one / 20)))).statistic,
        ranks.statistic,
        1e-9,
      );
    }),
    { numRuns: 50, seed: 7 },
  );
});

test("Shapiro-Wilk: published sample and edges", () => {
  // weights of 11 men, Shapiro and Wilk 1965, section 4: W = 0.79, p about 0.01 (from memory)
  const { w, p } = shapiroWilk([148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236]);
  assertClose(w, 0.79, 0.005);
  assertClose(p, 0.007, 0.003);
  // n = 3: W of equally spaced values is 1, the smallest possible is 3/4
  assertClose(shapiroWilk([1, 2, 3]).w, 1, 1e-14);
  assertClose(shapiroWilk([1, 2, 3]).p, 1, 1e-6);
  assertClose(shapiroWilk([0, 0, 1]).w, 0.75, 1e-14);
  assertClose(shapiroWilk([0, 0, 1]).p, 0, 1e-7);
  assertClose(shapiroWilk([5, 1, 3, 2]).w, shapiroWilk([1050, 1010, 1030, 1020]).w, 1e-14);
  expect(() => shapiroWilk([1, 2])).toThrow(/at least 3 values; received 2/);
  expect(() => shapiroWilk([4, 4, 4])).toThrow(/must differ; received 4 only/);
  expect(() => shapiroWilk([1, 2, Number.NaN])).toThrow(RangeError);
  expect(() => shapiroWilk(Array.from({ length: 5001 }, (_, i) => i))).toThrow(/at most 5000/);
});

test("ranks: two groups by hand, ties shared", () => {
  // ranks 1, 2 against 3, 4: H = 12 / 20 × (2 × 1 + 2 × 1) = 2.4
  assertClose(
    kruskalWallis([
      [1, 2],
      [3, 4],
    ]).statistic,
    2.4,
    1e-14,
  );
  // ranks 1, 2.5 against 2.5, 4: 12 / 20 × (2 × 0.75² × 2) / (1 - 6 / 60)
  assertClose(
    kruskalWallis([
      [1, 2],
      [2, 4],
    ]).statistic,
    1.5,
    1e-14,
  );
  assertClose(
    friedmanTest({ response: [1, 2, 3, 5], treatment: ["A", "B", "A", "B"], block: ["1", "1", "2", "2"] }).statistic,
    2,
    1e-14,
  );
  expect(() =>
    friedmanTest({ response: [1, 1, 2, 2], treatment: ["A", "B", "A", "B"], block: ["1", "1", "2", "2"] }),
  ).toThrow(/only equal ones/);
});

test("layouts that cannot be analysed are refused", () => {
  const layout = { response: [1, 2, 3, 5], treatment: ["A", "B", "A", "B"], block: ["1", "1", "2", "2"] };
  assertClose(randomisedBlocks(layout).treatments.f, 9, 1e-9);
  expect(() => randomisedBlocks({ ...layout, block: ["1", "1", "1", "1"] })).toThrow(/at least 2 blocks/);
  expect(() => randomisedBlocks({ ...layout, treatment: ["A", "A", "A", "A"] })).toThrow(/at least 2 treatments/);
  expect(() => randomisedBlocks({ ...layout, response: [1, 2, 3] })).toThrow(/equally long/);
  expect(() => randomisedBlocks({ ...layout, response: [2, 2, 2, 2] })).toThrow(RangeError);
  // each treatment stood in a block of its own: nothing compares them
  expect(() =>
    randomisedBlocks({ response: [1, 2, 3, 4], treatment: ["A", "A", "B", "B"], block: ["1", "1", "2", "2"] }),
  ).toThrow(/blocks must connect all treatments/);
  const first = { name: "dose", values: ["a", "a", "b", "b"] };
  const second = { name: "cook", values: ["x", "y", "x", "y"] };
  expect(() => twoWayAnova({ response: [1, 2, 3, 5], first, second })).toThrow(
    /more rows than coefficients; received 4 rows and 4/,
  );
  expect(twoWayAnova({ response: [1, 2, 3, 5], first, second, interaction: false }).residual.degreesOfFreedom).toBe(1);
  expect(() =>
    twoWayAnova({
      response: [1, 2],
      first: { name: "dose", values: ["a", "a"] },
      second: { name: "cook", values: ["x", "y"] },
    }),
  ).toThrow(/"dose" needs at least 2 levels/);
  expect(pureError([1, 2], ["a", "b"])).toEqual({ settings: 2, degreesOfFreedom: 0, sumOfSquares: 0, meanSquare: 0 });
});
