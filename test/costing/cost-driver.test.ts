import { describe, expect, test } from "vitest";
import { costDriverQuantity, loadNames } from "../../src/costing/lines/cost-driver-quantity.ts";
import { monthShares, monthsFrom } from "../../src/costing/lines/month-shares.ts";
import { priceVersions } from "../../src/costing/lines/price-versions.ts";
import { costedTrays, driverQuantityOnce, livesOnce } from "../../src/costing/trays/costed-trays.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Tray } from "../../src/records/tray.ts";
import { line, settings, tray } from "./sample-records.ts";

// by hand: how much of a line each tray takes

const costed = (trays: Tray[], sharedOver: "started" | "not lost" = "started") =>
  costedTrays(trays, settings({ traysPerLoad: 4, jarMillilitres: 500 }), sharedOver, new Memo());
const plain = (taken: ReturnType<ReturnType<typeof costDriverQuantity>>) =>
  typeof taken === "number" ? taken : [taken.quantity, taken.shortfall.rule, taken.shortfall.expected];
const taken = (facts: Partial<CostLine>, trays: Tray[], sharedOver?: "started" | "not lost") => {
  const quantity = costDriverQuantity(costed(trays, sharedOver), line({ item: "a", ...facts }));
  return trays.map((_, index) => plain(quantity(index)));
};

const filled = { outcome: "failed" } as const;
const grown = { inoculatedOn: "2026-01-01", fruitingOn: "2026-01-21", harvestedOn: "2026-02-20" };

test("amounts that are not recorded are said with their column; none is asked of a tray the line is not for", () => {
  const missing = (per: CostLine["per"]) => taken({ per }, [tray(grown)])[0];
  expect(missing("jar")).toEqual([0, "cost-not-counted", "inoculum_ml"]);
  expect(missing("inoculum mL")).toEqual([0, "cost-not-counted", "inoculum_ml"]);
  expect(missing("supplement g")).toEqual([0, "cost-not-counted", "supplement_g, 0 for none"]);
  expect(missing("grain g")).toEqual([0, "cost-not-counted", "grain_dry_g"]);
  expect(missing("kg fresh")).toEqual([0, "cost-not-counted", "fresh_g"]);
  expect(taken({ per: "kg dried" }, [tray({ ...grown, driedOn: "2026-02-22" })])).toEqual([
    [0, "cost-not-counted", "dry_g"],
  ]);
  expect(missing("cook")).toEqual([0, "cost-not-counted", "batch"]);
  expect(taken({ per: "load" }, [tray()])).toEqual([[0.25, "cost-load-assumed", "load"]]);
  expect(taken({ per: "shelf day" }, [tray({ inoculumMillilitres: 5 })])).toEqual([
    [0, "cost-not-counted", "dates, or days_to_harvest"],
  ]);
  // failed before it was inoculated, or dried nothing
  expect(taken({ per: "jar" }, [tray(filled)])).toEqual([0]);
  expect(taken({ per: "kg dried" }, [tray(grown)])).toEqual([0]);
  expect(taken({ per: "cook", onlyWhereColumn: "shelf", onlyWhereValue: "top" }, [tray(grown)])).toEqual([0]);
});

test("a use of a cook or load is shared over the trays that came to the line's stage and that it is for", () => {
  const load = { batch: "A", load: "1" };
  const four = [
    tray(load),
    tray({ ...load, ...filled }),
    tray({ ...load, traysInPool: 2 }),
    tray({ batch: "B", load: "2" }),
  ];
  for (const per of ["cook", "load"] as const) {
    expect(taken({ per }, four)).toEqual([0.25, 0.25, 0.5, 1]);
    expect(taken({ per, stage: "harvest" }, four)).toEqual([1 / 3, 0, 2 / 3, 1]);
    expect(taken({ per, onlyWhereColumn: "trays_in_pool", onlyWhereValue: "1" }, four)).toEqual([0.5, 0.5, 0, 1]);
    expect(taken({ per }, four, "not lost")).toEqual([1 / 3, 0, 2 / 3, 1]);
  }
  // a load that was lost altogether still cost its one use
  expect(taken({ per: "load" }, [tray({ load: "1", ...filled }), tray({ load: "1", ...filled })], "not lost")).toEqual([
    0.5, 0.5,
  ]);
});

