import fc from "fast-check";
import { expect, test } from "vitest";
import { minorUnits } from "../../src/costing/apportion.ts";
import { compensatedSum } from "../../src/costing/compensated-sum.ts";
import { scopedTotals } from "../../src/costing/trays/cost-account.ts";
import { costSheet } from "../../src/costing/trays/cost-sheet.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostBase, CostLine } from "../../src/records/cost-line.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Outcome, Tray } from "../../src/records/tray.ts";
import { assertClose } from "../agreement.ts";
import { line, settings, spentIn, tray } from "./sample-records.ts";

const cost = (trays: Tray[], costLines: CostLine[], set: Settings = settings()): TrayCosts => {
  const costs = trayCosts({ trays, costLines, settings: set });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return costs;
};
const totals = (trays: Tray[], costLines: CostLine[], set?: Settings): number[] => [
  ...cost(trays, costLines, set).totals,
];

const life = {
  inoculatedOn: "2026-01-01",
  fruitingOn: "2026-01-21",
  harvestedOn: "2026-02-20",
  inoculumMillilitres: 10,
};

test("each base, by hand", () => {
  const one = tray({
    ...life,
    batch: "A",
    load: "1",
    grainDryGrams: 300,
    supplementGrams: 20,
    freshGrams: 400,
    dryGrams: 50,
  });
  const two = tray({
    ...life,
    batch: "A",
    load: "2",
    grainDryGrams: 300,
    supplementGrams: 0,
    freshGrams: 200,
    dryGrams: 25,
  });
  const of = (per: CostBase, facts: Partial<CostLine> = {}) =>
    totals([one, two], [line({ item: per, per, packPrice: 12, ...facts })], settings({ jarMillilitres: 500 }));
  expect(of("tray")).toEqual([12, 12]);
  expect(of("good tray")).toEqual([12, 12]);
  expect(of("cook")).toEqual([6, 6]);
  expect(of("load")).toEqual([12, 12]);
  // 12 a jar of 500 mL, 10 mL a tray
  of("jar").forEach((amount) => {
    assertClose(amount, 0.24, 1e-12);
  });
  expect(of("inoculum mL")).toEqual([120, 120]);
  expect(of("supplement g")).toEqual([240, 0]);
  expect(of("grain g")).toEqual([3600, 3600]);
  expect(of("shelf day")).toEqual([600, 600]);
  expect(of("shelf day", { stage: "incubation" })).toEqual([240, 240]);
  expect(of("shelf day", { stage: "fruiting" })).toEqual([360, 360]);
  assertClose(of("kg fresh")[0]!, 4.8, 1e-12);
  assertClose(of("kg dried")[1]!, 0.3, 1e-12);
  expect(of("month")).toEqual([6, 6]);
});

test("energy of a load shared over its trays: 0.42 over 12 is 0.035, arithmetic", () => {
  const trays = Array.from({ length: 12 }, () => tray({ load: "1" }));
  const power = line({
    item: "power",
    kind: "energy",
    packPrice: 0.16,
    packUnit: "kWh",
    per: "load",
    watts: 1500,
    hours: 2.5,
    duty: 0.7,
    amount: 2.625,
  });
  totals(trays, [power]).forEach((amount) => {
    assertClose(amount, 0.035, 1e-12);
  });
});

test("shared over the trays that were not lost, when that is the rule", () => {
  const trays = [
    tray({ load: "1" }),
    tray({ load: "1", outcome: "contaminated" }),
    tray({ load: "2", outcome: "failed" }),
  ];
  const costs = trayCosts({
    trays,
    costLines: [line({ item: "power", per: "load", packPrice: 6 })],
    settings: settings(),
    sharedOver: "not lost",
  });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  expect([...costs.totals]).toEqual([6, 0, 6]);
});

