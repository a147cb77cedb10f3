import { expect, test } from "vitest";
import {
  gramRates,
  meanMonthDays,
  trayStartsInMonth,
  yieldPerStartedTray,
} from "../../src/costing/trays/book-rates.ts";
import { accountsBy, costAccount, inScope, scopedTotals } from "../../src/costing/trays/cost-account.ts";
import { fixedMonth } from "../../src/costing/trays/fixed-month.ts";
import { normalLoss } from "../../src/costing/trays/normal-loss.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { assertClose } from "../agreement.ts";
import { line, settings, tray } from "./sample-records.ts";

// by hand

const costed = (trays: Tray[], costLines: CostLine[], set: Partial<Settings> = {}): TrayCosts => {
  const costs = trayCosts({ trays, costLines, settings: settings(set) });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return costs;
};
const day = { inoculatedOn: "2026-01-01", harvestedOn: "2026-01-21" };
const good = (facts: Partial<Tray> = {}): Tray => tray({ ...day, freshGrams: 400, dryGrams: 40, ...facts });
const lost = (facts: Partial<Tray> = {}): Tray => tray({ ...day, outcome: "contaminated", ...facts });
const one = [line({ item: "tray", packPrice: 6 })];
const known = <T extends { kind: string }>(found: T): Exclude<T, { kind: "cannot-tell" }> => {
  if (found.kind === "cannot-tell") throw new Error(JSON.stringify(found));
  return found as Exclude<T, { kind: "cannot-tell" }>;
};

test("a started tray's yield: pools count as their trays, and what nobody recorded has no mean", () => {
  const of = (...trays: Tray[]) => known(yieldPerStartedTray(costed(trays, one))).perTray;
  // 800 g of two trays in a pool and 100 g of one, of four started: 900 / 3 * 3 / 4
  const four = of(good({ traysInPool: 2, freshGrams: 800 }), good({ freshGrams: 100 }), lost());
  expect(four).toEqual({ labourHours: 0, fresh: 225, dried: 20, shelfDays: 20 });
  expect(of(good({ freshGrams: undefined, dryGrams: undefined }))).toEqual({ labourHours: 0, shelfDays: 20 });
  expect(of(tray({ dryGrams: 30 }))).toEqual({ labourHours: 0, dried: 30 });
  expect(of(lost({ freshGrams: 90 }))).toEqual({ labourHours: 0, shelfDays: 20 });
  // the trays without dates do not shorten the days
  expect(of(good({ traysInPool: 3 }), tray(), good({ harvestedOn: "2026-02-10" })).shelfDays).toBe(25);
});

test("hours of work are those of lines of work counted in hours, over all trays, also the growing", () => {
  const hours = (facts: Partial<CostLine>) =>
    known(
      yieldPerStartedTray(
        costed([good(), tray({ ...day, outcome: "growing" })], [line({ item: "a", amount: 0.5, ...facts })]),
      ),
    ).perTray.labourHours;
  expect(hours({ kind: "labour", packUnit: "hour" })).toBe(0.5);
  expect(hours({ kind: "labour", packUnit: "hour", per: "good tray" })).toBe(0.25);
  expect(hours({ kind: "labour", packUnit: "each" })).toBe(0);
  expect(hours({ kind: "energy", packUnit: "hour" })).toBe(0);
});

test("places are filled again as soon as they are free; none start none", () => {
  expect(trayStartsInMonth(0, 60)).toBe(0);
  expect(trayStartsInMonth(2, meanMonthDays)).toBe(2);
  expect(() => trayStartsInMonth(-1, 60)).toThrow("received -1 and 60");
  expect(() => trayStartsInMonth(1, Number.NaN)).toThrow(RangeError);
});

test("rates of a gram: in each scope, of the weights that are recorded", () => {
  const lines = [...one, line({ item: "work", kind: "labour", ownerLabour: true, packPrice: 2 })];
  expect(known(gramRates(costed([good({ dryGrams: undefined })], lines))).rates).toStrictEqual({
    full: { fresh: 8 / 400 },
    "without owner labour": { fresh: 6 / 400 },
    variable: { fresh: 6 / 400 },
  });
  // all losses are in them, beyond the usual rate too
  const rates = known(gramRates(costed([good(), lost()], one, { normalLossRate: 0 }))).rates;
  expect(rates.full).toEqual({ fresh: 12 / 400, dried: 12 / 40 });
});

