import { beforeAll, describe, expect, test } from "vitest";
import { whatDoesAGoodGramCost } from "../../analyses/costs/what-does-a-good-gram-cost.ts";
import { whichCostMattersMost } from "../../analyses/costs/which-cost-matters-most.ts";
import { perTrayShelfDayOrHour } from "../../analyses/dose/per-tray-shelf-day-or-hour.ts";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { freshOrDriedAnalysis } from "../../analyses/prices/fresh-or-dried.ts";
import { whatPriceToAsk } from "../../analyses/prices/what-price-to-ask.ts";
import { whatToMakeAnalysis } from "../../analyses/prices/what-to-make.ts";
import { doesTheDearerSupplementPay } from "../../analyses/supplement/does-the-dearer-supplement-pay.ts";
import type { Trial } from "../../src/analysis.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";
import { demoMoneyTrial, inOtherCurrency } from "./money-books.ts";
import { outcomeFaults } from "./outcome-faults.ts";

const analyses = [
  whatPriceToAsk,
  whatToMakeAnalysis,
  freshOrDriedAnalysis,
  whichCostMattersMost,
  perTrayShelfDayOrHour,
  doesTheDearerSupplementPay,
  whatDoesAGoodGramCost,
  whichDoseEarnsMost,
];

let demo: Trial;
beforeAll(async () => {
  demo = await demoMoneyTrial();
});

const without =
  (keys: ReadonlyArray<keyof Tray>) =>
  (tray: Tray): Tray =>
    Object.fromEntries(Object.entries(tray).filter(([key]) => !keys.includes(key as keyof Tray))) as unknown as Tray;
const withTrays =
  (change: (trays: ReadonlyArray<Tray>) => Tray[]) =>
  (trial: Trial): Trial => ({
    ...trial,
    trays: change(trial.trays),
  });
const withProducts =
  (given: object) =>
  (trial: Trial): Trial => ({
    ...trial,
    products: trial.products!.map((product) => ({ ...product, ...given })),
  });
const withSettings =
  (given: object) =>
  (trial: Trial): Trial => ({ ...trial, settings: { ...trial.settings, ...given } });

const dates = ["inoculatedOn", "colonisedOn", "fruitingOn", "harvestedOn", "driedOn"] as const;
const odd: Record<string, (trial: Trial) => Trial> = {
  "no trays": withTrays(() => []),
  "one tray": withTrays((trays) => [trays[0]!]),
  "two trays": withTrays((trays) => trays.slice(0, 2)),
  "all lost": withTrays((trays) =>
    trays.map((tray) => ({ ...without(["freshGrams", "dryGrams", "harvestedOn"])(tray), outcome: "contaminated" })),
  ),
  "all growing": withTrays((trays) => trays.map((tray) => ({ ...tray, outcome: "growing" }))),
  "no dates": withTrays((trays) => trays.map(without(dates))),
  "no cooks": withTrays((trays) => trays.map(without(["batch", "load", "jar"]))),
  "one cook": withTrays((trays) => trays.filter(({ batch }) => batch === "C1")),
  "no dry weights": withTrays((trays) => trays.map(without(["dryGrams", "driedOn"]))),
  "no fresh weights": withTrays((trays) => trays.map(without(["freshGrams"]))),
  "no weights": withTrays((trays) => trays.map(without(["freshGrams", "dryGrams"]))),
  "pools of three": withTrays((trays) => trays.map((tray) => ({ ...tray, traysInPool: 3 }))),
  "weights of nothing": withTrays((trays) => trays.map((tray) => ({ ...tray, freshGrams: 0, dryGrams: 0 }))),
  "all weights alike": withTrays((trays) => trays.map((tray) => ({ ...tray, freshGrams: 300, dryGrams: 30 }))),
  "no doses or grades": withTrays((trays) =>
    trays.map(without(["inoculumMillilitres", "supplementGrade", "supplement"])),
  ),
  "harvested on the day": withTrays((trays) =>
    trays.map((tray) => ({ ...tray, harvestedOn: tray.inoculatedOn ?? "2026-01-01" })),
  ),
  "no costs": ({ costLines: _, ...rest }) => rest,
  "no cost lines": (trial) => ({ ...trial, costLines: [] }),
  "costs of nothing": (trial) => ({ ...trial, costLines: trial.costLines!.map((line) => ({ ...line, packPrice: 0 })) }),
  "a negative price": (trial) => ({
    ...trial,
    costLines: trial.costLines!.map((line) => ({ ...line, packPrice: -1 })),
  }),
  "a unit nothing is counted in": (trial) => ({
    ...trial,
    costLines: trial.costLines!.map(
      (line) => ({ ...line, kind: "reusable" as const, uses: undefined, lifeYears: undefined }) as never,
    ),
  }),
  "no products": ({ products: _, ...rest }) => rest,
  "no product rows": (trial) => ({ ...trial, products: [] }),
  "nothing sold": withProducts({ sellThrough: 0 }),
  "fees that take it all": withProducts({ feeFraction: 1 }),
  "a target nobody reaches": withProducts({ targetMargin: 0.99 }),
  "given away": withProducts({ currentPrice: 0 }),
  "no prices or targets": withProducts({ currentPrice: undefined, targetMargin: undefined }),
  "a cent": withProducts({ currentPrice: 0.01 }),
  "hours of packing": withProducts({ minutes: 6000 }),
  "no cents": withSettings({ currencyDecimals: 0, currency: "JPY" }),
  "one place": withSettings({ shelfPlaces: 1 }),
  "no hours": withSettings({ labourHoursPerMonth: 0 }),
  "paid for lost trays": withSettings({ recoveredPerLostTray: 1000 }),
  "paid work": withSettings({ ownerLabourRate: 20 }),
};

