import { expect, test } from "vitest";
import { whatToMakeAnalysis } from "../../analyses/prices/what-to-make.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";

/** ten places, 30 days a tray, months of 365.25/12 days: ten whole trays a month of 1000 g fresh each; a tray costs 1.00 */
const trays = ["A", "B", "C"].flatMap((batch) =>
  [1, 2].map(() =>
    tray({ batch, freshGrams: 1000, dryGrams: 100, inoculatedOn: "2026-04-01", harvestedOn: "2026-05-01" }),
  ),
);
const costs = [line({ item: "substrate", packPrice: 1 })];
const stated = { shelfPlaces: 10, labourHoursPerMonth: 10 };
const punnet = product({ product: "punnet", form: "fresh", grams: 500, currentPrice: 5, maxUnitsPerMonth: 12 });
const worth = (outcome: ReturnType<typeof answerOf>, limit: string) =>
  cellOf(outcome, "What limits the month", limit, "one more is worth a month");

test("demand limits: twelve punnets of 5.00 from six trays of 1.00 bring 54.00; one more punnet is worth 4.50; by hand", () => {
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, costs, [punnet], stated)));
  expect(cellOf(outcome, "What to make in a month", "punnet, web shop", "in a usual month")).toBe(12);
  expect(cellOf(outcome, "The month in three cases", "usual", "trays to start")).toBe(6);
  assertClose(outcome.estimates[0]!.value, 54, 1e-9);
  assertClose(Number(worth(outcome, "most units of punnet, web shop")), 4.5, 1e-9);
  assertClose(Number(worth(outcome, "shelf places")), 0, 1e-9);
  expect(wordsOf(outcome.sentence)).toContain("limited by how many can be sold of 1 product");
  expect(wordsOf(outcome.sentence)).toMatch(/^In a month most is earned by making 12/); // four places stand empty
  expect(outcome.certainty).toBe("settled");
});

test("places limit: without a limit of demand all ten trays make twenty punnets, and one more place for a month is worth 9.00 for each of its 1.0146 fillings; by hand", () => {
  const { maxUnitsPerMonth: _, ...unlimited } = punnet;
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, costs, [unlimited], stated)));
  assertClose(outcome.estimates[0]!.value, 90, 1e-9);
  assertClose(Number(worth(outcome, "shelf places")), (9 * 365.25) / 12 / 30, 1e-9);
  assertClose(Number(worth(outcome, "fresh grams")), 0.01, 1e-9);
  expect(wordsOf(outcome.sentence)).toMatch(/^In a month with the shelves kept filled, most is earned by making 20/);
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
    outcome.kind === "cannot-tell" ? `${wordsOf(outcome.reason)} ${outcome.missing?.need}` : "an answer";
  expect(reason(whatToMakeAnalysis.run(moneyTrial(undated, costs, [punnet], stated)))).toContain("no dates");
  const { currentPrice: ___, ...priceless } = punnet;
  expect(reason(whatToMakeAnalysis.run(moneyTrial(trays, costs, [priceless], stated)))).toContain(
    "a target margin). a product with its price",
  );
});

test("a month's profit: what units bring, less what varies, less the whole of what is paid anyway; by hand", () => {
  const rent = line({ item: "rent", kind: "space", per: "shelf day", packPrice: 3, packSize: 300, packUnit: "day" });
  const phone = line({ item: "phone", kind: "overhead", per: "month", packPrice: 7 });
  const outcome = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, [...costs, rent, phone], [punnet], stated)));
  // 12 x 5.00 less 6 x 1.00; rent of 0.01 for ten places and a month, though six are filled, and the phone
  const paid = 0.01 * 10 * (365.25 / 12) + 7;
  assertClose(outcome.estimates[0]!.value, 54 - paid, 1e-9);
  const usual = (column: string) => Number(cellOf(outcome, "The month in three cases", "usual", column));
  assertClose(usual("units bring") - usual("growing and drying"), usual("contribution margin"), 1e-9);
  assertClose(usual("contribution margin") - usual("paid anyway"), usual("profit before your own time"), 1e-9);
  assertClose(usual("paid anyway"), paid, 1e-9);
});

test("a month that costs more than it brings is said to lose least, not to earn most", () => {
  const rent = line({ item: "rent", packPrice: 500, per: "month" });
  const { sentence, short } = answerOf(whatToMakeAnalysis.run(moneyTrial(trays, [...costs, rent], [punnet], stated)));
  expect(wordsOf(sentence)).toContain("least is lost by making");
  expect(wordsOf(short!)).toContain("lose least");
});
