import { expect, test } from "vitest";
import { ratioOverCooks } from "../../analyses/costs/ratio-over-cooks.ts";
import { whatDoesAGoodGramCost } from "../../analyses/costs/what-does-a-good-gram-cost.ts";
import { assertClose } from "../agreement.ts";
import { line, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, demoMoneyTrial, moneyTrial, wordsOf } from "./money-books.ts";

test("550 started at 4.00, 500 good, 30 of the loss usual: 4.40, of which losses beyond the usual 0.16; public exam bank", () => {
  const trays = [
    ...Array.from({ length: 500 }, () => tray({ dryGrams: 1 })),
    ...Array.from({ length: 50 }, () => tray({ outcome: "contaminated" })),
  ];
  const outcome = answerOf(
    whatDoesAGoodGramCost.run(
      moneyTrial(trays, [line({ item: "all", packPrice: 4 })], [], { normalLossRate: 0.06, normalLossBase: "good" }),
    ),
  );
  const dry = (column: string) => Number(cellOf(outcome, "What a good gram cost", "dry, as weighed", column));
  assertClose(dry("of which losses beyond the usual"), 0.16, 1e-9);
  assertClose(dry("cost, all losses in it"), 4.4, 1e-9);
  assertClose(outcome.estimates[0]!.value, 4.4, 1e-9);
});

test("at one moisture: 90 g at 20 % is 80 g at 10 %, so the gram costs 90/80 as much; by hand", () => {
  const trays = [tray({ dryGrams: 90, finalMoisture: 0.2 }), tray({ dryGrams: 90, finalMoisture: 0.2 })];
  const outcome = answerOf(whatDoesAGoodGramCost.run(moneyTrial(trays, [line({ item: "all", packPrice: 9 })], [])));
  const cost = (gram: string) => Number(cellOf(outcome, "What a good gram cost", gram, "cost, all losses in it"));
  assertClose(cost("dry, as weighed"), 0.1, 1e-12);
  assertClose(cost("dry, brought to one moisture"), 0.1125, 1e-12);
  assertClose(cost("dry matter without any water"), 9 / 72, 1e-12);
});

test.each([
  [true, "lost trays and your own time included", "Without your own time it is"],
  [false, "lost trays included, your own time not", "No line of costs.csv is your own time"],
])("own time in the costs: %s, and it says so", (ownerLabour, short, says) => {
  const lines = [
    line({ item: "bag", packPrice: 3 }),
    line({ item: "work", kind: "labour", packUnit: "hour", packPrice: 6, ownerLabour }),
  ];
  const outcome = answerOf(whatDoesAGoodGramCost.run(moneyTrial([tray({ dryGrams: 30 })], lines, [])));
  expect(wordsOf(outcome.short!)).toContain(short);
  expect(wordsOf(outcome.sentence)).toContain(says);
  assertClose(outcome.estimates[0]!.value, 0.3, 1e-12);
});

test("what several lines of costs are counted without is said once, with their rows", () => {
  const lines = [4, 7].map((row) =>
    line({ item: `load ${row}`, per: "load", packPrice: 3, source: { file: "costs.csv", row } }),
  );
  const { caveats } = answerOf(whatDoesAGoodGramCost.run(moneyTrial([tray({ dryGrams: 30 })], lines, [])));
  const loads = caveats.map(wordsOf).filter((text) => text.includes("load is not recorded"));
  expect(loads).toEqual([expect.stringContaining("costs.csv, rows 4, 7: the cooker load")]);
});

test("lines that are left out beside one that counts nothing are no cost of 0", () => {
  const idle = line({ item: "gas", packPrice: 12, per: "month" });
  const unread = [
    { sheet: "costs", name: "rice", reason: "per is missing", source: { file: "costs.csv", row: 2 }, inUse: false },
  ] as const;
  const trial = moneyTrial([tray({ dryGrams: 30 })], [idle], []);
  const outcome = whatDoesAGoodGramCost.run({ ...trial, unread: [...unread] });
  expect(outcome.kind).toBe("cannot-tell");
  expect(JSON.stringify(outcome)).toContain("no line of costs.csv could be used (rice: per is missing)");
});

test("lines whose prices are all of a later day say so", () => {
  const later = line({ item: "rice", packPrice: 12, per: "tray", fromDate: "2026-06-10" });
  const trial = moneyTrial([tray({ dryGrams: 30, inoculatedOn: "2026-03-02" })], [later], []);
  expect(JSON.stringify(whatDoesAGoodGramCost.run(trial))).toContain("(rice: trays inoculated before");
});

test("a dose that lost every tray stands with its trays and what they cost; by hand", () => {
  const trays = [
    tray({ inoculumMillilitres: 3, dryGrams: 30 }),
    tray({ inoculumMillilitres: 9, outcome: "contaminated" }),
    tray({ inoculumMillilitres: 9, outcome: "contaminated" }),
    tray({ inoculumMillilitres: 12, outcome: "growing" }),
  ];
  const outcome = answerOf(
    whatDoesAGoodGramCost.run(
      moneyTrial(trays, [line({ item: "all", packPrice: 9 })], [], { recoveredPerLostTray: 2 }),
    ),
  );
  const row = (dose: number) =>
    ["finished", "good", "cost of a started tray", "cost of a good tray", "good dry gram"].map((column) =>
      cellOf(outcome, "What trays and grams cost, by inoculum", dose, column),
    );
  expect(row(3)).toEqual([1, 1, 9, 9, 0.3]);
  expect(row(9)).toEqual([2, 0, 7, null, null]);
  expect(row(12)).toEqual([0, 0, null, null, null]);
});

test("the demo book: money adds up, months and grades have rows, the interval holds the value", async () => {
  const outcome = answerOf(whatDoesAGoodGramCost.run(await demoMoneyTrial()));
  const sheet = outcome.tables.find(({ caption }) => caption.startsWith("Cost sheet"))!;
  const cents = sheet.rows.map((row) => row.slice(3).map((cell) => Math.round(Number(cell) * 100)));
  const total = cents.at(-1)!;
  total.forEach((sum, column) => {
    expect(cents.slice(0, -1).reduce((all, row) => all + row[column]!, 0)).toBe(sum);
  });
  for (const [good, lost, growing, together] of cents) expect(good! + lost! + growing!).toBe(together);
  for (const by of ["inoculum", "supplement grade", "month of inoculation", "cook"]) {
    expect(outcome.tables.some(({ caption }) => caption === `What trays and grams cost, by ${by}`)).toBe(true);
  }
  const dry = (column: string) => Number(cellOf(outcome, "What a good gram cost", "dry, as weighed", column));
  expect(dry("from")).toBeLessThan(dry("cost, all losses in it"));
  expect(dry("to")).toBeGreaterThan(dry("cost, all losses in it"));
});

test("a ratio over two trays has a value and no interval", () => {
  const pair = () => ({ tray: tray({}), numerator: 2, denominator: 4 });
  const { value, low, units, unitName } = ratioOverCooks([pair(), pair()], 0.95);
  expect([value, low, units, unitName]).toEqual([0.5, undefined, 2, "trays"]);
});