test("a cost counts in a scope by whose time it is and whether it grows with what is made", () => {
  const lines = [
    line({ item: "grain", packPrice: 1 }),
    line({ item: "owner", kind: "labour", ownerLabour: true, packPrice: 10 }),
    line({ item: "rent", kind: "overhead", packPrice: 100 }),
    line({ item: "dryer", kind: "energy", per: "kg fresh", packPrice: 1000 }),
  ];
  const costs = costed([good({ freshGrams: 1000 })], lines);
  const scopes = ["full", "without owner labour", "variable"] as const;
  expect(scopes.map((scope) => scopedTotals(costs, scope)[0])).toEqual([1111, 1101, 1001]);
  expect(scopes.map((scope) => scopedTotals(costs, scope, "harvest")[0])).toEqual([111, 101, 1]);
  expect(scopedTotals(costs, "full", "filling")[0]).toBe(111);
  expect(costs.items.map((item) => scopes.map((scope) => inScope(item, scope)))).toEqual([
    [true, true, true],
    [true, false, false],
    [true, true, false],
    [true, true, true],
  ]);
});

test("the account counts pools as their trays, lost ones by how far they came", () => {
  const trays = [
    good({ traysInPool: 2 }),
    lost({ traysInPool: 3 }),
    lost({ freshGrams: 20 }),
    lost({ freshGrams: 5 }),
    tray({ ...day, outcome: "growing", traysInPool: 4 }),
    tray({ ...day, outcome: "asked" }),
  ];
  const account = known(costAccount(costed(trays, one), "full"));
  expect(account).toMatchObject({ growing: 4, loss: { costPerGood: 21 } });
  expect(account.lostAt).toEqual([
    { stage: "incubation", trays: 3, cost: 18, costPerTray: 6 },
    { stage: "harvest", trays: 2, cost: 12, costPerTray: 6 },
  ]);
  expect(account.perGram.dried).toBe(account.perGram.dried);
  expect(account.perGram.dried).toMatchObject({ trays: 2, grams: 40 });
  expect(known(costAccount(costed(trays.slice(0, 2), one), "full")).loss).toMatchObject({ good: 2, started: 5 });
  const byOutcome = accountsBy(costed(trays, one, { recoveredPerLostTray: 1 }), ({ outcome }) => outcome);
  expect(byOutcome.map(({ lost: gone, costOfLost }) => [gone, costOfLost])).toEqual([
    [0, 0],
    [5, 25],
    [0, 0],
    [0, 0],
  ]);
  expect(accountsBy(costed(trays, one), ({ outcome }) => outcome).map(({ key, trays: n }) => [key, n])).toEqual([
    ["good", 2],
    ["contaminated", 5],
    ["growing", 4],
    ["asked", 1],
  ]);
});

test("a gram's pairs lie by tray: cost of good trays, of lost ones less what they recovered", () => {
  const account = known(
    costAccount(costed([good(), lost({ traysInPool: 2 })], one, { recoveredPerLostTray: 1 }), "full"),
  );
  const { pairs } = known(account.perGram.fresh);
  expect(pairs.map(({ tray: { outcome }, cost, grams }) => [outcome, cost, grams])).toEqual([
    ["good", 6, 400],
    ["contaminated", 10, 0],
  ]);
});

test("weights nobody recorded, and trays that gave nothing, have no cost of a gram", () => {
  const reason = (facts: Partial<Tray>, gram: "fresh" | "dried" | "dry matter") => {
    const found = known(costAccount(costed([good(facts)], one), "full")).perGram[gram];
    return found.kind === "cannot-tell" ? found.reason : "";
  };
  expect(reason({ freshGrams: undefined }, "fresh")).toBe("no good tray has a fresh weight");
  expect(reason({ dryGrams: undefined }, "dried")).toBe("no good tray has a dry weight");
  expect(reason({ dryGrams: undefined, finalMoisture: 0.1 }, "dry matter")).toBe("no good tray has a dry weight");
  expect(reason({ freshGrams: 0 }, "fresh")).toBe("the good trays gave nothing");
  expect(reason({}, "fresh")).toBe("");
});