test("a tray without load and day carries its share of a full one, and the log says so", () => {
  const costs = cost([tray()], [line({ item: "power", per: "load", packPrice: 24 })], settings({ traysPerLoad: 12 }));
  expect(costs.totals[0]).toBe(2);
  expect(costs.issues).toMatchObject([
    { rule: "cost-load-assumed", severity: "note", setting: "trays_per_load", row: 2 },
  ]);
});

// common practice, no source: what is cooked on another day takes a run of its own, full or not
test.each([
  ["3 of 12 places: one run for each of two days", 12, [3, 3], [8, 8]],
  ["12 of 12: one run", 12, [12], [2]],
  ["14 of 12: two runs", 12, [14], [48 / 14]],
  ["5 and 12 of 6: one run and two", 6, [5, 12], [24 / 5, 4]],
])("where no load is recorded, %s", (_, traysPerLoad, cooks, each) => {
  const trays = cooks.flatMap((count, day) =>
    Array.from({ length: count }, () => tray({ batch: `C${day}`, inoculatedOn: `2026-03-0${1 + day}` })),
  );
  const costs = cost(trays, [line({ item: "power", per: "load", packPrice: 24 })], settings({ traysPerLoad }));
  const expected = cooks.flatMap((count, day) => Array<number>(count).fill(each[day]!));
  costs.totals.forEach((total, index) => {
    assertClose(total, expected[index]!, 1e-12);
  });
  expect(costs.issues).toMatchObject([{ rule: "cost-load-assumed", severity: "note", setting: "trays_per_load" }]);
});

test("a cook spread over two days, or two cooks of one day, went through the cooker once", () => {
  const power = [line({ item: "power", per: "load", packPrice: 24 })];
  const on = (batch: string, day: number) => tray({ batch, inoculatedOn: `2026-03-0${day}` });
  expect(totals([on("A", 1), on("A", 2)], power, settings({ traysPerLoad: 12 }))).toEqual([12, 12]);
  expect(totals([on("A", 1), on("B", 1)], power, settings({ traysPerLoad: 12 }))).toEqual([12, 12]);
});

test("load names used again in every cook are different loads", () => {
  const trays = ["A", "B"].flatMap((batch) => Array.from({ length: 4 }, () => tray({ batch, load: "1" })));
  expect(totals(trays, [line({ item: "power", per: "load", packPrice: 8 })], settings({ traysPerLoad: 4 }))).toEqual(
    Array(8).fill(2),
  );
  expect(totals(trays, [line({ item: "power", per: "load", packPrice: 8 })], settings({ traysPerLoad: 8 }))).toEqual(
    Array(8).fill(1),
  );
});

test("a tray lost at day 5 cost less than one lost at day 50", () => {
  const started = { inoculatedOn: "2026-01-01", inoculumMillilitres: 10, outcome: "contaminated" as const };
  const trays = [
    tray({ ...started, harvestedOn: "2026-01-06" }),
    tray({ ...started, fruitingOn: "2026-01-20", harvestedOn: "2026-02-20" }),
    tray({ ...life, freshGrams: 300, dryGrams: 40 }),
  ];
  const lines = [
    line({ item: "grain", kind: "ingredient", packPrice: 2 }),
    line({ item: "culture", kind: "culture", per: "inoculum mL", packPrice: 0.1 }),
    line({ item: "place", kind: "space", per: "shelf day", packPrice: 0.05 }),
    line({ item: "light", kind: "energy", per: "shelf day", packPrice: 0.02, stage: "fruiting" }),
    line({ item: "moving", kind: "labour", packPrice: 1, stage: "fruiting" }),
    line({ item: "picking", kind: "labour", per: "good tray", packPrice: 1.5 }),
    line({ item: "dehydrator", kind: "energy", per: "kg fresh", packPrice: 0.6 }),
  ];
  const [early, late, good] = totals(trays, lines);
  assertClose(early!, 2 + 1 + 5 * 0.05, 1e-12);
  assertClose(late!, 2 + 1 + 50 * 0.05 + 31 * 0.02 + 1, 1e-12);
  assertClose(good!, 2 + 1 + 50 * 0.05 + 30 * 0.02 + 1 + 1.5 + 0.3 * 0.6, 1e-12);
});