test("work on good trays, and days where the end is what others took", () => {
  const three = [tray(grown), tray({ ...grown, outcome: "contaminated" }), tray({ ...grown, traysInPool: 3 })];
  expect(taken({ per: "good tray" }, three)).toEqual([1, 0, 3]);
  const late = tray({ ...grown, outcome: "contaminated", freshGrams: 30 });
  expect(taken({ per: "good tray" }, [late])).toEqual([0]);
  expect(taken({ per: "shelf day" }, [tray(grown), tray({ inoculatedOn: "2026-01-01", traysInPool: 2 })])).toEqual([
    50,
    [100, "cost-typical-days", "fruiting_on, and harvested_on also for lost trays"],
  ]);
});

test("lines by the month and per unit sold have rules of their own", () => {
  for (const per of ["month", "unit sold"] as const) {
    expect(() => taken({ per }, [tray()])).toThrow(`a line per ${per} is not shared over trays here; item a`);
  }
});

test("a load's name is kept apart by cook where more trays bear it than a load holds, in several cooks", () => {
  const names = (...trays: Partial<Tray>[]) => new Set(loadNames(trays.map(tray), 4)).size;
  const inCook = (batch: string | undefined, count: number): Partial<Tray>[] =>
    Array.from({ length: count }, () => (batch === undefined ? { load: "1" } : { batch, load: "1" }));
  expect(names(...inCook("A", 2), ...inCook("B", 2))).toBe(1);
  expect(names(...inCook("A", 3), ...inCook("B", 2))).toBe(2);
  expect(names(...inCook("A", 5))).toBe(1);
  expect(names(...inCook("A", 3), ...inCook(undefined, 2))).toBe(1);
  expect(names(...inCook("A", 2), ...inCook("B", 2), ...inCook(undefined, 1))).toBe(3);
  expect(names({ batch: "A", load: "1", traysInPool: 4 }, { batch: "B", load: "1" })).toBe(2);
  expect(loadNames([tray({ batch: "A" }), tray({ load: "1" })], 4)).toEqual([undefined, "1"]);
});

test("trays without a load share as many as the trays of their day fill; a cook over two days is of the first", () => {
  const [first, second] = ["2026-01-01", "2026-01-02"];
  const runs = (...trays: Partial<Tray>[]) =>
    taken({ per: "load" }, trays.map(tray)).map((one) => (Array.isArray(one) ? one[0] : `${one} of its own`));
  const on = (inoculatedOn: string, count: number, facts: Partial<Tray> = {}) =>
    Array.from({ length: count }, () => ({ inoculatedOn, ...facts }));
  expect(runs(...on(first, 4))).toEqual(Array(4).fill(0.25));
  expect(runs(...on(first, 5))).toEqual(Array(5).fill(0.4));
  expect(runs(...on(first, 1), ...on(second, 1))).toEqual([1, 1]);
  expect(runs({ inoculatedOn: first, traysInPool: 3 }, ...on(first, 2))).toEqual([1.2, 0.4, 0.4]);
  expect(runs(...on(second, 1, { batch: "A" }), ...on(first, 2, { batch: "A" }))).toEqual(Array(3).fill(1 / 3));
  expect(runs(...on(first, 1, { batch: "A" }), ...on(second, 1, { batch: "A" }))).toEqual([0.5, 0.5]);
  expect(runs(...on(first, 1, { batch: "A" }), { batch: "A" })).toEqual([0.5, 0.5]);
  expect(runs(...on(first, 1, { batch: "A" }), {})).toEqual([1, 0.25]);
  // a load that is named is never one of those counted by the day, even by its name
  expect(runs(...on(first, 1), ...on(first, 1, { load: `loads of ${first}` }))).toEqual([1, "1 of its own"]);
  expect(runs(...on(first, 1), ...on(first, 1, { outcome: "failed", load: "1" }))).toEqual([1, "1 of its own"]);
  const late = taken({ per: "load", stage: "harvest" }, [
    tray({ inoculatedOn: first }),
    tray({ inoculatedOn: first, ...filled }),
  ]);
  expect(late).toEqual([[1, "cost-load-assumed", "load"], 0]);
});

