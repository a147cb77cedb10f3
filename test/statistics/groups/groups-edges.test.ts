import fc from "fast-check";
import { expect, test } from "vitest";
import { studentTTwoTailed } from "../../../src/statistics/distributions/student-t.ts";
import { oneWayAnova } from "../../../src/statistics/groups/one-way-anova.ts";
import { friedmanTest, kruskalWallis } from "../../../src/statistics/groups/rank-tests.ts";
import { welchAnova } from "../../../src/statistics/groups/welch-anova.ts";
import { assertClose } from "../../agreement.ts";

test("no spread at all is refused, never answered as no difference", () => {
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