test("a tray that failed before inoculation took no culture, and one sold fresh was not dried", () => {
  const lines = [
    line({ item: "culture", per: "jar", packPrice: 50 }),
    line({ item: "dehydrator", kind: "energy", per: "kg fresh", packPrice: 1 }),
  ];
  const costs = cost([tray({ outcome: "failed" }), tray({ ...life, freshGrams: 500 })], lines);
  expect([...costs.totals]).toEqual([0, 1]);
  expect(costs.lives.map(({ reached }) => reached)).toEqual(["filling", "harvest"]);
});

test("a day of loss that is not recorded is the mean of the other lost trays, and the log says so", () => {
  const started = { inoculatedOn: "2026-01-01", inoculumMillilitres: 10, outcome: "contaminated" as const };
  const costs = cost(
    [
      tray({ ...started, harvestedOn: "2026-01-11" }),
      tray({ ...started, harvestedOn: "2026-01-21" }),
      tray(started),
      tray(life),
    ],
    [line({ item: "place", per: "shelf day" })],
  );
  expect([...costs.totals]).toEqual([10, 20, 15, 50]);
  expect(costs.issues.map(({ rule }) => rule)).toEqual(["cost-typical-days"]);
  // with no day of loss anywhere: one never moved stood until the others were moved, one that was moved to the end
  const moved = tray({ ...started, fruitingOn: "2026-01-21" });
  const place = [line({ item: "place", per: "shelf day" })];
  expect(totals([tray(started), moved, tray(life)], place)).toEqual([20, 50, 50]);
  expect(totals([tray(started), tray({ daysToHarvest: 44 })], place)).toEqual([44, 44]);
});

test("typed days do without dates, and growing trays cost up to the day the book is looked at", () => {
  const place = [line({ item: "place", per: "shelf day" })];
  expect(totals([tray({ daysToHarvest: 44 })], place)).toEqual([44]);
  const growing = tray({ inoculatedOn: "2026-03-01", outcome: "growing" });
  expect(totals([growing], place, settings({ reportDate: "2026-03-11" }))).toEqual([10]);
  expect(totals([growing, tray({ inoculatedOn: "2026-02-01", harvestedOn: "2026-03-06" })], place)).toEqual([5, 33]);
});

test("a price applies from its date, and the last one where a tray has none", () => {
  const prices = [
    line({ item: "grain" }),
    line({ item: "grain", packPrice: 2, fromDate: "2026-02-01" }),
    line({ item: "grain", packPrice: 4, fromDate: "2026-03-01" }),
  ];
  const trays = ["2026-01-31", "2026-02-01", "2026-02-28", "2026-03-01"].map((inoculatedOn) => tray({ inoculatedOn }));
  expect(totals([...trays, tray()], prices)).toEqual([1, 2, 2, 4, 4]);
  expect(totals([...trays, tray()], prices.toReversed())).toEqual([1, 2, 2, 4, 4]);
  const issues = cost([tray()], prices).issues;
  expect(issues).toMatchObject([{ rule: "cost-last-price-assumed" }]);
  expect(cost(trays, [prices[1]!]).issues).toMatchObject([{ rule: "cost-before-first-price", result: "1 tray" }]);
});

test("a dated line replaces only its own base, unless the base is what changed", () => {
  const day = [tray({ inoculatedOn: "2026-02-01", load: "1" })];
  const work = [line({ item: "work" }), line({ item: "work", per: "load", packPrice: 10 })];
  expect(totals(day, [...work, line({ item: "work", packPrice: 3, fromDate: "2026-01-15" })])).toEqual([13]);
  expect(totals(day, [work[0]!, { ...work[1]!, fromDate: "2026-01-15" }])).toEqual([10]);
});

