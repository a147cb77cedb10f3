import { expect, test } from "vitest";
import { freshOrDriedAnalysis } from "../../analyses/prices/fresh-or-dried.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { figureText } from "../../src/report/front/figure-text.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";

/** drying ratio exactly 9 in each of four cooks */
const trays = ["A", "B", "C", "D"].flatMap((batch) =>
  [80, 100].map((dryGrams) => tray({ batch, dryGrams, freshGrams: 9 * dryGrams })),
);
const costs = [
  line({ item: "substrate", packPrice: 2 }),
  line({ item: "drying", kind: "energy", per: "kg fresh", stage: "drying", packPrice: 1.2 }),
];
const fresh = product({ product: "fresh", form: "fresh", grams: 1000, currentPrice: 30 });
const dried = product({ product: "dried", grams: 1000, currentPrice: 260 });

test("fresh 30 a kg against dried 260 at a ratio of 9, drying 1.20: 27.69, so fresh; turns at 8.33; arithmetic", () => {
  const outcome = answerOf(freshOrDriedAnalysis.run(moneyTrial(trays, costs, [fresh, dried])));
  expect(wordsOf(outcome.sentence)).toMatch(
    /^Sell it fresh: a kilogram of fresh brings # as fresh, web shop \(# of it sold\) and # as dried, web shop\. Drying pays/,
  );
  expect(outcome.sentence).toContainEqual({ value: 1, unit: "share" });
  assertClose(Number(cellOf(outcome, "What fresh mushrooms", "dried, web shop", "brings")), 27.69, 0.005);
  assertClose(Number(cellOf(outcome, "What fresh mushrooms", "fresh, web shop", "brings")), 30, 1e-9);
  assertClose(Number(cellOf(outcome, "Where the answer turns", "fresh, web shop", "drying pays below")), 8.33, 0.005);
  assertClose(outcome.estimates[0]!.value, 27.6889 - 30, 0.0001);
  assertClose(outcome.estimates[1]!.value, 9, 1e-12);
  expect(outcome.certainty).toBe("settled");
});

test("unsold fresh turns it: below 92.3 % sold drying pays, by hand 27.69 over 30", () => {
  const outcome = answerOf(freshOrDriedAnalysis.run(moneyTrial(trays, costs, [{ ...fresh, sellThrough: 0.9 }, dried])));
  expect(wordsOf(outcome.sentence)).toMatch(/^Dry it/);
  assertClose(
    Number(cellOf(outcome, "Where the answer turns", "fresh, web shop", "fresh pays above a share of")),
    0.923,
    0.0005,
  );
  // the other turning points: the ratio at which both bring 27.00, and the dried price
  assertClose(
    Number(cellOf(outcome, "Where the answer turns", "fresh, web shop", "drying pays below")),
    260 / 28.2,
    1e-9,
  );
  assertClose(
    Number(cellOf(outcome, "Where the answer turns", "fresh, web shop", "drying pays above")),
    28.2 * 9,
    1e-9,
  );
  assertClose(
    Number(cellOf(outcome, "Where the answer turns", "fresh, web shop", "drying pays below a cost of")),
    260 / 9 - 27,
    1e-9,
  );
});

test("drying from the settings counts the same as a cost line", () => {
  const stated = moneyTrial(trays, costs.slice(0, 1), [fresh, dried], { dryingCostPerKgFresh: 1.2 });
  const outcome = answerOf(freshOrDriedAnalysis.run(stated));
  expect(outcome.sentence).toContainEqual({ value: 1, unit: "share" });
  assertClose(Number(cellOf(outcome, "What fresh mushrooms", "dried, web shop", "brings")), 27.69, 0.005);
});

test("a drying ratio that differs between cooks leaves the answer open where it could turn", () => {
  const ratios = [8, 8.2, 8.4, 9.2, 7.9];
  const varied = ratios.flatMap((ratio, cook) =>
    [80, 100].map((dryGrams) => tray({ batch: `C${cook}`, dryGrams, freshGrams: ratio * dryGrams })),
  );
  const outcome = answerOf(freshOrDriedAnalysis.run(moneyTrial(varied, costs, [fresh, dried])));
  expect(outcome.certainty).toBe("leaning");
  expect(outcome.estimates[1]!.n).toBe(5);
  expect(outcome.estimates[1]!.nUnit).toBe("cooks");
});

test("no fresh product, no dried product, no tray weighed both ways: cannot tell", () => {
  const reason = (outcome: ReturnType<typeof freshOrDriedAnalysis.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  expect(reason(freshOrDriedAnalysis.run(moneyTrial(trays, costs, [dried])))).toContain(
    "no fresh product with a price",
  );
  expect(reason(freshOrDriedAnalysis.run(moneyTrial(trays, costs, [fresh])))).toContain(
    "no dried product with a price",
  );
  const onlyDry = [tray({ dryGrams: 90 })];
  expect(reason(freshOrDriedAnalysis.run(moneyTrial(onlyDry, costs, [fresh, dried])))).toContain(
    "weighed both fresh and dried",
  );
  const lacking = freshOrDriedAnalysis.run(moneyTrial(trays, costs, [dried]));
  // what a fresh product would have to bring
  if (lacking.kind !== "cannot-tell") throw new Error("an answer");
  const asked = lacking.wouldSettle.find((part) => typeof part !== "string" && "value" in part);
  assertClose((asked as { value: number }).value, 27.69, 0.005);
});

test("in ounces and pounds the sentence, the front and the table give one value", () => {
  const trial = moneyTrial(trays, costs, [fresh, dried], { displayUnits: "us", currency: "USD", locale: "en-US" });
  const outcome = answerOf(freshOrDriedAnalysis.run(trial));
  // 30 a kilogram is 13.61 a pound of 453.59237 g (16 CFR 500.19)
  expect(sentenceText(outcome.sentence, trial.settings)).toContain("a pound of fresh brings $13.61");
  expect(outcome.figure?.label).toBe("a fresh pound brings, sold fresh");
  expect(figureText(outcome.figure!, trial.settings).large).toBe("$13.61");
});
