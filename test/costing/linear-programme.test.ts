import fc from "fast-check";
import solver, { type Model, type SolveResult } from "javascript-lp-solver";
import { expect, test } from "vitest";
import { largestWithin } from "../../src/costing/products/linear-programme.ts";
import { assertClose } from "../agreement.ts";

const sumOf = (a: ReadonlyArray<number>, b: ReadonlyArray<number>): number =>
  a.reduce((sum, value, k) => sum + value * b[k]!, 0);

test("an example that goes round in circles where nothing says which amount enters first", () => {
  // Beale 1955, Naval Research Logistics Quarterly 2(4):269-275 (from memory)
  const [objective, rows, limits] = [
    [0.75, -150, 0.02, -6],
    [
      [0.25, -60, -0.04, 9],
      [0.5, -90, -0.02, 3],
      [0, 0, 1, 0],
    ],
    [0, 0, 1],
  ];
  const amounts = largestWithin(objective!, rows, limits!)!;
  [0.04, 0, 1, 0].forEach((value, k) => {
    assertClose(amounts[k]!, value, 1e-12);
  });
  assertClose(sumOf(objective!, amounts), 0.05, 1e-12);
});

test("limits that contradict each other, limits below 0, and no limit at all", () => {
  expect(largestWithin([1], [[1], [-1]], [1, -2])).toBeUndefined();
  expect(largestWithin([-1], [[-1]], [-2])).toEqual([2]);
  expect(
    largestWithin(
      [1, -1],
      [
        [-1, 0],
        [1, 1],
        [1, 1],
      ],
      [-1, 1, 1],
    ),
  ).toEqual([1, 0]);
  expect(largestWithin([-1], [], [])).toEqual([0]);
  expect(largestWithin([0], [[0]], [0])).toEqual([0]);
  expect(() => largestWithin([1], [], [])).toThrow("no finite best");
  expect(() => largestWithin([1], [[-1]], [-3])).toThrow("no finite best");
});

const number = (from: number) => fc.integer({ min: 20 * from, max: 200 }).map((value) => value / 20);
const list = <T>(of: fc.Arbitrary<T>, length: number) => fc.array(of, { minLength: length, maxLength: length });
const programme = fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 9 })).chain(([amounts, limits]) =>
  fc.record({
    objective: list(number(-10), amounts),
    rows: list(list(number(-3), amounts), limits),
    limits: list(number(-3), limits),
  }),
);

/** As `largestWithin`, and undefined where the sum has no largest value, too. */
function solved(...given: Parameters<typeof largestWithin>): number[] | undefined {
  try {
    return largestWithin(...given);
  } catch {
    return undefined;
  }
}

test("the largest sum is the least price of the limits, and keeps them", () => {
  // duality theorem: Gale, Kuhn and Tucker 1951, in Koopmans (ed.), Activity Analysis of Production and Allocation, 317-329
  const less = (values: ReadonlyArray<number>): number[] => values.map((value) => -value);
  let ended = 0;
  fc.assert(
    fc.property(programme, ({ objective, rows, limits }) => {
      const amounts = solved(objective, rows, limits);
      const across = objective.map((_, k) => less(rows.map((row) => row[k]!)));
      const prices = solved(less(limits), across, less(objective));
      expect(prices === undefined).toBe(amounts === undefined);
      if (amounts === undefined || prices === undefined) return;
      ended++;
      const best = sumOf(objective, amounts);
      assertClose(sumOf(limits, prices), best, 1e-7 * Math.max(1, Math.abs(best)));
      rows.forEach((row, i) => {
        expect(sumOf(row, amounts)).toBeLessThanOrEqual(limits[i]! + 1e-7);
      });
    }),
  );
  expect(ended).toBeGreaterThan(10);
});

test("the same largest sum as javascript-lp-solver 1.0.3", () => {
  // its presolve calls a limit whose coefficients are all 0 infeasible, so it is left off
  fc.assert(
    fc.property(programme, ({ objective, rows, limits }) => {
      const variables: Model["variables"] = {};
      objective.forEach((sum, k) => {
        variables[`amount ${k}`] = { sum, ...Object.fromEntries(rows.map((row, i) => [`limit ${i}`, row[k]!])) };
      });
      const model: Model = {
        ...{ optimize: "sum", opType: "max", variables, options: { presolve: false } },
        constraints: Object.fromEntries(limits.map((max, i) => [`limit ${i}`, { max }])),
      };
      const { feasible, bounded, result } = solver.Solve(model) as SolveResult;
      const amounts = solved(objective, rows, limits);
      expect(amounts !== undefined).toBe(feasible && bounded !== false);
      if (amounts !== undefined) assertClose(sumOf(objective, amounts), result, 1e-6 * Math.max(1, Math.abs(result)));
    }),
  );
});