test("a month's fixed cost: at prices of now, with means of the book's months where a line does not tell", () => {
  const trays = [good(), good({ inoculatedOn: "2026-04-10", harvestedOn: "2026-05-01" })]; // January to April: 4 months
  const month = (lines: CostLine[], list = trays) => {
    const found = fixedMonth(costed(list, [...one, ...lines], { shelfPlaces: 10 }));
    return found.kind === "cannot-tell"
      ? found.reason
      : found.lines.map(({ item, amount, basis }) => [item, amount, basis]);
  };
  const rent = line({ item: "rent", kind: "overhead", packPrice: 8 });
  const mean = "mean of the book's months";
  expect(month([rent])).toEqual([["rent", 4, mean]]);
  expect(month([rent], [good()])).toEqual([["rent", 8, mean]]);
  expect(month([rent], [tray()])).toBe("no tray has a date of inoculation, so months cannot be counted");
  expect(month([{ ...rent, per: "month" }], [tray()])).toEqual([["rent", 8, "per month"]]);
  expect(
    month([
      { ...rent, per: "month" },
      { ...rent, per: "month", packPrice: 9, fromDate: "2026-02-01" },
    ]),
  ).toEqual([["rent", 9, "per month"]]);
  expect(month([{ ...rent, per: "unit sold" }])).toEqual([]);
  expect(month([{ ...rent, usesPerYear: 20 }])).toEqual([["rent", 4, mean]]); // which says nothing of rent
  expect(month([{ ...rent, kind: "labour", ownerLabour: true }])).toEqual([]);
  const oven = line({ item: "oven", kind: "reusable", packPrice: 600, lifeYears: 5, per: "load" });
  expect(month([{ ...oven, usesPerYear: 20 }])).toEqual([["oven", 10, "written off by years"]]);
  expect(month([{ ...oven, lifeYears: undefined }])).toEqual([]);
  expect(month([oven])).toEqual([]); // its years alone do not say what a use costs
  expect(month([{ ...oven, per: "month" }])).toEqual([["oven", 10, "per month"]]);
  const place = line({ item: "place", kind: "space", per: "shelf day", packPrice: 2 });
  expect(month([place])).toEqual([["place", 20 * meanMonthDays, "all places, every day"]]);
  expect(month([{ ...place, kind: "energy" }])).toEqual([]);
});

test("the owner's time by the month is in the month, and apart", () => {
  const clerk = line({ item: "clerk", kind: "labour", per: "month", packPrice: 30, ownerLabour: true });
  const rent = line({ item: "rent", kind: "overhead", per: "month", packPrice: 8 });
  expect(fixedMonth(costed([good()], [clerk, rent]))).toMatchObject({
    total: 38,
    withoutOwnerLabour: 8,
    lines: [{ ownerLabour: true }, { ownerLabour: false }],
  });
});

test("drying is at the settings' price where no line of the trays is for it", () => {
  const dried = (lines: CostLine[], dryingCostPerKgFresh = 2) =>
    costed([good({ freshGrams: 500 })], lines, { dryingCostPerKgFresh }).items.map(({ item, stage }) => [item, stage]);
  const grain = ["tray", "filling"];
  expect(dried(one)).toEqual([grain, ["drying", "drying"]]);
  expect(dried(one, 0)).toEqual([grain]);
  expect(dried([...one, line({ item: "dryer", per: "kg dried" })])).toEqual([grain, ["dryer", "drying"]]);
  expect(dried([...one, line({ item: "bags", per: "unit sold", stage: "drying" })])).toEqual([
    grain,
    ["drying", "drying"],
  ]);
});

test("a line is said to be counted in part where more than one tray in fifty lacks what it is counted by", () => {
  const doubts = (lacking: number) => {
    const trays = Array.from({ length: 50 }, (_, place) => good(place < lacking ? {} : { inoculumMillilitres: 5 }));
    return costed(trays, [line({ item: "culture", per: "jar" })]).doubts.map(({ name, effect, trays: n }) => [
      name,
      effect,
      n,
    ]);
  };
  expect([doubts(0), doubts(1)]).toEqual([[], []]);
  expect(doubts(2)).toEqual([["culture", "in part", 2]]);
  // what is only assumed is a note, and no doubt
  expect(costed([tray()], [line({ item: "power", per: "load" })]).doubts).toEqual([]);
});

