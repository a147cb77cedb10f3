import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayNumber } from "../../../src/cleaning/dates/calendar.ts";
import { bookMeasures, ratioOf } from "../../../src/cleaning/plausibility/book-measures.ts";
import { middle } from "../../../src/cleaning/plausibility/robust-centre.ts";
import { daysTo, stageDays } from "../../../src/cleaning/plausibility/stage-days.ts";
import {
  centresByGroup,
  groupsOf,
  groupsWithin,
  sweepMedians,
} from "../../../src/cleaning/plausibility/tray-groups.ts";
import { weighedTrays } from "../../../src/cleaning/plausibility/weighed-trays.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import type { Tray } from "../../../src/records/tray.ts";
import { trayRecord } from "../../analyses/demo-records.ts";

const traysOf = (...facts: Partial<Tray>[]): Tray[] => facts.map((one, at) => trayRecord({ trayId: `T${at}`, ...one }));
const measured = (...facts: Partial<Tray>[]) => {
  const trays = traysOf(...facts);
  return bookMeasures(trays, weighedTrays(trays), defaultSettings);
};
const times = <T>(count: number, one: T): T[] => Array.from({ length: count }, () => one);

test.each<[string, Partial<Tray>, number | undefined]>([
  ["a good tray", { freshGrams: 200, dryGrams: 20 }, 10],
  ["fresh only", { freshGrams: 200 }, undefined],
  ["dry only", { dryGrams: 20 }, undefined],
  ["nothing fresh", { freshGrams: 0, dryGrams: 20 }, undefined],
  ["nothing dry", { freshGrams: 200, dryGrams: 0 }, undefined],
  ["a lost tray", { freshGrams: 200, dryGrams: 20, outcome: "contaminated" }, undefined],
  ["a pool", { freshGrams: 200, dryGrams: 20, traysInPool: 2 }, undefined],
])("fresh over dry of %s is %s", (_, facts, ratio) => {
  expect(ratioOf(traysOf(facts)[0]!)).toBe(ratio);
  // by hand: the middle of the logarithms of these alone
  const centre = measured(facts).logRatio;
  expect(centre).toEqual(ratio === undefined ? undefined : { median: Math.log(ratio), deviation: 0, count: 1 });
});

test("the middle of the first of some numbers is that of these sorted", () => {
  const numbers = fc.oneof(
    fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 40 }),
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 1, maxLength: 40 }),
  );
  fc.assert(
    fc.property(numbers, fc.nat(), (all, length) => {
      const count = 1 + (length % all.length);
      const sorted = all.slice(0, count).sort((a, b) => a - b);
      const half = sorted.length >> 1;
      const expected = sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
      const rearranged = Float64Array.from(all);
      expect(middle(rearranged, count)).toBe(expected + 0);
      expect([...rearranged.subarray(count)]).toEqual(all.slice(count));
    }),
  );
});

describe("trays in groups", () => {
  const keys = ["a", "a", "b", undefined, "a", "b", "a"];
  const groups = groupsOf(keys, (key) => key);
  const values = [1, 3, 8, 99, 5, Number.NaN, Number.NaN];

  test("each has the place of its group among the keys as first met", () => {
    expect(groups.keys).toEqual(["a", "b"]);
    expect([...groups.places]).toEqual([0, 0, 1, -1, 0, 1, 0]);
    expect(groupsOf([4, 5], (_, at) => at).keys).toEqual([0, 1]);
  });

  test("two groupings: trays are together that are in both; one of a single group parts nothing", () => {
    const one = groupsOf(["x", "y", "x", "y", "x"], (key) => key);
    const other = groupsOf([1, 1, 2, 2, 1], (key) => key);
    expect([...groupsWithin(one, other).places]).toEqual([0, 1, 2, 3, 0]);
    expect(
      groupsWithin(
        groupsOf(["x", "x", "x", "x", "x"], (key) => key),
        other,
      ),
    ).toBe(other);
    expect([...groupsWithin(other, one).places]).toEqual([0, 1, 2, 3, 0]);
  });

  test("centres are of the known values of a group, where it has enough", () => {
    const a = { median: 3, deviation: 2, count: 3 };
    expect(centresByGroup(Float64Array.from(values), groups, 1)).toEqual([a, { median: 8, deviation: 0, count: 1 }]);
    expect(centresByGroup(Float64Array.from(values), groups, 2)).toEqual([a, undefined]);
    expect(centresByGroup(Float64Array.from(values), groups, 3)).toEqual([a, undefined]);
    expect(centresByGroup(Float64Array.from(values), groups, 4)).toEqual([undefined, undefined]);
  });

  test("medians taken off the values of each group that has enough", () => {
    const left = Float64Array.from(values);
    expect(sweepMedians(left, groups, 2)).toEqual({ medians: [3, 0], taken: 1 });
    expect([...left]).toEqual([-2, 0, 8, 99, 2, Number.NaN, Number.NaN]);
    expect(sweepMedians(Float64Array.from(values), groups, 1)).toEqual({ medians: [3, 8], taken: 2 });
    expect(sweepMedians(Float64Array.from(values), groups, 3)).toEqual({ medians: [3, 0], taken: 1 });
  });
});