test("quantities are worked out once for the same line and trays", () => {
  const [memo, one] = [new Memo(), line({ item: "a", per: "cook" })];
  const trays = costed([tray({ batch: "A" }), tray({ batch: "A" })]);
  expect([0, 1].map(driverQuantityOnce(trays, one, memo))).toEqual([0.5, 0.5]);
  expect([0].map(driverQuantityOnce(costed([tray({ batch: "A" })]), one, memo))).toEqual([1]);
  expect([0].map(driverQuantityOnce(trays, line({ item: "a" }), memo))).toEqual([1]);
});

test("trays are laid out once for the same trays, settings and way of sharing", () => {
  const [memo, trays, set] = [new Memo(), [tray({ load: "1" })], settings()];
  const first = costedTrays(trays, set, "started", memo);
  expect(costedTrays(trays, set, "started", memo)).toBe(first);
  expect(costedTrays(trays, set, "not lost", memo)).toMatchObject({ sharedOver: "not lost", lives: first.lives });
  expect(costedTrays([tray(), tray()], set, "started", memo).trays).toHaveLength(2);
  const other = settings({ traysPerLoad: 1 });
  expect(costedTrays(trays, other, "started", memo).settings).toBe(other);
});

test("lives are laid out once for the same trays and settings", () => {
  const [memo, trays, set] = [new Memo(), [tray({ inoculatedOn: "2026-01-01", outcome: "growing" })], settings()];
  const first = livesOnce(trays, set, memo);
  expect(livesOnce(trays, set, memo)).toBe(first);
  expect(livesOnce([tray(), tray()], set, memo)).toHaveLength(2);
  expect(livesOnce(trays, settings({ reportDate: "2026-02-01" }), memo)).not.toEqual(first);
});

test("months follow one another over the new year", () => {
  expect(monthsFrom("2025-11", "2026-02")).toEqual(["2025-11", "2025-12", "2026-01", "2026-02"]);
  expect(monthsFrom("2026-09", "2026-10")).toEqual(["2026-09", "2026-10"]);
  expect(monthsFrom("2026-02", "2026-02")).toEqual(["2026-02"]);
  expect(monthsFrom("2026-02", "2026-01")).toEqual([]);
});

