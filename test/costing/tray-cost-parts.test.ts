import { expect, test } from "vitest";
import { compensatedSum } from "../../src/costing/compensated-sum.ts";
import { type TrayCostParts, trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import { assertClose } from "../agreement.ts";
import { line, settings, tray } from "./sample-records.ts";

const day = { inoculatedOn: "2026-01-01", inoculumMillilitres: 8, load: "1" };
const trays = [
  tray({ ...day, harvestedOn: "2026-02-20", freshGrams: 400, dryGrams: 40 }),
  tray({ ...day, harvestedOn: "2026-02-26", freshGrams: 350, dryGrams: 38 }),
  tray({ ...day, outcome: "contaminated", harvestedOn: "2026-01-12" }),
  tray({ inoculatedOn: "2026-02-20", inoculumMillilitres: 8, load: "2", outcome: "growing" }),
];
const lines = [
  line({ item: "grain", packPrice: 2 }),
  line({ item: "power", kind: "energy", per: "load", packPrice: 3 }),
  line({ item: "culture", per: "jar", packPrice: 30 }),
  line({ item: "place", kind: "space", per: "shelf day", packPrice: 0.05 }),
  line({ item: "picking", per: "good tray", packPrice: 1 }),
  line({ item: "dehydrator", kind: "energy", per: "kg fresh", packPrice: 3 }),
];
const costed = (list = trays): TrayCosts => {
  const costs = trayCosts({ trays: list, costLines: lines, settings: settings({ recoveredPerLostTray: 0.5 }) });
  if (costs.kind === "cannot-tell") throw new Error(costs.reason);
  return costs;
};
const partsOf = (...[costs, scope, weight]: Parameters<typeof trayCostParts>): TrayCostParts => {
  const parts = trayCostParts(costs, scope, weight);
  if (parts.kind === "cannot-tell") throw new Error(parts.reason);
  return parts;
};

test("the parts by hand", () => {
  const parts = partsOf(costed(), "full", "dried");
  expect(parts).toMatchObject({ perGoodTray: 1, perStartedTray: 3 });
  assertClose(parts.perMillilitre, 30 / 500, 1e-12);
  assertClose(parts.perShelfDay, 0.05, 1e-12);
  assertClose(parts.perGram, 2.25 / 78, 1e-12);
  assertClose(parts.dryingPerKgFresh, 3, 1e-12);
  expect(partsOf(costed(), "full", "fresh").perGram).toBe(0);
  expect(partsOf(costed(), "variable", "dried").perShelfDay).toBe(0);
});

test("at the book's own means the profit of a dose is the book's income less its cost", () => {
  const costs = costed();
  const parts = partsOf(costs, "full", "dried");
  const price = 0.6;
  const lost = 1 / 3;
  const income = (1 - lost) * ((price - parts.perGram) * 39 - parts.perGoodTray) + lost * 0.5;
  const days = (1 - lost) * 53 + lost * 11;
  const profitPerStartedTray = income - 8 * parts.perMillilitre - days * parts.perShelfDay - parts.perStartedTray;
  const spent = compensatedSum(costs.totals.subarray(0, 3));
  assertClose(3 * profitPerStartedTray, 78 * price + 0.5 - spent, 1e-9);
});

test("nothing good, nothing finished", () => {
  expect(trayCostParts(costed([trays[2]!]), "full", "dried")).toEqual({
    kind: "cannot-tell",
    reason: "no finished tray was good",
  });
  expect(trayCostParts(costed([trays[3]!]), "full", "dried")).toEqual({
    kind: "cannot-tell",
    reason: "no tray is finished",
  });
});
