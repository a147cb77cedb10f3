import fc from "fast-check";
import { expect, test } from "vitest";
import { compensatedSum } from "../../src/costing/compensated-sum.ts";
import { gramRates, trayStartsInMonth, yieldPerStartedTray } from "../../src/costing/trays/book-rates.ts";
import {
  accountsBy,
  type CostAccount,
  type CostScope,
  costAccount,
  type GramCost,
  type GramKind,
} from "../../src/costing/trays/cost-account.ts";
import { fixedMonth } from "../../src/costing/trays/fixed-month.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { assertClose } from "../agreement.ts";
import { line, settings, tray } from "./sample-records.ts";

const cost = (trays: Tray[], costLines: CostLine[], set: Settings = settings()): TrayCosts => {
  const costs = trayCosts({ trays, costLines, settings: set });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return costs;
};
const accountOf = (costs: TrayCosts, scope: CostScope = "full"): CostAccount => {
  const account = costAccount(costs, scope);
  if (account.kind === "cannot-tell") throw new Error(account.reason);
  return account;
};
const gram = (account: CostAccount, kind: GramKind): GramCost => {
  const found = account.perGram[kind];
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  return found;
};
const day = { inoculatedOn: "2026-01-01", harvestedOn: "2026-02-20" };
const good = (facts: Partial<Tray> = {}): Tray => tray({ ...day, freshGrams: 400, dryGrams: 40, ...facts });
const lost = (facts: Partial<Tray> = {}): Tray => tray({ ...day, outcome: "contaminated", ...facts });

test("a small book by hand: two good trays, one lost, one growing", () => {
  const trays = [
    good(),
    good({ freshGrams: 300, dryGrams: 35 }),
    lost(),
    tray({ inoculatedOn: "2026-02-01", outcome: "growing" }),
  ];
  const lines = [
    line({ item: "tray", packPrice: 6 }),
    line({ item: "picking", per: "good tray", packPrice: 2 }),
    line({ item: "drying", kind: "energy", per: "kg fresh", packPrice: 1 }),
  ];
  const account = accountOf(cost(trays, lines));
  expect(account.growing).toBe(1);
  assertClose(account.loss.costPerGood, 22.7 / 2, 1e-12);
  assertClose(account.loss.costPerStarted, 22.7 / 3, 1e-12);
  assertClose(gram(account, "dried").withNormalLoss, 22.7 / 75, 1e-12);
  // a fresh gram carries no drying
  assertClose(gram(account, "fresh").withNormalLoss, 22 / 700, 1e-12);
  expect(account.lostAt).toEqual([{ stage: "incubation", trays: 1, cost: 6, costPerTray: 6 }]);
  expect(gram(account, "dried").pairs.map(({ grams }) => grams)).toEqual([40, 35, 0]);
});

test("dry matter and a common moisture: 40 g at 20 % and 40 g at 10 % are 68 g of dry matter, arithmetic", () => {
  const account = accountOf(
    cost(
      [good({ finalMoisture: 0.2 }), good()],
      [line({ item: "tray", packPrice: 34 })],
      settings({ driedMoisture: 0.1 }),
    ),
  );
  assertClose(gram(account, "dry matter").withNormalLoss, 1, 1e-12);
  assertClose(gram(account, "dried at common moisture").grams, 68 / 0.9, 1e-9);
  assertClose(gram(account, "dried").withNormalLoss, 68 / 80, 1e-12);
});

test("loss above the stated rate is apart, on either base", () => {
  const trays = [...Array.from({ length: 8 }, () => good()), lost(), lost()];
  const lines = [line({ item: "tray", packPrice: 10 })];
  const stated = accountOf(cost(trays, lines, settings({ normalLossRate: 0.1, recoveredPerLostTray: 1 })));
  assertClose(stated.loss.abnormalCost, 9, 1e-12);
  assertClose(stated.loss.costPerGood, 89 / 8, 1e-12);
  assertClose(gram(stated, "dried").withNormalLoss, 89 / 320, 1e-12);
  assertClose(gram(stated, "dried").withAllLosses, 98 / 320, 1e-12);
  assertClose(
    accountOf(cost(trays, lines, settings({ normalLossRate: 0.125, normalLossBase: "good" }))).loss.normal,
    1,
    1e-12,
  );
  // without a stated rate the book's own loss is the usual one
  expect(accountOf(cost(trays, lines)).loss.abnormal).toBe(0);
});