describe("odd books are answered or reported, never thrown at", () => {
  for (const [name, change] of Object.entries(odd)) {
    test(name, () => {
      const trial = change(demo);
      // the best dose takes longest and hardly looks at products and settings
      const asked =
        trial.trays === demo.trays && trial.costLines === demo.costLines
          ? analyses.filter((one) => one !== whichDoseEarnsMost || name.startsWith("fees"))
          : analyses;
      for (const analysis of asked) {
        const outcome = analysis.run(trial);
        expect(outcomeFaults(outcome), `${analysis.id}: ${name}`).toEqual([]);
        if (outcome.kind === "cannot-tell") expect(outcome.wouldSettle.length).toBeGreaterThan(0);
      }
    });
  }
});

test("another currency changes the money and nothing else", () => {
  const other = inOtherCurrency(demo, 100);
  for (const analysis of analyses) {
    const [first, second] = [analysis.run(demo), analysis.run(other)];
    expect(second.kind, analysis.id).toBe(first.kind);
    expect(second.estimates.length).toBe(first.estimates.length);
    first.estimates.forEach(({ value, unit, label }, index) => {
      const times = unit.startsWith("money") ? 100 : 1;
      const ours = second.estimates[index]!.value;
      // a price is in whole minor units, and those are of another size
      const coin = label.startsWith("break-even price") ? 0.01 * times : 0;
      expect(Math.abs(ours - value * times), `${analysis.id}, ${label}`).toBeLessThanOrEqual(
        coin + 1e-6 * Math.abs(value * times) + 1e-9,
      );
    });
    if (first.kind === "answer" && second.kind === "answer") expect(second.certainty).toBe(first.certainty);
  }
});

test("the order of the trays changes nothing but the last digits", () => {
  const turned = { ...demo, trays: [...demo.trays].reverse() };
  for (const analysis of analyses) {
    const [first, second] = [analysis.run(demo), analysis.run(turned)];
    first.estimates.forEach(({ value, label }, index) => {
      const ours = second.estimates[index]!.value;
      expect(Math.abs(ours - value), `${analysis.id}, ${label}`).toBeLessThanOrEqual(1e-6 * Math.abs(value) + 1e-9);
    });
  }
});

test("a book's defaults are enough: settings nobody touched", () => {
  for (const analysis of analyses)
    expect(outcomeFaults(analysis.run({ ...demo, settings: { ...defaultSettings } }))).toEqual([]);
});
