import { expect, test } from "vitest";
import { perTrayShelfDayOrHour } from "../../analyses/dose/per-tray-shelf-day-or-hour.ts";
import type { Tray } from "../../src/records/tray.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";

const harvestedAfter = (days: number): string => new Date(Date.UTC(2026, 2, 1 + days)).toISOString().slice(0, 10);
const seller = [product({ grams: 1, currentPrice: 1 })];
const table = "What is left at the dose to use";
const grain = line({ item: "grain", packPrice: 10 });

/** six cooks of four trays each, 5 mL giving 20 g in 20 days and 10 mL giving 24 g in 40, with a little scatter */
const trays: Tray[] = ["A", "B", "C", "D", "E", "F"].flatMap((batch, cook) =>
  [5, 10].flatMap((inoculumMillilitres) =>
    [-1, 1].map((side) =>
      tray({
        batch,
        inoculumMillilitres,
        inoculatedOn: "2026-03-01",
        harvestedOn: harvestedAfter(inoculumMillilitres === 5 ? 20 : 40),
        dryGrams: (inoculumMillilitres === 5 ? 20 : 24) + side * (1 + (cook % 3) / 4),
      }),
    ),
  ),
);

// expected figures are pulled a little towards one another, so they are held to 1 in 100
test("10 mL leaves more per tray, 5 mL per shelf day; by hand 14 a tray, 0.50 and 0.35 a day", () => {
  const outcome = answerOf(perTrayShelfDayOrHour.run(moneyTrial(trays, [grain], seller)));
  expect(cellOf(outcome, table, "started tray", "dose that leaves most")).toBe(10);
  expect(cellOf(outcome, table, "shelf day", "dose that leaves most")).toBe(5);
  expect(cellOf(outcome, table, "shelf day", "another dose than per tray")).toBe("yes");
  assertClose(Number(cellOf(outcome, table, "started tray", "expected, left at the dose to use")), 14, 0.1);
  assertClose(Number(cellOf(outcome, table, "shelf day", "expected, left at the dose to use")), 0.35, 0.02);
  expect(wordsOf(outcome.sentence)).toMatch(/^Per shelf day # leaves # more than #/);
  expect(outcome.caveats.map(wordsOf).join(" ")).toContain("nothing per hour");
});

test("per hour of work, before own time is paid: 15 minutes a tray and 12 minutes to pack ten grams; by hand", () => {
  const work = line({
    item: "picking",
    kind: "labour",
    packPrice: 12,
    packUnit: "hour",
    amount: 0.25,
    ownerLabour: true,
  });
  const packed = [product({ grams: 10, currentPrice: 10, minutes: 12 })];
  const outcome = answerOf(
    perTrayShelfDayOrHour.run(moneyTrial(trays, [grain, work], packed, { ownerLabourRate: 12 })),
  );
  // 24 g bring 24.00 less grain 10.00, over 0.25 h and 2.4 packs of 0.2 h
  assertClose(Number(cellOf(outcome, table, "hour of work", "expected, left at the dose to use")), 14 / 0.73, 0.15);
  // with own time paid: less 3.00 of picking and 0.48 h of packing at 12.00
  assertClose(Number(cellOf(outcome, table, "started tray", "expected, left at the dose to use")), 14 - 8.76, 0.1);
});

test("lost trays count with their cost: losing half of 10 mL turns the dose to use", () => {
  const lossy = trays.map((one, index) => {
    if (one.inoculumMillilitres !== 10 || index % 2 === 0) return one;
    const { dryGrams: _, harvestedOn: __, ...rest } = one;
    return { ...rest, outcome: "contaminated" as const };
  });
  const outcome = answerOf(perTrayShelfDayOrHour.run(moneyTrial(lossy, [grain], seller)));
  expect(Number(cellOf(outcome, table, "started tray", "dose that leaves most"))).toBeLessThan(7);
});

test("one cook per dose, no products: cannot tell", () => {
  const tied = trays.map((one) => ({ ...one, batch: `C${one.inoculumMillilitres}` }));
  const reason = (outcome: ReturnType<typeof perTrayShelfDayOrHour.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(tied, [grain], seller)))).toContain("cooks of its own");
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(trays, [grain], [])))).toContain("products.csv has no row");
  const wet = [product({ form: "fresh" })];
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(trays, [grain], wet)))).toContain("no product made of dried");
});