test("good trays that were not dried take their share of the lost ones with them", () => {
  const account = accountOf(
    cost([good(), good({ dryGrams: undefined }), lost()], [line({ item: "tray", packPrice: 8 })]),
  );
  assertClose(gram(account, "dried").withNormalLoss, 12 / 40, 1e-12);
  expect(gram(account, "dried")).toMatchObject({ trays: 1 });
  expect(accountOf(cost([good({ dryGrams: undefined })], [line({ item: "tray" })])).perGram.dried).toEqual({
    kind: "cannot-tell",
    reason: "no good tray has a dry weight",
  });
  expect(accountOf(cost([good({ dryGrams: 0 })], [line({ item: "tray" })])).perGram.dried.kind).toBe("cannot-tell");
});

test("scopes: the owner's time and what does not grow with output are left out in turn", () => {
  const costs = cost(
    [good(), good()],
    [
      line({ item: "grain", kind: "ingredient", packPrice: 4 }),
      line({ item: "work", kind: "labour", packPrice: 3, ownerLabour: true }),
      line({ item: "rent", kind: "overhead", per: "month", packPrice: 10 }),
    ],
  );
  expect(
    (["full", "without owner labour", "variable"] as const).map((scope) => accountOf(costs, scope).loss.costPerGood),
  ).toEqual([12, 9, 4]);
  const rates = gramRates(costs);
  assertClose(rates.kind === "rates" ? rates.rates.variable.dried! : 0, 0.1, 1e-12);
  // what is paid by the month, whole; time that varies with the trays is no cost of a month as such
  const later = cost(
    [good(), good({ inoculatedOn: "2026-02-03" })],
    [
      line({ item: "rent", kind: "overhead", per: "month", packPrice: 10 }),
      line({ item: "work", kind: "labour", packPrice: 3, ownerLabour: true }),
    ],
  );
  expect(fixedMonth(later)).toMatchObject({ kind: "fixed", total: 10, withoutOwnerLabour: 10 });
  expect(fixedMonth(cost([tray()], [line({ item: "a" })]))).toMatchObject({ kind: "fixed", total: 0, lines: [] });
  const whole = cost(
    [good({ inoculatedOn: "2026-02-03" })],
    [
      line({ item: "rent", kind: "space", per: "shelf day", packPrice: 60, packSize: 1200, packUnit: "day" }),
      line({ item: "oven", kind: "reusable", packPrice: 620, salvage: 80, lifeYears: 6, usesPerYear: 90, per: "load" }),
      line({ item: "clerk", kind: "labour", per: "month", packPrice: 30, ownerLabour: true }),
    ],
    settings({ shelfPlaces: 40 }),
  );
  const month = fixedMonth(whole);
  if (month.kind === "cannot-tell") throw new Error(month.reason);
  // 40 places of 60/1200 a day for the mean month of 365.25/12 days; 540 over 72 months; one tray does not change it
  const byHand: [string, number][] = [
    ["rent", 60.875],
    ["oven", 7.5],
    ["clerk", 30],
  ];
  byHand.forEach(([item, amount], index) => {
    expect(month.lines[index]!.item).toBe(item);
    assertClose(month.lines[index]!.amount, amount, 1e-9);
  });
  assertClose(month.withoutOwnerLabour, 68.375, 1e-9);
});

test("a cost per shelf day is one of the whole month where it is for all trays from the start; else what the months took", () => {
  // 40 places at 0.05 a day for 365.25/12 days are 60.875; the tray stood 19 days in one month
  const rent = line({ item: "rent", kind: "space", per: "shelf day", packPrice: 0.05 });
  const trays = [
    good({ inoculatedOn: "2026-02-01", fruitingOn: "2026-02-11", harvestedOn: "2026-02-20", chamber: "A" }),
  ];
  const amount = (facts: Partial<CostLine>): number => {
    const month = fixedMonth(cost(trays, [{ ...rent, ...facts }], settings({ shelfPlaces: 40 })));
    if (month.kind === "cannot-tell") throw new Error(month.reason);
    return month.lines[0]!.amount;
  };
  for (const stage of [undefined, "filling", "inoculation"] as const) assertClose(amount({ stage }), 60.875, 1e-9);
  assertClose(amount({ stage: "incubation" }), 10 * 0.05, 1e-9);
  assertClose(amount({ stage: "fruiting" }), 9 * 0.05, 1e-9);
  assertClose(amount({ onlyWhereColumn: "chamber", onlyWhereValue: "A" }), 19 * 0.05, 1e-9);
  assertClose(amount({ onlyWhereColumn: "chamber", onlyWhereValue: "B" }), 0, 1e-9);
});