test("days between stages are those of the calendar, and not known where one of the two is not", () => {
  const days = stageDays(
    traysOf(
      { inoculatedOn: "2026-02-20", colonisedOn: "2026-03-02", harvestedOn: "2026-03-20", fruitingOn: "2026-03-05" },
      { inoculatedOn: "2026-02-20", driedOn: "2026-03-21" },
      { colonisedOn: "2026-03-02", harvestedOn: "2026-03-20" },
    ),
  );
  const of = (stage: "colonised" | "harvested") => [0, 1, 2].map((at) => daysTo(stage, days, at));
  expect(of("colonised")).toEqual([10, Number.NaN, Number.NaN]);
  expect(of("harvested")).toEqual([28, Number.NaN, Number.NaN]);
  expect(days.map((stage) => stage[0])).toEqual(
    ["2026-02-20", "2026-03-02", "2026-03-05", "2026-03-20"].map(dayNumber).concat(Number.NaN),
  );
  expect(days[4]![1]).toBe(dayNumber("2026-03-21"));
});

// one sweep of a median polish (Tukey 1977), by hand. Doses: 200 of 10 mL, 40 of 20 mL. What is left of cook A is a half,
// twice and twice: twice. Cook B has two trays, which say nothing of it
describe("the usual weight of a dose in its cook", () => {
  const facts = (
    property: "freshGrams" | "dryGrams",
    inoculumMillilitres: number,
    grams: number,
    batch?: string,
    more: Partial<Tray> = {},
  ): Partial<Tray> => ({
    inoculumMillilitres,
    [property]: grams,
    ...(batch === undefined ? {} : { batch }),
    ...more,
  });

  test.each([
    ["freshGrams", "fresh", "dry"],
    ["dryGrams", "dry", "fresh"],
  ] as const)("of %s", (property, weight, other) => {
    const book = measured(
      facts(property, 10, 100, "A"),
      facts(property, 10, 400, "A"),
      facts(property, 10, 200, "B"),
      facts(property, 20, 80, "A"),
      facts(property, 20, 40, "B"),
      facts(property, 20, 20),
      facts(property, 20, 0, "A"),
      facts(property, 20, 900, "A", { outcome: "failed" }),
      facts(property, 20, 900, "A", { traysInPool: 2 }),
      {},
    );
    const { residuals, usualOf, centreOf } = book[weight];
    const rounded = (value: number) => Number(value.toFixed(9));
    expect([...residuals].map((left) => rounded(Math.exp(left)))).toEqual([
      0.25,
      1,
      1,
      1,
      1,
      0.5,
      ...times(4, Number.NaN),
    ]);
    expect([0, 1, 2, 3, 4, 5].map((at) => rounded(Math.exp(usualOf(at))))).toEqual([400, 400, 200, 80, 40, 40]);
    // of all six, less what two doses and one cook took: the largest four lie 0, 0, ln 2 and ln 4 off
    expect([0, 3].map((at) => centreOf(at)?.count)).toEqual([6, 6]);
    expect([rounded(centreOf(5)!.median), rounded(Math.exp(2 * centreOf(5)!.deviation))]).toEqual([0, 2]);
    expect([...book[other].residuals].every(Number.isNaN)).toBe(true);
  });
});