test("a line can be for some trays only", () => {
  const trays = [
    tray({ supplementGrade: "Fine" }),
    tray({ supplementGrade: "coarse" }),
    tray({ factors: { Rack: "B" }, inoculumMillilitres: 10 }),
  ];
  expect(totals(trays, [line({ item: "a", onlyWhereColumn: "supplement_grade", onlyWhereValue: " fine" })])).toEqual([
    1, 0, 0,
  ]);
  expect(totals(trays, [line({ item: "a", onlyWhereColumn: "Rack", onlyWhereValue: "b" })])).toEqual([0, 0, 1]);
  expect(totals(trays, [line({ item: "a", onlyWhereColumn: "inoculum_ml", onlyWhereValue: "10.0" })])).toEqual([
    0, 0, 1,
  ]);
});

test("the value a line is limited to: text without case, numbers as numbers, per cent as typed, blank for what is not recorded", () => {
  const where = (facts: Partial<Tray>, column: string, value: string): boolean =>
    totals([tray(facts)], [line({ item: "a", onlyWhereColumn: column, onlyWhereValue: value })])[0] === 1;
  expect(where({ spawnShare: 0.07 }, "spawn_pct", "7")).toBe(true);
  expect(where({}, "spawn_pct", "")).toBe(true);
  expect(where({ spawnShare: 0.07 }, "spawn_pct", "")).toBe(false);
  expect(where({ finalMoisture: 0.1 }, "final_moisture_pct", "10.0")).toBe(true);
  expect(where({ finalMoisture: 0.1 }, "final_moisture_pct", "0.1")).toBe(false);
  expect(where({ inoculumMillilitres: 10 }, "inoculum_ml", "10.001")).toBe(false);
  expect(where({ substrateWetGrams: 1e6 }, "substrate_wet_g", "1000000.0000001")).toBe(true);
  expect(where({ jar: "J 1" }, "jar", "j 1 ")).toBe(true);
  expect(where({ flushes: [{ number: 1 }, { number: 2 }] }, "flush", "2")).toBe(true);
  expect(where({}, "flush", "")).toBe(true);
  expect(where({ factors: { toString: "x" } }, "toString", "x")).toBe(true);
  expect(where({}, "toString", "x")).toBe(false);
});

test("a line limited to something no tray has is pointed out", () => {
  const nowhere = line({ item: "a", onlyWhereColumn: "Shed", onlyWhereValue: "1" });
  // nothing is recorded in its column, so what it costs is not in the money
  expect(cost([tray()], [nowhere]).doubts).toMatchObject([{ effect: "left out" }]);
  expect(cost([tray()], [nowhere]).issues).toMatchObject([{ rule: "cost-line-for-no-tray", severity: "warning" }]);
});

test("overhead over a normal month leaves idle capacity apart, and never shares out more than it cost", () => {
  const trays = [
    ...Array.from({ length: 6 }, () => tray({ inoculatedOn: "2026-01-10" })),
    ...Array.from({ length: 20 }, () => tray({ inoculatedOn: "2026-03-10" })),
  ];
  const rent = line({ item: "rent", kind: "overhead", per: "month", packPrice: 120 });
  const normal = cost(trays, [{ ...rent, normalTraysPerMonth: 12 }]);
  expect(normal.totals[0]).toBe(10);
  expect(normal.totals[25]).toBe(6);
  expect(normal.unabsorbed).toEqual([
    { item: "rent", month: "2026-01", amount: 60, because: "idle" },
    { item: "rent", month: "2026-02", amount: 120, because: "idle" },
  ]);
  const actual = cost(trays, [rent]);
  expect(actual.totals[0]).toBe(20);
  expect(actual.unabsorbed).toEqual([{ item: "rent", month: "2026-02", amount: 120, because: "no trays" }]);
  assertClose(compensatedSum(normal.totals) + 180, 360, 1e-9);
  // from the 16th of a 30-day month the rent is doubled: half the month at each price
  const april = [tray({ inoculatedOn: "2026-04-03" })];
  assertClose(totals(april, [rent, { ...rent, packPrice: 240, fromDate: "2026-04-16" }])[0]!, 180, 1e-9);
  expect(cost([tray()], [rent]).issues).toMatchObject([{ rule: "cost-not-counted", severity: "warning" }]);
  expect(totals([tray()], [{ ...rent, normalTraysPerMonth: 12 }])).toEqual([10]);
});

