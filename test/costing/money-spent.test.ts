import fc from "fast-check";
import { expect, test } from "vitest";
import { minorUnits } from "../../src/costing/apportion.ts";
import { costSheet } from "../../src/costing/trays/cost-sheet.ts";
import { trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostBase, CostLine } from "../../src/records/cost-line.ts";
import type { Outcome, Tray } from "../../src/records/tray.ts";
import { line, settings, spentIn, tray } from "./sample-records.ts";

const outcomes: Outcome[] = ["good", "good", "good", "contaminated", "growing"];
const dates = ["2026-01-05", "2026-01-20", "2026-02-10", "2026-04-01", undefined];

/** Books of trays that all have a cook, a load, a dose and weights; some have no date. */
const someTray = fc
  .record({
    outcome: fc.constantFrom(...outcomes),
    inoculatedOn: fc.constantFrom(...dates),
    batch: fc.constantFrom("A", "B", "C"),
    load: fc.constantFrom("1", "2"),
    inoculumMillilitres: fc.integer({ min: 1, max: 20 }),
    traysInPool: fc.integer({ min: 1, max: 3 }),
  })
  .map(({ inoculatedOn, load, batch, ...facts }): Tray => {
    const facts2 = { ...facts, batch, load: `${batch}${load}`, grainDryGrams: 300, supplementGrams: 20 };
    return tray(inoculatedOn === undefined ? facts2 : { ...facts2, inoculatedOn });
  });

const bases: CostBase[] = ["tray", "good tray", "cook", "load", "jar", "inoculum mL", "grain g", "month"];
const someLine = fc
  .record({
    per: fc.constantFrom(...bases),
    packPrice: fc.integer({ min: 0, max: 99_999 }).map((cents) => cents / 100),
    packSize: fc.integer({ min: 1, max: 40 }),
    normalTraysPerMonth: fc.option(fc.integer({ min: 1, max: 60 }), { nil: undefined }),
    isReusable: fc.boolean(),
  })
  .map(
    ({ normalTraysPerMonth, isReusable, ...facts }): CostLine => ({
      ...line({ item: `${facts.per} ${facts.packPrice}`, ...facts }),
      ...(isReusable ? { kind: "reusable" as const, uses: 7 } : {}),
      ...(facts.per === "month" && normalTraysPerMonth !== undefined ? { normalTraysPerMonth } : {}),
      stage: "filling",
    }),
  );

const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
const monthNumber = (date: string): number => Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7));

/** How often a line was paid, by its own words: no sharing out. */
function timesPaid({ per }: CostLine, trays: Tray[], jarMillilitres: number): number {
  const all = (of: (one: Tray) => number): number => sum(trays.map((one) => of(one)));
  switch (per) {
    case "tray":
      return all(({ traysInPool }) => traysInPool);
    case "good tray":
      return all(({ outcome, traysInPool }) => (outcome === "good" ? traysInPool : 0));
    case "cook":
      return new Set(trays.map(({ batch }) => batch)).size;
    case "load":
      return new Set(trays.map(({ load }) => load)).size;
    case "jar":
      return all(({ inoculumMillilitres, traysInPool }) => inoculumMillilitres! * traysInPool) / jarMillilitres;
    case "inoculum mL":
      return all(({ inoculumMillilitres, traysInPool }) => inoculumMillilitres! * traysInPool);
    case "grain g":
      return all(({ grainDryGrams, traysInPool }) => grainDryGrams! * traysInPool);
    default: {
      const months = trays.flatMap(({ inoculatedOn }) =>
        inoculatedOn === undefined ? [] : [monthNumber(inoculatedOn)],
      );
      return months.length === 0 ? 0 : Math.max(...months) - Math.min(...months) + 1;
    }
  }
}

test("money spent is money in trays, in trays still growing and in what no tray carries, to the coin, whatever is undated", () => {
  fc.assert(
    fc.property(
      fc.array(someTray, { minLength: 1, maxLength: 25 }).filter((trays) => trays.some((one) => one.inoculatedOn)),
      fc.array(someLine, { minLength: 1, maxLength: 8 }),
      fc.constantFrom(0, 2, 3),
      (trays, costLines, currencyDecimals) => {
        // a load name that stands for too many trays would be separated by cook: one load holds all
        const set = settings({ jarMillilitres: 250, traysPerLoad: 1000, currencyDecimals });
        const costs = trayCosts({ trays, costLines, settings: set });
        if (costs.kind === "cannot-tell") throw new Error(costs.reason);
        const spent = sum(
          costLines.map((one) => {
            // a reusable of the seven uses costs a seventh of its price in each
            const perUse = one.packPrice / one.packSize / (one.kind === "reusable" ? 7 : 1);
            return perUse * timesPaid(one, trays, 250);
          }),
        );
        const sheet = costSheet(costs);
        const unit = 10 ** currencyDecimals;
        expect(Math.abs(spentIn(sheet) - minorUnits(spent, currencyDecimals))).toBeLessThanOrEqual(
          // the two ways may land on either side of half a coin
          Math.abs(((spent * unit) % 1) - 0.5) < 1e-6 ? 1 : 0,
        );
        const { good, lost, growing, total } = sheet.totals;
        expect(good + lost + growing).toBe(total);
        expect(sum(sheet.rows.map((row) => row.total))).toBe(total);
      },
    ),
  );
});

test("480 of rent over three months stays 480 with one undated tray, with a normal number of trays and without", () => {
  const rent = line({ item: "rent", kind: "space", per: "month", packPrice: 160, packUnit: "month" });
  for (const normal of [undefined, 32]) {
    for (const undated of [0, 1, 5]) {
      const trays = [
        ...["2026-01-05", "2026-02-05", "2026-02-06", "2026-03-05"].map((inoculatedOn) => tray({ inoculatedOn })),
        ...Array.from({ length: undated }, () => tray()),
      ];
      const costs = trayCosts({
        trays,
        costLines: [normal === undefined ? rent : { ...rent, normalTraysPerMonth: normal }],
        settings: settings(),
      });
      if (costs.kind === "cannot-tell") throw new Error(costs.reason);
      expect(spentIn(costSheet(costs))).toBe(48_000);
    }
  }
});
