import { expect, test } from "vitest";
import { nelsonRules, type RunRule, runRules } from "../../../src/statistics/control/run-rules.ts";

const at = (values: number[], rule: RunRule) => runRules(values, 0, 1, [rule]).map((signal) => signal.to);

// each row holds a pattern as the rule's published definition words it, and the same pattern one point short
const definitions: [rule: RunRule, pattern: number[], short: number[]][] = [
  ["one point beyond three sigma", [0, -3.1], [0, -3]],
  [
    "nine in a row on one side",
    [-1, 0.1, 0.5, 2, 1, 0.2, 0.3, 0.1, 0.4, 0.2],
    [-1, 0.1, 0.5, 2, 1, 0.2, 0.3, 0.1, 0.4, 0],
  ],
  [
    "eight in a row on one side",
    [-0.1, -0.5, -2, -1, -0.2, -0.3, -0.1, -0.4],
    [-0.1, -0.5, -2, 1, -0.2, -0.3, -0.1, -0.4],
  ],
  ["six in a row rising or falling", [3, 2.5, 2, 1, 0, -1].map((z) => z / 2), [2, 1, 1, 0.5, 0, -1]],
  [
    "fourteen in a row alternating",
    [1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1],
    [1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, 2],
  ],
  ["two of three beyond two sigma", [2.1, 0, 2.5], [2.1, 0, -2.5]],
  ["four of five beyond one sigma", [1.1, 1.2, -1, 1.5, 1.3], [1.1, 1.2, -1, 0.9, 1.3]],
  ["fifteen in a row within one sigma", Array.from({ length: 15 }, (_, i) => (i % 3) / 3), [...Array(14).fill(0.2), 1]],
  ["eight in a row outside one sigma", [1.1, -1.2, 1.5, 2, -2, -1.1, 1.2, 1.3], [1.1, -1.2, 1.5, 2, 1, -1.1, 1.2, 1.3]],
];

for (const [rule, pattern, short] of definitions) {
  test(`${rule}: found on its last point, not one short (Nelson 1984; Western Electric 1956, from memory)`, () => {
    expect(at(pattern, rule)).toEqual([pattern.length - 1]);
    expect(at(short, rule)).toEqual([]);
    expect(
      at(
        pattern.map((z) => -z),
        rule,
      ),
    ).toEqual([pattern.length - 1]);
  });
}

const two: RunRule[] = ["one point beyond three sigma", "two of three beyond two sigma"];

test("the set: eight of Nelson; only the rules switched on are looked for", () => {
  expect(nelsonRules).toHaveLength(8);
  expect(runRules([3.5, 0, 0], 0, 1)).toEqual([{ rule: "one point beyond three sigma", from: 0, to: 0 }]);
  expect(runRules([3.5, 0, 0], 0, 1, [])).toEqual([]);
  expect(runRules([2.5, 2.5], 0, 1, two)).toEqual([{ rule: "two of three beyond two sigma", from: 0, to: 1 }]);
  expect(runRules([13.5, 10], 10, [1, 2], two)).toHaveLength(1);
  expect(runRules([13.5, 10], 10, [2, 1], two)).toHaveLength(0);
});

test("a lasting run signals at every further point; a flat line never alternates or trends", () => {
  expect(at(Array(11).fill(0.5), "nine in a row on one side")).toEqual([8, 9, 10]);
  expect(
    runRules(Array(14).fill(0.5), 0, 1, ["six in a row rising or falling", "fourteen in a row alternating"]),
  ).toEqual([]);
  expect(runRules(Array(40).fill(0), 0, 1).every((signal) => signal.rule === "fifteen in a row within one sigma")).toBe(
    true,
  );
});

test("wrong calls", () => {
  expect(() => runRules([], 0, 1)).toThrow("needs at least 1 values; received 0");
  expect(() => runRules([1], 0, 0)).toThrow("sigma must be a number above 0; received 0");
  expect(() => runRules([1, 2], 0, [1])).toThrow("one number or one per value; received 1 for 2");
  expect(() => runRules([1], Number.NaN, 1)).toThrow("value 1 is NaN");
});
