import { expect, test } from "vitest";
import { whatToMakeAnalysis } from "../../analyses/prices/what-to-make.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";

/** ten places, 30 days a tray, thirty-day months: ten trays a month of 1000 g fresh each; a tray costs 1.00 */
const trays = ["A", "B", "C"].flatMap((batch) =>
  [1, 2].map(() =>
    tray({ batch, freshGrams: 1000, dryGrams: 100, inoculatedOn: "2026-04-01", harvestedOn: "2026-05-01" }),
  ),
);
const costs = [line({ item: "substrate", packPrice: 1 })];
const stated = { shelfPlaces: 10, labourHoursPerMonth: 10 };
const punnet = product({ product: "punnet", form: "fresh", grams: 500, currentPrice: 5, maxUnitsPerMonth: 12 });
const worth = (outcome: ReturnType<typeof answerOf>, limit: string) =>
  cellOf(outcome, "What holds the month back", limit, "one more is worth");

test("demand limits: twelve punnets of 5.00 from six trays of 1.00 leave 54.00; one more punnet is worth 4.50; by hand", () => {
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, costs, [punnet], stated)));
  expect(cellOf(outcome, "What to make in a month", "punnet, web shop", "in a usual month")).toBe(12);
  expect(cellOf(outcome, "The month in three cases", "usual", "trays to start")).toBe(6);
  assertClose(outcome.estimates[0]!.value, 54, 1e-9);
  assertClose(Number(worth(outcome, "most units of punnet, web shop")), 4.5, 1e-9);
  assertClose(Number(worth(outcome, "tray places")), 0, 1e-9);
  expect(wordsOf(outcome.sentence)).toContain("held back by how many can be sold of 1 product");
  expect(outcome.certainty).toBe("settled");
});

test("places limit: without a limit of demand all ten trays make twenty punnets, and one more place is worth 9.00; by hand", () => {
  const { maxUnitsPerMonth: _, ...unlimited } = punnet;
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, costs, [unlimited], stated)));
  assertClose(outcome.estimates[0]!.value, 90, 1e-9);
  assertClose(Number(worth(outcome, "tray places")), 9, 1e-9);
  assertClose(Number(worth(outcome, "fresh grams")), 0.01, 1e-9);
  expect(outcome.caveats.map(wordsOf).join(" ")).toContain("No limit is stated for punnet");
});

test("hours limit: half an hour a punnet and five hours make ten punnets from five trays; one more hour is worth 9.00; by hand", () => {
  const outcome = answerOf(
    whatToMakeAnalysis.run(
      moneyTrial(trays, costs, [{ ...punnet, minutes: 30 }], { ...stated, labourHoursPerMonth: 5 }),
    ),
  );
  assertClose(outcome.estimates[0]!.value, 45, 1e-9);
  assertClose(Number(worth(outcome, "hours of work")), 9, 1e-9);
});

test("weighed dry only: the plan counts in dried grams and drying is paid once; by hand", () => {
  const dry = trays.map(({ freshGrams: _, ...rest }) => rest);
  const drying = line({ item: "drying", per: "kg dried", packPrice: 10, stage: "drying" });
  const bag = product({ product: "bag", grams: 50, currentPrice: 6 });
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(dry, [...costs, drying], [bag], stated)));
  // ten trays of 100 g make twenty bags: 20 x 6.00 - 10 x (1.00 + 0.1 kg x 10.00)
  assertClose(outcome.estimates[0]!.value, 100, 1e-9);
});

test("cooks that differ widen the month's range, and the range holds the middle", () => {
  const varied = trays.map((one, index) => ({ ...one, freshGrams: 700 + 120 * Math.floor(index / 2) }));
  const { maxUnitsPerMonth: _, ...unlimited } = punnet;
  const { value, low, high, n, nUnit } = answerOf(
    whatToMakeAnalysis.run(moneyTrial(varied, costs, [unlimited], stated)),
  ).estimates[0]!;
  expect(low).toBeLessThan(value);
  expect(high).toBeGreaterThan(value);
  expect([n, nUnit]).toEqual([3, "cooks"]);
});

test("nothing that brings its cost, no dates, no price: said", () => {
  const poor = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, costs, [{ ...punnet, currentPrice: 0.2 }], stated)));
  expect(wordsOf(poor.sentence)).toContain("nothing is worth making");
  const undated = trays.map(({ inoculatedOn: _, harvestedOn: __, ...rest }) => rest);
  const reason = (outcome: ReturnType<typeof whatToMakeAnalysis.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  expect(reason(whatToMakeAnalysis.run(moneyTrial(undated, costs, [punnet], stated)))).toContain("no dates");
  const { currentPrice: ___, ...priceless } = punnet;
  expect(reason(whatToMakeAnalysis.run(moneyTrial(trays, costs, [priceless], stated)))).toContain(
    "no product has a price",
  );
});