test("settings and pools that make no sense are named", () => {
  expect(() => costed([tray()], one, { jarMillilitres: 0 })).toThrow("settings.jarMillilitres");
  expect(() => costed([tray()], one, { traysPerLoad: 0 })).toThrow("settings.traysPerLoad");
  expect(() => costed([tray({ trayId: "P", traysInPool: 0 })], one)).toThrow("traysInPool of P");
});

test("no loss costs nothing; a usual rate above the loss carries no more than the loss", () => {
  const facts = { costOfGood: 20, costOfLost: 0, good: 10, lost: 0, normalBase: "good" as const, recoveredPerLost: 3 };
  expect(known(normalLoss(facts))).toMatchObject({
    ...{ started: 10, normal: 0, abnormal: 0, recovered: 0, normalCost: 0, abnormalCost: 0 },
    ...{ costPerGood: 2, costPerStarted: 2, costPerGoodWithAllLosses: 2 },
  });
  const some = { ...facts, lost: 5, costOfLost: 20 };
  expect(known(normalLoss({ ...some, normalRate: 2 }))).toMatchObject({ normal: 5, abnormal: 0, normalCost: 5 });
  expect(known(normalLoss({ ...some, normalRate: 0 }))).toMatchObject({ normal: 0, abnormal: 5, abnormalCost: 5 });
  expect(known(normalLoss({ ...some, costOfLost: -5 }))).toMatchObject({ normalCost: -20 });
  const wrong = (part: Partial<Parameters<typeof normalLoss>[0]>) => () => normalLoss({ ...facts, ...part });
  expect(wrong({ good: -1 })).toThrow("good must be a number of 0 or more");
  expect(wrong({ recoveredPerLost: -1 })).toThrow("recoveredPerLost must be a number of 0 or more");
  expect(wrong({ costOfGood: Number.NaN })).toThrow("costOfGood must be a finite number");
  expect(wrong({ normalRate: -0.1 })).toThrow("normalRate");
  expect(wrong({ normalRate: 1, normalBase: "starts" })).toThrow("normalRate");
  expect(wrong({ normalRate: 1 })).not.toThrow();
  expect(normalLoss({ ...facts, good: 0 })).toMatchObject({ reason: "no tray is finished" });
});

test("parts of a tray's cost: pools count as their trays, growing and asked ones take no part, nothing over nothing is 0", () => {
  const lines = [
    line({ item: "grain", packPrice: 2 }),
    line({ item: "culture", per: "inoculum mL", packPrice: 0.5 }),
    line({ item: "picking", kind: "labour", per: "kg fresh", packPrice: 10 }),
    line({ item: "dryer", kind: "energy", per: "kg fresh", packPrice: 5 }),
  ];
  const dosed = { inoculumMillilitres: 4 };
  const trays = [
    good({ ...dosed, traysInPool: 2, freshGrams: 1000 }),
    good({ ...dosed, dryGrams: undefined }),
    lost(dosed),
    tray({ ...day, ...dosed, outcome: "growing" }),
    tray({ ...day, ...dosed, outcome: "asked" }),
  ];
  const parts = known(trayCostParts(costed(trays, lines), "full", "fresh"));
  // four trays finished at 2.00 of grain and 2.00 of culture; 1.4 kg picked for 14.00; 1 kg dried for 5.00
  expect(parts).toMatchObject({ perMillilitre: 0.5, perStartedTray: 2, perShelfDay: 0 });
  assertClose(parts.perGram, 0.01, 1e-12);
  assertClose(parts.toHarvestPerStartedTray, 30 / 4, 1e-12);
  assertClose(parts.dryingPerKgFresh, 5, 1e-12);
  assertClose(known(trayCostParts(costed(trays, lines), "full", "dried")).perGram, 19 / 40, 1e-12);
  const bare = known(
    trayCostParts(costed([tray()], [line({ item: "grain" })], { recoveredPerLostTray: 9 }), "full", "dried"),
  );
  expect(bare).toEqual({
    ...{ kind: "parts", perMillilitre: 0, perShelfDay: 0, perGram: 0, perGoodTray: 0 },
    ...{ perStartedTray: 1, toHarvestPerStartedTray: 1, dryingPerKgFresh: 0 },
  });
});
