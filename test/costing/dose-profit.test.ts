import fc from "fast-check";
import { expect, test } from "vitest";
import { type DoseEarnings, type DoseEconomics, doseEarnings, doseProfit } from "../../src/costing/dose-profit.ts";
import { assertClose } from "../agreement.ts";

const simple: DoseEconomics = {
  gramsPerGoodTray: (dose) => 40 + 6 * dose - 0.2 * dose ** 2,
  loss: () => 0,
  daysPerGoodTray: () => 50,
  netPricePerGram: 0.5,
  cultureCostPerMillilitre: 0.4,
  costPerShelfDay: 0,
  otherCostPerStartedTray: 0,
};
const earn = (economics: DoseEconomics, doses = [0, 5, 10, 15, 20], share = 0.02): DoseEarnings => {
  const found = doseEarnings(doses, economics, share);
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  return found;
};

test("40 + 6x - 0.2x^2 at 0.50 a gram and 0.40 a mL: best at 13 with 36.90; 36.50 at 15, 36.00 at 10; arithmetic", () => {
  assertClose(doseProfit(13, simple).profitPerStartedTray, 36.9, 1e-9);
  assertClose(doseProfit(15, simple).profitPerStartedTray, 36.5, 1e-9);
  assertClose(doseProfit(10, simple).profitPerStartedTray, 36, 1e-9);
  assertClose(doseProfit(13, simple).gramsPerStartedTray, 84.2, 1e-9);
  const { perTray } = earn(simple);
  assertClose(perTray.dose, 13, 1e-5);
  expect(perTray.atEdge).toBe("none");
  // profit falls by 0.1 per square mL from the best: 2 % of 36.9 is 0.738
  assertClose(perTray.nearFrom, 13 - Math.sqrt(7.38), 1e-4);
  assertClose(perTray.nearTo, 13 + Math.sqrt(7.38), 1e-4);
});

test("a 12.9 % fee lowers the best dose to 12.704; arithmetic", () => {
  assertClose(earn({ ...simple, netPricePerGram: 0.4355 }).perTray.dose, 12.704, 0.0005);
});

test("rising to a ceiling: 90(1 - exp(-0.25(x + 2))) at w/p 0.8 is best at 11.347; arithmetic", () => {
  const rising = { ...simple, gramsPerGoodTray: (dose: number) => 90 * (1 - Math.exp(-0.25 * (dose + 2))) };
  assertClose(earn(rising).perTray.dose, 11.347, 0.0005);
});

test("a line to a plateau, 40 + 4x to 10: the join while culture costs 1.50 a mL, nothing at 2.50; arithmetic", () => {
  const plateau = { ...simple, gramsPerGoodTray: (dose: number) => 40 + 4 * Math.min(dose, 10) };
  assertClose(earn({ ...plateau, cultureCostPerMillilitre: 1.5 }).perTray.dose, 10, 1e-6);
  expect(earn({ ...plateau, cultureCostPerMillilitre: 2.5 }).perTray).toMatchObject({ dose: 0, atEdge: "lowest" });
});

test("free culture goes to the most yield, and the end of the tested doses is said to be one", () => {
  assertClose(earn({ ...simple, cultureCostPerMillilitre: 0 }).perTray.dose, 15, 1e-4);
  expect(earn(simple, [4, 8, 12]).perTray).toMatchObject({ dose: 12, atEdge: "highest" });
});

test("loss, days and places by hand: 20 % lost at day 10, 40 days else", () => {
  const found = doseProfit(5, {
    ...simple,
    gramsPerGoodTray: () => 60,
    loss: () => 0.2,
    daysPerGoodTray: () => 40,
    daysPerLostTray: () => 10,
    costPerShelfDay: 0.1,
    otherCostPerStartedTray: 4,
    otherCostPerGoodTray: 2,
    recoveredPerLostTray: 1,
  });
  assertClose(found.gramsPerStartedTray, 48, 1e-12);
  assertClose(found.shelfDaysPerStartedTray, 34, 1e-12);
  assertClose(found.costPerStartedTray, 2 + 3.4 + 4 + 1.6, 1e-12);
  assertClose(found.incomePerStartedTray, 24.2, 1e-12);
  assertClose(found.profitPerStartedTray, 13.2, 1e-12);
  assertClose(found.profitPerShelfDay, 13.2 / 34, 1e-12);
});

