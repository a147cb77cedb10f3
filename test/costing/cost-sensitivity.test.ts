import { expect, test } from "vitest";
import { costAccount } from "../../src/costing/trays/cost-account.ts";
import { type CostSensitivity, costSensitivity } from "../../src/costing/trays/cost-sensitivity.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Settings } from "../../src/records/setting.ts";
import { assertClose } from "../agreement.ts";
import { line, settings, tray } from "./sample-records.ts";

const day = { inoculatedOn: "2026-01-01", harvestedOn: "2026-02-20", inoculumMillilitres: 10 };
const trays = [
  tray({ ...day, freshGrams: 400, dryGrams: 40 }),
  tray({ ...day, inoculatedOn: "2026-02-05", harvestedOn: "2026-03-20", freshGrams: 350, dryGrams: 38 }),
  tray({ ...day, freshGrams: 300, dryGrams: undefined }),
  tray({ ...day, outcome: "contaminated", harvestedOn: "2026-01-12" }),
  tray({ ...day, outcome: "contaminated", harvestedOn: "2026-01-31" }),
];
const lines = [
  line({ item: "grain", kind: "ingredient", packPrice: 2 }),
  line({ item: "grain", kind: "ingredient", packPrice: 2.5, fromDate: "2026-02-01" }),
  line({ item: "frame", kind: "reusable", packPrice: 8, salvage: 2, uses: 20, breakage: 0.02 }),
  line({ item: "culture", kind: "culture", per: "jar", packPrice: 30, packPriceLow: 24, packPriceHigh: 45 }),
  line({ item: "work", kind: "labour", packUnit: "hour", packPrice: 0, amount: 0.1, ownerLabour: true }),
  line({ item: "dehydrator", kind: "energy", per: "kg fresh", packPrice: 3 }),
  line({ item: "free", packPrice: 0 }),
];
const set = settings({ ownerLabourRate: 16, normalLossRate: 0.25, recoveredPerLostTray: 0.2 });
const cost = (costLines: CostLine[], by: Settings = set): TrayCosts => {
  const costs = trayCosts({ trays, costLines, settings: by });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return costs;
};
const perGram = (costs: TrayCosts): number => {
  const account = costAccount(costs, "full");
  if (account.kind === "cannot-tell" || account.perGram.dried.kind === "cannot-tell") throw new Error("costed");
  return account.perGram.dried.withAllLosses;
};

test("each difference is what costing the whole book again at that price gives", () => {
  const found = costSensitivity(cost(lines), "dried");
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  assertClose(found.centre, perGram(cost(lines)), 1e-12);
  const bar = (label: string): CostSensitivity => found.bars.find((each) => each.label === label)!;
  const again = (item: string, times: number): number =>
    perGram(cost(lines.map((each) => (each.item === item ? { ...each, packPrice: each.packPrice * times } : each))));
  for (const item of ["grain", "frame", "dehydrator"]) {
    assertClose(bar(item).atLow, again(item, 0.8), 1e-12);
    assertClose(bar(item).atHigh, again(item, 1.2), 1e-12);
    expect(bar(item).ownRange).toBe(false);
  }
  assertClose(bar("culture").atLow, again("culture", 0.8), 1e-12);
  assertClose(bar("culture").atHigh, again("culture", 1.5), 1e-12);
  expect(bar("culture")).toMatchObject({ ownRange: true, lowShare: 0.8, highShare: 1.5 });
  assertClose(bar("work").atHigh, perGram(cost(lines, { ...set, ownerLabourRate: 19.2 })), 1e-12);
  expect(found.bars.some(({ label }) => label === "free")).toBe(false);
  expect(found.bars.map(({ spread: size }) => size)).toEqual(
    found.bars.map(({ spread: size }) => size).toSorted((a, b) => b - a),
  );
});

test("a larger yield lowers the cost of a gram, but not what is spent per kg", () => {
  const onlyPerKg = costSensitivity(
    cost([line({ item: "dehydrator", kind: "energy", per: "kg dried", packPrice: 3 })], settings()),
    "dried",
  );
  const perTray = costSensitivity(cost([line({ item: "grain" })], settings()), "dried");
  if (onlyPerKg.kind === "cannot-tell" || perTray.kind === "cannot-tell") throw new Error("costed");
  assertClose(onlyPerKg.bars.find(({ label }) => label === "yield per good tray")!.spread, 0, 1e-15);
  const bar = perTray.bars.find(({ label }) => label === "yield per good tray")!;
  assertClose(bar.atLow, perTray.centre / 0.8, 1e-12);
  assertClose(bar.atHigh, perTray.centre / 1.2, 1e-12);
});