test("what a started tray gives: lost trays count, labour is counted in hours", () => {
  const work = line({ item: "work", kind: "labour", packUnit: "hour", packPrice: 0, amount: 0.5 });
  expect(
    yieldPerStartedTray(
      cost(
        [good(), good({ freshGrams: undefined }), lost({ harvestedOn: "2026-01-21" }), tray({ outcome: "growing" })],
        [work],
      ),
    ),
  ).toEqual({
    kind: "yield",
    perTray: { labourHours: 0.5, fresh: 400 * (2 / 3), dried: 40 * (2 / 3), shelfDays: 40 },
  });
  expect(yieldPerStartedTray(cost([tray({ outcome: "growing" })], [work])).kind).toBe("cannot-tell");
  assertClose(trayStartsInMonth(40, 60), (40 * 365.25) / 12 / 60, 1e-12);
  expect(() => trayStartsInMonth(40, 0)).toThrow("shelfDays above 0");
});

test("groups by dose, cook or month, in the order met; a group with nothing good says so", () => {
  const trays = [good({ batch: "B" }), lost({ batch: "A" }), good({ batch: "B" }), good()];
  const groups = accountsBy(cost(trays, [line({ item: "tray" })]), ({ batch }) => batch);
  expect(groups.map(({ key, trays: count, account }) => [key, count, account.kind])).toEqual([
    ["B", 2, "account"],
    ["A", 1, "cannot-tell"],
  ]);
});

const someBook = fc
  .array(
    fc.record({
      kind: fc.constantFrom("good", "lost", "growing"),
      grams: fc.integer({ min: 1, max: 90 }),
      unweighed: fc.boolean(),
      pool: fc.constantFrom(1, 2),
    }),
    { minLength: 1, maxLength: 15 },
  )
  .map((rows) => [
    good(),
    ...rows.map(({ kind, grams, unweighed, pool }) =>
      kind === "good"
        ? good({ dryGrams: unweighed ? undefined : grams, traysInPool: pool })
        : kind === "lost"
          ? lost({ traysInPool: pool })
          : tray({ ...day, outcome: "growing" }),
    ),
  ]);
const lines = [
  line({ item: "tray", packPrice: 3 }),
  line({ item: "drying", kind: "energy", per: "kg dried", packPrice: 5 }),
];

test("the pairs' ratio is the all-in cost of a gram, and with no rate stated the carried one too", () => {
  fc.assert(
    fc.property(someBook, fc.integer({ min: 0, max: 3 }), (trays, recoveredPerLostTray) => {
      const cost1 = gram(accountOf(cost(trays, lines, settings({ recoveredPerLostTray }))), "dried");
      const ratio =
        compensatedSum(cost1.pairs.map((pair) => pair.cost)) / compensatedSum(cost1.pairs.map((pair) => pair.grams));
      assertClose(cost1.withAllLosses, ratio, 1e-9);
      assertClose(cost1.withNormalLoss, ratio, 1e-9);
    }),
  );
});

test("parts make the whole: groups' costs add up to the book's, and money scales with the currency", () => {
  fc.assert(
    fc.property(someBook, (trays) => {
      const costs = cost(trays, lines);
      const whole = accountOf(costs);
      let position = 0;
      const parts = accountsBy(costs, () => String(position++ % 2)).map(({ account }) => account);
      if (parts.every((part): part is CostAccount => part.kind === "account")) {
        const spent = ({ loss }: CostAccount): number => loss.costPerStarted * loss.started;
        assertClose(compensatedSum(parts.map(spent)), spent(whole), 1e-9);
        assertClose(
          parts.reduce((sum, part) => sum + part.loss.started, 0),
          whole.loss.started,
          1e-9,
        );
      }
      const cents = accountOf(
        cost(
          trays,
          lines.map((each) => ({ ...each, packPrice: each.packPrice * 100 })),
        ),
      );
      assertClose(gram(cents, "dried").withNormalLoss, 100 * gram(whole, "dried").withNormalLoss, 1e-7);
    }),
  );
});

test("nothing good, or nothing finished", () => {
  expect(costAccount(cost([lost()], lines), "full")).toMatchObject({ kind: "cannot-tell" });
  expect(costAccount(cost([tray({ outcome: "growing" })], lines), "full")).toEqual({
    kind: "cannot-tell",
    reason: "no tray is finished",
  });
  expect(gramRates(cost([lost()], lines)).kind).toBe("cannot-tell");
});