test("what a dose risks lowers it, and what it saves in days raises it per shelf day", () => {
  const risky = earn({ ...simple, loss: (dose) => 0.01 * dose });
  expect(risky.perTray.dose).toBeLessThan(12.9);
  const faster = earn({ ...simple, daysPerGoodTray: (dose) => 60 - dose });
  assertClose(faster.perTray.dose, 13, 1e-4);
  expect(faster.perShelfDay.dose).toBeGreaterThan(13.5);
  // at the best per day, d(profit)/profit = d(days)/days: (2.6 - 0.2x)(60 - x) + (20 + 2.6x - 0.1x^2) = 0, so 0.1x^2 - 12x + 176 = 0
  assertClose(faster.perShelfDay.dose, (12 - Math.sqrt(144 - 70.4)) / 0.2, 1e-4);
});

test("no dose on a fine grid earns more, near doses earn nearly as much, and money scales", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 10, noNaN: true }),
      fc.double({ min: 0.01, max: 0.5, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 0.04, noNaN: true }),
      (slope, curve, culture, risk) => {
        const economics = {
          ...simple,
          gramsPerGoodTray: (dose: number) => 40 + slope * dose - curve * dose ** 2,
          loss: (dose: number) => risk * dose,
          cultureCostPerMillilitre: culture,
        };
        const { perTray } = earn(economics);
        for (let dose = 0; dose <= 20; dose += 0.37) {
          const { profitPerStartedTray } = doseProfit(dose, economics);
          expect(profitPerStartedTray).toBeLessThanOrEqual(perTray.profitPerStartedTray + 1e-6);
          if (dose > perTray.nearFrom && dose < perTray.nearTo && perTray.profitPerStartedTray > 0) {
            expect(profitPerStartedTray).toBeGreaterThanOrEqual(0.98 * perTray.profitPerStartedTray - 1e-6);
          }
        }
        expect(perTray.nearFrom).toBeLessThanOrEqual(perTray.dose);
        expect(perTray.nearTo).toBeGreaterThanOrEqual(perTray.dose);
        const cents = earn({ ...economics, netPricePerGram: 50, cultureCostPerMillilitre: 100 * culture }).perTray;
        assertClose(cents.profitPerStartedTray, 100 * perTray.profitPerStartedTray, 1e-3);
      },
    ),
    { numRuns: 60 },
  );
});

test("one dose tells nothing, a losing best has no stretch, and wrong numbers are named", () => {
  expect(doseEarnings([10, 10], simple, 0.02)).toEqual({
    kind: "cannot-tell",
    reason: "fewer than two different doses were tested",
  });
  const losing = earn({ ...simple, otherCostPerStartedTray: 100 }).perTray;
  expect([losing.nearFrom, losing.nearTo]).toEqual([losing.dose, losing.dose]);
  expect(() => doseProfit(-1, simple)).toThrow("doseProfit: dose must be a number of 0 or more; received -1");
  expect(() => doseProfit(1, { ...simple, loss: () => 12 })).toThrow(
    "loss at 1 must be a share from 0 to 1; received 12",
  );
  expect(() => doseProfit(1, { ...simple, gramsPerGoodTray: () => Number.NaN })).toThrow("gramsPerGoodTray at 1");
  expect(() => doseProfit(1, { ...simple, daysPerGoodTray: () => 0 })).toThrow(
    "daysPerGoodTray at 1 must be a number above 0",
  );
  expect(() => doseEarnings([1, 2], simple, 2)).toThrow("nearShare must lie between 0 and 1");
});
