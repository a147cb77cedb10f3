import fc from "fast-check";
import { expect, test } from "vitest";
import { solveSplit, type WholeProgramme } from "../../src/costing/products/whole-programme.ts";
import { assertClose } from "../agreement.ts";

/** The largest sum of amounts of 0 or more, each row of which stays within its limit. */
const programmeOf = (
  objective: ReadonlyArray<number>,
  rows: ReadonlyArray<ReadonlyArray<number>>,
  limits: ReadonlyArray<number>,
): WholeProgramme => ({
  variables: Object.fromEntries(
    objective.map((money, k) => [
      `amount ${k}`,
      { money, ...Object.fromEntries(rows.map((row, i) => [`limit ${i}`, row[k]!])) },
    ]),
  ),
  objective: "money",
  limits: Object.fromEntries(limits.map((limit, i) => [`limit ${i}`, limit])),
  whole: [],
});

test("an example that goes round in circles where nothing says which amount enters first", () => {
  // Beale 1955, Naval Research Logistics Quarterly 2(4):269-275 (from memory)
  const rows = [
    [0.25, -60, -0.04, 9],
    [0.5, -90, -0.02, 3],
    [0, 0, 1, 0],
  ];
  const solved = solveSplit(programmeOf([0.75, -150, 0.02, -6], rows, [0, 0, 1]))!;
  assertClose(solved.value, 0.05, 1e-6);
  assertClose(solved.of("amount 2"), 1, 1e-6);
});

test("limits that contradict each other, limits below 0, and no limit at all", () => {
  expect(solveSplit(programmeOf([1], [[1], [-1]], [1, -2]))).toBeUndefined();
  expect(solveSplit(programmeOf([-1], [[-1]], [-2]))!.value).toBe(-2);
  expect(solveSplit(programmeOf([-1], [], []))!.value).toBeCloseTo(0, 12);
  expect(() => solveSplit(programmeOf([1], [], []))).toThrow("no finite best");
  expect(() => solveSplit(programmeOf([1], [[-1]], [-3]))).toThrow("no finite best");
});

const number = (from: number) => fc.integer({ min: 20 * from, max: 200 }).map((value) => value / 20);
const list = <T>(of: fc.Arbitrary<T>, length: number) => fc.array(of, { minLength: length, maxLength: length });
const given = fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 9 })).chain(([amounts, limits]) =>
  fc.record({
    objective: list(number(-10), amounts),
    rows: list(list(number(-3), amounts), limits),
    limits: list(number(-3), limits),
  }),
);

/** The largest sum; undefined where there is none. */
function largest(...of: Parameters<typeof programmeOf>): number | undefined {
  try {
    return solveSplit(programmeOf(...of))?.value;
  } catch {
    return undefined;
  }
}

test("the largest sum is the least price of the limits", () => {
  // duality theorem: Gale, Kuhn and Tucker 1951, in Koopmans (ed.), Activity Analysis of Production and Allocation, 317-329
  const less = (values: ReadonlyArray<number>): number[] => values.map((value) => -value);
  let ended = 0;
  fc.assert(
    fc.property(given, ({ objective, rows, limits }) => {
      const best = largest(objective, rows, limits);
      const across = objective.map((_, k) => less(rows.map((row) => row[k]!)));
      const price = largest(less(limits), across, less(objective));
      expect(price === undefined).toBe(best === undefined);
      if (best === undefined || price === undefined) return;
      ended++;
      assertClose(-price, best, 1e-6 * Math.max(1, Math.abs(best)));
    }),
  );
  expect(ended).toBeGreaterThan(10);
});