test("a fresh gram's cost holds no drying, so what is spent per kg dried neither moves it nor moves with its yield", () => {
  const found = costSensitivity(
    cost(
      [
        line({ item: "grain", packPrice: 3 }),
        line({ item: "picking", kind: "labour", per: "kg fresh", packPrice: 2 }),
        line({ item: "bags", per: "kg dried", packPrice: 9 }),
      ],
      settings(),
    ),
    "fresh",
  );
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  // five trays at 3.00 over 1050 g, and 2.00 a kg
  assertClose(found.centre, 15 / 1050 + 0.002, 1e-12);
  expect(found.bars.map(({ label }) => label)).toEqual(["yield per good tray", "grain", "picking"]);
  const [yields] = found.bars;
  assertClose(yields!.atLow, 15 / 1050 / 0.8 + 0.002, 1e-12);
  assertClose(yields!.atHigh, 15 / 1050 / 1.2 + 0.002, 1e-12);
  expect(yields).toMatchObject({ lowShare: 0.8, highShare: 1.2, ownRange: false });
  assertClose(yields!.spread, yields!.atLow - yields!.atHigh, 1e-15);
});

test("a range typed the wrong way round, or with one end, is from the lower price to the higher", () => {
  const bar = (facts: Partial<CostLine>): CostSensitivity => {
    const found = costSensitivity(cost([line({ item: "grain", packPrice: 2, ...facts })], settings()), "dried");
    if (found.kind === "cannot-tell") throw new Error(found.reason);
    return found.bars.find(({ label }) => label === "grain")!;
  };
  expect(bar({ packPriceLow: 3, packPriceHigh: 1 })).toMatchObject({ lowShare: 0.5, highShare: 1.5, ownRange: true });
  expect(bar({ packPriceHigh: 3 })).toMatchObject({ lowShare: 1, highShare: 1.5, ownRange: true });
  expect(bar({ packPriceLow: 1 })).toMatchObject({ lowShare: 0.5, highShare: 1, ownRange: true });
  // prices of one item move together, each over its own range; the widest is said
  const own = line({ item: "grain", packPrice: 2, packPriceLow: 1, packPriceHigh: 3 });
  const later = line({ item: "grain", packPrice: 2, fromDate: "2026-02-01" });
  for (const dated of [
    [own, later],
    [line({ item: "grain", packPrice: 2 }), { ...own, fromDate: "2026-02-01" }],
  ]) {
    const found = costSensitivity(cost(dated, settings()), "dried");
    if (found.kind === "cannot-tell") throw new Error(found.reason);
    expect(found.bars.find(({ label }) => label === "grain")).toMatchObject({
      ...{ lowShare: 0.5, highShare: 1.5, ownRange: true },
    });
  }
  expect(bar({}).spread).toBeCloseTo(bar({}).atHigh - bar({}).atLow, 12);
});

test("a whole share moves prices from nothing to double, where a yield of nothing has no cost of a gram", () => {
  const found = costSensitivity(cost([line({ item: "grain", packPrice: 2 })], settings()), "dried", 1);
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  expect(found.bars.map(({ label }) => label)).toEqual(["grain"]);
  assertClose(found.bars[0]!.atLow, 0, 1e-12);
  assertClose(found.bars[0]!.atHigh, 2 * found.centre, 1e-12);
  expect(() => costSensitivity(cost(lines), "dried", 0)).toThrow("share must be above 0");
});

test("no gram to cost, and a share out of range", () => {
  const none = trayCosts({ trays: [tray()], costLines: lines, settings: set });
  if (none.kind === "cannot-tell") throw new Error(none.reason);
  expect(costSensitivity(none, "dried").kind).toBe("cannot-tell");
  expect(() => costSensitivity(cost(lines), "dried", 20)).toThrow("share must be above 0 and at most 1; received 20");
});