describe("the middle of a book's dates", () => {
  const dates = {
    inoculatedOn: "2026-01-01",
    harvestedOn: "2026-02-20",
    colonisedOn: "2026-01-12",
    fruitingOn: "2026-01-20",
    driedOn: "2026-02-22",
  };
  const stages = Object.keys(dates) as (keyof typeof dates)[];
  const from = (first: number) => Object.fromEntries(stages.slice(first).map((stage) => [stage, dates[stage]]));

  test.each(stages.map((stage, at) => [stage, from(at)] as const))("of trays that begin with %s", (stage, facts) => {
    expect(measured(...times(4, facts)).middleDay).toBe(dayNumber(dates[stage]));
    expect(measured(...times(3, facts), {}).middleDay).toBeUndefined();
  });

  test("is not told where half of the trays lie more than a year from it", () => {
    const day = (inoculatedOn: string) => ({ inoculatedOn });
    const spread = (last: string) => measured(...times(2, day("2024-01-01")), ...times(2, day(last))).middleDay;
    expect(spread("2026-01-02")).toBe(dayNumber("2025-01-01")); // 366 days each
    expect(spread("2026-01-04")).toBeUndefined(); // 367
    expect(spread("2024-01-02")).toBe(dayNumber("2024-01-02"));
  });
});

test("a pool is no lone tray of its dose, and no dose at all is none to compare with", () => {
  const slips = (...doses: [millilitres: number, trays: number][]) => [
    ...measured(...doses.map(([inoculumMillilitres, traysInPool]) => ({ inoculumMillilitres, traysInPool })), {})
      .doseSlips,
  ];
  expect(slips([5, 1], [5, 1], [10, 2], [100, 1])).toEqual([100]);
  expect(slips([5, 1], [5, 1], [10, 2], [100, 2])).toEqual([]);
  expect(slips([0, 2], [5, 2], [50, 1])).toEqual([]);
  expect(slips([3, 2], [5, 2], [50, 1])).toEqual([50]);
  expect(slips([3, 2], [5, 2], [0.5, 1])).toEqual([0.5]);
  expect(slips([3, 2], [5, 2], [51, 1])).toEqual([]);
});

// ten trays give ten times as much fresh as dry; a container of 150 g adds 150 to the fresh weight, by hand
describe("a container on the scale", () => {
  const usual = times(12, { freshGrams: 200, dryGrams: 20 });
  const heavy = (excess: number): Partial<Tray> => ({ dryGrams: excess / 10, freshGrams: 2 * excess });
  const container = (...suspects: Partial<Tray>[]) => {
    const { freshContainer, dryContainer } = measured(...usual, ...suspects);
    return [freshContainer, dryContainer].map((grams) => (grams === undefined ? grams : Number(grams.toFixed(6))));
  };

  test.each<[string, number[], number | undefined]>([
    ["three alike", [150, 150, 150], 150],
    ["two alike", [150, 150], undefined],
    ["alike within 15 %", [150, 150, 172], 150],
    ["one of three beyond 15 %", [150, 150, 173], undefined],
    ["three of five", [150, 150, 150, 600, 10], 150],
    ["three of six", [150, 150, 150, 600, 10, 5], undefined],
    ["none", [], undefined],
  ])("fresh weights too heavy by %s", (_, excesses, grams) => {
    expect(container(...excesses.map(heavy))).toEqual([grams, undefined]);
  });

  test("dry weights likewise, and a ratio on a limit is not too heavy", () => {
    const dry = (dryGrams: number) => ({ freshGrams: 200, dryGrams });
    expect(container(...times(3, dry(60)))).toEqual([undefined, 40]);
    expect(container(...times(3, dry(50)))).toEqual([undefined, undefined]);
    expect(container(...times(3, { freshGrams: 300, dryGrams: 20 }))).toEqual([undefined, undefined]);
    expect(container(...times(3, { freshGrams: 301, dryGrams: 20 }))).toEqual([101, undefined]);
  });
});
