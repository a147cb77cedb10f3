import { expect, test } from "vitest";
import { perTrayShelfDayOrHour } from "../../analyses/dose/per-tray-shelf-day-or-hour.ts";
import type { Tray } from "../../src/records/tray.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";

const harvestedAfter = (days: number): string => new Date(Date.UTC(2026, 2, 1 + days)).toISOString().slice(0, 10);
const seller = [product({ grams: 1, currentPrice: 1 })];

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

test("the ranking turns: 10 mL leaves more per tray, 5 mL per shelf day; by hand 10 and 14 a tray, 0.50 and 0.35 a day", () => {
  const outcome = answerOf(
    perTrayShelfDayOrHour.run(moneyTrial(trays, [line({ item: "grain", packPrice: 10 })], seller)),
  );
  const left = (dose: number, column: string) => Number(cellOf(outcome, "What is left, by inoculum", dose, column));
  assertClose(left(5, "left per started tray"), 10, 1e-9);
  assertClose(left(10, "left per started tray"), 14, 1e-9);
  assertClose(left(5, "left per shelf day"), 0.5, 1e-9);
  assertClose(left(10, "left per shelf day"), 0.35, 1e-9);
  expect(left(5, "place by shelf day")).toBe(1);
  expect(left(10, "place by started tray")).toBe(1);
  expect(wordsOf(outcome.sentence)).toMatch(/^The best inoculum depends on what is short/);
  expect(outcome.certainty).toBe("settled");
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
    perTrayShelfDayOrHour.run(
      moneyTrial(trays, [line({ item: "grain", packPrice: 10 }), work], packed, { ownerLabourRate: 12 }),
    ),
  );
  const left = (dose: number, column: string) => Number(cellOf(outcome, "What is left, by inoculum", dose, column));
  // 20 g bring 20.00 less grain 10.00, over 0.25 h and two packs of 0.2 h
  assertClose(left(5, "left per hour of work"), 10 / 0.65, 1e-9);
  // with own time paid: less 3.00 of picking and 0.4 h of packing at 12.00
  assertClose(left(5, "left per started tray"), 10 - 3 - 4.8, 1e-9);
});

test("lost trays count with their cost: losing half of 10 mL turns the ranking per tray", () => {
  const lossy = trays.map((one, index) => {
    if (one.inoculumMillilitres !== 10 || index % 2 === 0) return one;
    const { dryGrams: _, harvestedOn: __, ...rest } = one;
    return { ...rest, outcome: "contaminated" as const };
  });
  const outcome = answerOf(
    perTrayShelfDayOrHour.run(moneyTrial(lossy, [line({ item: "grain", packPrice: 10 })], seller)),
  );
  expect(cellOf(outcome, "What is left, by inoculum", 5, "place by started tray")).toBe(1);
});

test("a cook without one of the levels is left out and named, and does not tilt the means", () => {
  const tilted = [
    ...trays,
    ...Array.from({ length: 6 }, () =>
      tray({ batch: "G", inoculumMillilitres: 5, dryGrams: 90, inoculatedOn: "2026-03-01", harvestedOn: "2026-03-21" }),
    ),
  ];
  const outcome = answerOf(
    perTrayShelfDayOrHour.run(moneyTrial(tilted, [line({ item: "grain", packPrice: 10 })], seller)),
  );
  assertClose(Number(cellOf(outcome, "What is left, by inoculum", 5, "left per started tray")), 10, 1e-9);
  expect(outcome.excluded.flatMap(({ trays: names }) => names)).toHaveLength(6);
});

test("one cook per dose, no products: cannot tell", () => {
  const tied = trays.map((one) => ({ ...one, batch: `C${one.inoculumMillilitres}` }));
  const costs = [line({ item: "grain" })];
  const reason = (outcome: ReturnType<typeof perTrayShelfDayOrHour.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(tied, costs, seller)))).toContain("came from one cook alone");
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(trays, costs, [])))).toContain("products.csv has no row");
  const wet = [product({ form: "fresh" })];
  expect(reason(perTrayShelfDayOrHour.run(moneyTrial(trays, costs, wet)))).toContain("no product made of dried");
});
