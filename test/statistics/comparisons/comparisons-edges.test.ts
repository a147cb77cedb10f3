import { expect, test } from "vitest";
import { dunnett } from "../../../src/statistics/comparisons/dunnett.ts";
import {
  benjaminiHochbergAdjustment,
  holmAdjustment,
} from "../../../src/statistics/comparisons/p-value-adjustments.ts";
import { studentTTwoTailed, studentTUpperTail } from "../../../src/statistics/distributions/student-t.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

test("one group against the control is a t test, in each direction", () => {
  const groups = [
    [5, 6, 7.5],
    [7, 8, 10, 11],
  ];
  const either = dunnett(groups).comparisons[0]!;
  const above = dunnett(groups, { direction: "above" }).comparisons[0]!;
  const below = dunnett(groups, { direction: "below" }).comparisons[0]!;
  assertClose(either.p, studentTTwoTailed(either.t, 5), 1e-12);
  assertClose(above.p, studentTUpperTail(either.t, 5), 1e-12);
  assertClose(below.p, 1 - studentTUpperTail(either.t, 5), 1e-12);
  expect([above.upper, below.lower]).toEqual([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]);
});

test("Dunnett: limits touch 0 exactly where the adjusted p is 1 - level, with unequal counts", () => {
  const groups = [
    [5, 6, 7, 5.5],
    [7, 8, 10],
    [6, 7, 7, 9, 12],
  ];
  const { p } = dunnett(groups).comparisons[1]!;
  const { lower, upper } = dunnett(groups, { level: 1 - p }).comparisons[1]!;
  assertClose(Math.min(Math.abs(lower), Math.abs(upper)), 0, 1e-9);
});

test("Dunnett: control by position, and order of the other groups", () => {
  const [a, b, c] = [
    [5, 6, 7],
    [7, 8, 10],
    [6, 7, 7],
  ] as const;
  const first = dunnett([a, b, c]).comparisons;
  const last = dunnett([c, b, a], { control: 2 }).comparisons;
  assertClose(first[0]!.p, last[1]!.p, 1e-14);
  assertClose(first[1]!.lower, last[0]!.lower, 1e-9);
  expect(last.map(({ group }) => group)).toEqual([0, 1]);
});

test("equal means have p 1 and an interval around 0", () => {
  const one = dunnett([
    [5, 6, 7],
    [5, 6, 7],
    [4, 6, 8],
  ]).comparisons[0]!;
  expect([one.t, one.p]).toEqual([0, 1]);
});

test("adjusted p-values: worked by hand", () => {
  const raw = [0.04, 0.01, 0.02, 0.9];
  expectAgreement(
    { method: "p-value adjustment", dataset: "four tests", statistic: "all", source: "by hand" },
    [
      ...holmAdjustment(raw).map((p, i) => [p, [0.08, 0.04, 0.06, 0.9][i]!] as const),
      ...benjaminiHochbergAdjustment(raw).map((p, i) => [p, [0.16 / 3, 0.04, 0.04, 0.9][i]!] as const),
    ],
    14,
  );
  expect(holmAdjustment([])).toEqual([]);
  for (const adjust of [holmAdjustment, benjaminiHochbergAdjustment]) {
    expect(() => adjust([0.5, 1.2])).toThrow(/from 0 to 1; received 1.2/);
    expect(() => adjust([Number.NaN])).toThrow(RangeError);
  }
});

test("wrong calls name the routine and what was received", () => {
  expect(() =>
    dunnett(
      [
        [1, 2],
        [2, 3],
      ],
      { control: 2 },
    ),
  ).toThrow(/received position 2/);
});

test("a group of one value borrows the others' variance; Welch pairs need one that varies", () => {
  expect(dunnett([[1, 3], [2]]).degreesOfFreedom).toBe(1);
});