describe("a cost by the month", () => {
  const rent = (facts: Partial<CostLine> = {}) => line({ item: "rent", per: "month", ...facts });
  /** What each record takes of one month's cost, by its month ("" where not recorded) and the trays it counts as. */
  const shares = (records: [string, number][], lines = [rent()], at = 0) => {
    const { quantity, unabsorbed } = monthShares(
      priceVersions(lines)[at]!,
      lines[at]!,
      records.length,
      (index) => records[index]![0] || undefined,
      (index) => records[index]![1],
    );
    return { taken: records.map((_, index) => plain(quantity(index))), unabsorbed };
  };
  const idle = (month: string, quantity: number) => ({ month, quantity, because: "idle" });
  const [jan, feb] = ["2026-01", "2026-02"];

  test("is shared over the trays of each month; a month without any is said", () => {
    expect(
      shares([
        [jan, 1],
        [jan, 3],
        ["2026-03", 1],
      ]),
    ).toEqual({
      taken: [0.25, 0.75, 1],
      unabsorbed: [{ month: feb, quantity: 1, because: "no trays" }],
    });
    // a tray the line is not for takes nothing and shares nothing, but its month belongs to the book
    expect(
      shares([
        [jan, 1],
        [feb, 0],
      ]),
    ).toEqual({
      taken: [1, 0],
      unabsorbed: [{ month: feb, quantity: 1, because: "no trays" }],
    });
  });

  test("with a normal month, what is left of a slack one is idle, and a full one shares no more than it cost", () => {
    const normal = [rent({ normalTraysPerMonth: 4 })];
    expect(
      shares(
        [
          [jan, 1],
          [feb, 4],
        ],
        normal,
      ),
    ).toEqual({ taken: [0.25, 1], unabsorbed: [idle(jan, 0.75)] });
    expect(
      shares(
        [
          [jan, 5],
          [jan, 3],
        ],
        normal,
      ),
    ).toEqual({ taken: [0.625, 0.375], unabsorbed: [] });
    expect(
      shares(
        [
          [jan, 4],
          [feb, 0],
          ["2026-03", 4],
        ],
        normal,
      ).unabsorbed,
    ).toEqual([idle(feb, 1)]);
  });

  test("records without a date count in every month in equal parts", () => {
    const undated = [1, "cost-every-month-assumed", "inoculated_on"];
    // two months, two undated trays: one in each, beside one dated in January
    expect(
      shares([
        [jan, 1],
        [feb, 0],
        ["", 2],
      ]),
    ).toEqual({ taken: [0.5, 0, [1.5, ...undated.slice(1)]], unabsorbed: [] });
    expect(
      shares([
        [jan, 1],
        ["", 0],
      ]).taken,
    ).toEqual([1, 0]);
  });

  test("where no record is dated there are no months, and each takes its part of a normal one", () => {
    expect(shares([["", 2]])).toEqual({
      taken: [[0, "cost-not-counted", "inoculated_on, or normal_trays_per_month in costs.csv"]],
      unabsorbed: [],
    });
    expect(shares([["", 2]], [rent({ normalTraysPerMonth: 4 })]).taken).toEqual([
      [0.5, "cost-normal-month-assumed", "inoculated_on"],
    ]);
    // the price that holds now is the one that counts
    const dear = [rent({ normalTraysPerMonth: 4 }), rent({ normalTraysPerMonth: 4, fromDate: "2026-02-01" })];
    expect(shares([["", 2]], dear, 0).taken).toEqual([0]);
    expect(shares([["", 2]], dear, 1).taken).toEqual([[0.5, "cost-normal-month-assumed", "inoculated_on"]]);
  });

  test("a price counts by the days of a month on which it holds", () => {
    const dated = [rent(), rent({ fromDate: "2026-02-08" })];
    const both: [string, number][] = [
      [jan, 1],
      [feb, 1],
      ["2026-03", 1],
    ];
    expect(shares(both, dated, 0)).toEqual({ taken: [1, 7 / 28, 0], unabsorbed: [] });
    expect(shares(both, dated, 1)).toEqual({ taken: [0, 21 / 28, 1], unabsorbed: [] });
    const leap = [rent(), rent({ fromDate: "2028-02-08" })];
    expect(shares([["2028-02", 1]], leap, 0).taken).toEqual([7 / 29]);
    // a month without trays is idle at the price that held then, and no other
    const apart: [string, number][] = [
      [jan, 1],
      ["2026-03", 1],
    ];
    const march = [rent(), rent({ fromDate: "2026-03-01" })];
    expect(shares(apart, march, 0)).toEqual({
      taken: [1, 0],
      unabsorbed: [{ month: feb, quantity: 1, because: "no trays" }],
    });
    expect(shares(apart, march, 1)).toEqual({ taken: [0, 1], unabsorbed: [] });
  });
});