test("a pool of three costs what its three trays cost", () => {
  const facts = { ...life, load: "1", batch: "A", grainDryGrams: 300, supplementGrams: 10 };
  const bases: CostBase[] = [
    "tray",
    "good tray",
    "cook",
    "load",
    "jar",
    "inoculum mL",
    "supplement g",
    "grain g",
    "shelf day",
    "month",
  ];
  const lines = bases.map((per) => line({ item: per, per, packPrice: 3 }));
  const apart = cost([tray(facts), tray(facts), tray(facts), tray(facts)], lines);
  const pooled = cost([tray({ ...facts, traysInPool: 3 }), tray(facts)], lines);
  assertClose(pooled.totals[0]!, 3 * apart.totals[0]!, 1e-9);
  assertClose(pooled.totals[1]!, apart.totals[0]!, 1e-9);
});

test("the owner's own time is kept apart, and drying falls back on the setting", () => {
  const costs = cost(
    [tray({ ...life, freshGrams: 500, dryGrams: 60 })],
    [line({ item: "work", kind: "labour", packUnit: "hour", packPrice: 0, amount: 0.25, ownerLabour: true })],
    settings({ ownerLabourRate: 16, dryingCostPerKgFresh: 2 }),
  );
  expect(costs.items.map(({ item, kind, stage }, row) => [item, kind, stage, costs.amounts[row]![0]])).toEqual([
    ["work", "labour", "filling", 4],
    ["drying", "energy", "drying", 1],
  ]);
  expect([costs.totals[0], scopedTotals(costs, "without owner labour", "drying")[0]]).toEqual([5, 1]);
  expect(costs.items.map(({ line: { source } }) => source.file)).toEqual(["costs.csv", "settings.csv"]);
});

test("no trays, no lines, lines that cannot be counted, missing amounts", () => {
  expect(trayCosts({ trays: [], costLines: [line({ item: "a" })], settings: settings() })).toEqual({
    kind: "cannot-tell",
    reason: "there are no trays",
  });
  expect(trayCosts({ trays: [tray()], costLines: [], settings: settings() }).kind).toBe("cannot-tell");
  const costs = cost(
    [tray({ inoculatedOn: "2026-01-01" })],
    [
      line({ item: "frame", kind: "reusable" }),
      line({ item: "culture", per: "jar" }),
      line({ item: "label", per: "unit sold" }),
    ],
  );
  expect(costs.issues).toMatchObject([
    { rule: "cost-line-not-counted", severity: "error", raw: "frame" },
    { rule: "cost-not-counted", severity: "warning", raw: "culture", expected: "inoculum_ml" },
  ]);
  expect(costs.doubts).toMatchObject([
    { name: "frame", effect: "left out", moves: "every cost" },
    { name: "culture", effect: "left out" },
  ]);
  expect(() => cost([tray()], [line({ item: "a" })], settings({ jarMillilitres: 0 }))).toThrow(
    "settings.jarMillilitres must be a number above 0",
  );
  expect(() => cost([tray({ inoculatedOn: "2026-02-30" })], [line({ item: "a" })])).toThrow("2026-02-30");
});

