import { expect, test } from "vitest";
import { emptyPlaces } from "../../src/costing/trays/empty-places.ts";
import { trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Tray } from "../../src/records/tray.ts";
import { line, settings, tray } from "./sample-records.ts";

// by hand: four places at 0.50 a day; from 1 January to 10 February are 40 days, 160 place days, 80.00
const rent = line({ item: "rent", kind: "space", per: "shelf day", packPrice: 0.5 });
const stood = { inoculatedOn: "2026-01-01", harvestedOn: "2026-01-21" }; // 20 days, 10.00
const later = { inoculatedOn: "2026-01-21", harvestedOn: "2026-02-10" };
const empty = (trays: Tray[], lines: CostLine[] = [rent], shelfPlaces = 4) => {
  const costs = trayCosts({ trays, costLines: lines, settings: settings({ shelfPlaces }) });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return emptyPlaces(costs);
};

test("places that stood empty cost what was paid for all places less what trays carried", () => {
  expect(empty([tray(stood), tray(stood), tray(later)])).toEqual([{ item: "rent", paid: 80, empty: 50 }]);
  // one place that was always full leaves nothing, and full shelves with more trays than places less than nothing
  expect(empty([tray(stood), tray(later)], [rent], 1)).toEqual([]);
  expect(empty([tray(stood), tray(stood), tray(later)], [rent], 1)).toEqual([]);
});

test("a growing tray holds its place up to the last day recorded; trays without dates say nothing of the period", () => {
  expect(empty([tray(stood), tray({ inoculatedOn: "2026-02-10", outcome: "growing" })])).toEqual([
    { item: "rent", paid: 80, empty: 70 },
  ]);
  expect(empty([tray({ daysToHarvest: 40 }), tray({ daysToHarvest: 60 })])).toEqual([]);
  expect(empty([tray(stood), tray(stood), tray(later), tray({ daysToHarvest: 6 })])).toEqual([
    { item: "rent", paid: 80, empty: 47 },
  ]);
  expect(empty([tray({ inoculatedOn: "2026-01-01", outcome: "growing" })])).toEqual([]);
});

test("only what is paid for every place and day counts: not another base, some trays, part of a life or a later price", () => {
  const trays = [tray({ ...stood, chamber: "A" }), tray({ ...later, chamber: "A" })];
  const lines = (facts: Partial<CostLine>) => empty(trays, [{ ...rent, ...facts }]).length;
  expect(lines({})).toBe(1);
  expect(lines({ kind: "overhead" })).toBe(1);
  expect(lines({ stage: "filling" })).toBe(1);
  expect(lines({ stage: "inoculation" })).toBe(1);
  expect(lines({ kind: "energy" })).toBe(0);
  expect(lines({ per: "tray" })).toBe(0);
  expect(lines({ stage: "fruiting" })).toBe(0);
  expect(lines({ onlyWhereColumn: "chamber", onlyWhereValue: "A" })).toBe(0);
  expect(lines({ fromDate: "2026-01-01" })).toBe(0);
});
