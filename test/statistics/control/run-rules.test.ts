import { expect, test } from "vitest";
import { type RunRule, runRules } from "../../../src/statistics/control/run-rules.ts";

const at = (values: number[], rule: RunRule) =>
  runRules(values, 0, 1).flatMap((signal) => (signal.rule === rule ? [signal.to] : []));

// each row holds a pattern as the rule's published definition words it, and the same pattern one point short
const definitions: [rule: RunRule, pattern: number[], short: number[]][] = [
  ["one point beyond three sigma", [0, -3.1], [0, -3]],
  [
    "nine in a row on one side",
    [-1, 0.1, 0.5, 2, 1, 0.2, 0.3, 0.1, 0.4, 0.2],
    [-1, 0.1, 0.5, 2, 1, 0.2, 0.3, 0.1, 0.4, 0],
  ],
  ["six in a row rising or falling", [3, 2.5, 2, 1, 0, -1].map((z) => z / 2), [2, 1, 1, 0.5, 0, -1]],
];

test.each(definitions)(
  "%s: found on its last point, not one short (Nelson 1984, from memory)",
  (rule, pattern, short) => {
    const turned = pattern.map((z) => -z);
    expect([at(pattern, rule), at(short, rule), at(turned, rule)]).toEqual([
      [pattern.length - 1],
      [],
      [pattern.length - 1],
    ]);
  },
);

test("a lasting run signals at every further point; a flat line tells nothing; units of the sheet do not matter", () => {
  expect(at(Array(11).fill(0.5), "nine in a row on one side")).toEqual([8, 9, 10]);
  expect(runRules(Array(40).fill(0), 0, 1)).toEqual([]);
  expect(runRules([13.5, 10, 16.5], 10, 2)).toEqual([{ rule: "one point beyond three sigma", to: 2 }]);
});

test("wrong calls", () => {
  expect(() => runRules([], 0, 1)).toThrow("needs at least 1 values; received 0");
  expect(() => runRules([1], 0, 0)).toThrow("sigma must be a number above 0; received 0");
  expect(() => runRules([1], Number.NaN, 1)).toThrow("value 1 is NaN");
});