const someTray = fc
  .record({
    outcome: fc.constantFrom<Outcome>("good", "contaminated", "failed", "growing"),
    inoculatedOn: fc.option(fc.constantFrom("2026-01-05", "2026-01-28", "2026-02-10", "2026-04-01"), {
      nil: undefined,
    }),
    harvestedOn: fc.option(fc.constantFrom("2026-03-05", "2026-04-20"), { nil: undefined }),
    batch: fc.constantFrom("A", "B", undefined),
    load: fc.constantFrom("1", "2", undefined),
    inoculumMillilitres: fc.constantFrom(0, 5, 12.5, undefined),
    freshGrams: fc.constantFrom(310, 288.5, undefined),
    dryGrams: fc.constantFrom(41.3, undefined),
    traysInPool: fc.constantFrom(1, 1, 3),
  })
  .map((facts) => tray(facts));
const allBases: CostBase[] = [
  "tray",
  "good tray",
  "cook",
  "load",
  "jar",
  "inoculum mL",
  "shelf day",
  "kg fresh",
  "kg dried",
  "month",
];
const someLine = fc
  .record({
    per: fc.constantFrom(...allBases),
    packPrice: fc.integer({ min: 0, max: 5000 }),
    normalTraysPerMonth: fc.constantFrom(undefined, 4),
    fromDate: fc.constantFrom(undefined, "2026-02-01"),
    index: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ index, packPrice, ...facts }) => line({ item: `item ${index}`, packPrice: packPrice / 100, ...facts }));
const books = [
  fc.array(someTray, { minLength: 1, maxLength: 12 }),
  fc.array(someLine, { minLength: 1, maxLength: 8 }),
] as const;

test("every sheet adds up to the minor unit: lines to trays, rows and columns to all that was spent", () => {
  fc.assert(
    fc.property(...books, fc.constantFrom(0, 2, 3), (trays, costLines, currencyDecimals) => {
      const costs = cost(trays, costLines, settings({ currencyDecimals }));
      trays.forEach((_, index) => {
        assertClose(costs.totals[index]!, compensatedSum(costs.amounts.map((amounts) => amounts[index]!)), 1e-9);
      });
      const sheet = costSheet(costs);
      for (const column of ["good", "lost", "growing", "total"] as const) {
        expect(sheet.rows.reduce((sum, row) => sum + row[column], 0)).toBe(sheet.totals[column]);
      }
      expect(sheet.totals.good + sheet.totals.lost + sheet.totals.growing).toBe(sheet.totals.total);
      const spent = [...costs.totals, ...costs.unabsorbed.map(({ amount }) => amount)];
      expect(spentIn(sheet)).toBe(minorUnits(compensatedSum(spent), currencyDecimals));
    }),
  );
});

test("another order of trays, or money in cents, changes nothing but order and scale", () => {
  fc.assert(
    fc.property(...books, (trays, costLines) => {
      const forwards = cost(trays, costLines);
      const backwards = cost(trays.toReversed(), costLines);
      const cents = cost(
        trays,
        costLines.map((each) => ({ ...each, packPrice: each.packPrice * 100 })),
      );
      trays.forEach((_, index) => {
        const total = forwards.totals[index]!;
        assertClose(backwards.totals[trays.length - 1 - index]!, total, 1e-9 * Math.max(1, total));
        assertClose(cents.totals[index]!, 100 * total, 1e-9 * Math.max(1, 100 * total));
        expect(total).toBeGreaterThanOrEqual(0);
      });
    }),
  );
});

test("a line shared by cook or load is spent once for each, whoever was in it", () => {
  fc.assert(
    fc.property(
      fc.array(someTray, { minLength: 1, maxLength: 12 }),
      fc.constantFrom("cook" as const, "load" as const),
      (trays, per) => {
        const named = trays.filter(({ batch, load }) => (per === "cook" ? batch : load) !== undefined);
        fc.pre(named.length > 0);
        const groups = new Set(named.map(({ batch, load }) => (per === "cook" ? batch : load)));
        const costs = cost(named, [line({ item: "power", per, packPrice: 7 })], settings({ traysPerLoad: 40 }));
        assertClose(compensatedSum(costs.totals), 7 * groups.size, 1e-9);
      },
    ),
  );
});
