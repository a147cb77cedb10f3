import { expect, test } from "vitest";
import { whichCostMattersMost } from "../../analyses/costs/which-cost-matters-most.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, demoMoneyTrial, moneyTrial, wordsOf } from "./money-books.ts";

const spread = [18, 20, 22, 19, 21, 20];
const trays = spread.map((dryGrams, index) => tray({ batch: `C${index}`, dryGrams }));

test("three lines of 10, 6 and 4 a tray of 20 g: swings of 0.2 and 0.12 a gram, and 0.15 for one with its own range; by hand", () => {
  const lines = [
    line({ item: "rent", packPrice: 6 }),
    line({ item: "grain", packPrice: 10 }),
    line({ item: "bags", packPrice: 4, packPriceLow: 4, packPriceHigh: 7 }),
  ];
  const outcome = answerOf(whichCostMattersMost.run(moneyTrial(trays, lines, [])));
  const swing = (name: string) => Number(cellOf(outcome, "What moves", name, "difference"));
  assertClose(swing("grain"), 0.2, 1e-12);
  assertClose(swing("rent"), 0.12, 1e-12);
  // its own range, from as it is to 75 % dearer
  assertClose(swing("bags"), 0.15, 1e-12);
  expect(cellOf(outcome, "What moves", "bags", "to")).toBe("+75%");
  expect(wordsOf(outcome.sentence)).toMatch(/^Of the cost lines grain moves the cost of a good dry gram/);
  const chart = outcome.charts[0]!;
  if (chart.kind !== "tornado") throw new Error(chart.kind);
  const widths = chart.rows.map(({ low, high }) => Math.abs(high - low));
  expect(widths).toEqual([...widths].sort((a, b) => b - a));
});

test("a price far above cost is covered for sure, far below it hardly ever, at the cost itself about half the time", () => {
  const lines = [line({ item: "grain", packPrice: 10 })];
  // 20 g cost 10.00
  const at = (name: string, currentPrice: number) =>
    product({ product: name, grams: 20, currentPrice, targetMargin: 0.2 });
  const outcome = answerOf(
    whichCostMattersMost.run(moneyTrial(trays, lines, [at("dear", 20), at("even", 10.02), at("cheap", 5)])),
  );
  const chance = (name: string) => Number(cellOf(outcome, "How margins", `${name}, web shop`, "chance it covers cost"));
  expect(chance("dear")).toBeGreaterThan(0.99);
  expect(chance("even")).toBeGreaterThan(0.3);
  expect(chance("even")).toBeLessThan(0.7);
  expect(chance("cheap")).toBe(0);
  expect(wordsOf(outcome.sentence)).toContain("under 1% for cheap, web shop");
});

test("the same seed gives the same answer, another seed nearly the same", async () => {
  const trial = await demoMoneyTrial();
  const first = answerOf(whichCostMattersMost.run(trial));
  const again = answerOf(whichCostMattersMost.run({ ...trial }));
  expect(again).toEqual(first);
  const other = answerOf(whichCostMattersMost.run({ ...trial, settings: { ...trial.settings, seed: 7 } }));
  other.estimates.forEach(({ value }, index) => {
    assertClose(value, first.estimates[index]!.value, 0.01);
  });
});

test("no costs, nothing weighed, costs of nothing: cannot tell", () => {
  const reason = (outcome: ReturnType<typeof whichCostMattersMost.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  expect(reason(whichCostMattersMost.run(moneyTrial(trays, [], [])))).toContain("costs.csv has no line");
  expect(reason(whichCostMattersMost.run(moneyTrial([tray({})], [line({ item: "grain" })], [])))).toContain(
    "fresh weight",
  );
  expect(reason(whichCostMattersMost.run(moneyTrial(trays, [line({ item: "grain", packPrice: 0 })], [])))).toContain(
    "no line of costs.csv adds",
  );
});
