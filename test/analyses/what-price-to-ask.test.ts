import { expect, test } from "vitest";
import { whatPriceToAsk } from "../../analyses/prices/what-price-to-ask.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, demoMoneyTrial, moneyTrial, wordsOf } from "./money-books.ts";

/** one good tray of 100 g that cost 12.00, so a unit of 100 g costs 12.00 */
const trays = [tray({ dryGrams: 100, inoculatedOn: "2026-03-02", harvestedOn: "2026-04-11" })];
const twelve = [line({ item: "everything", packPrice: 12 })];
const market = { product: "bag", channel: "market place", grams: 100, feeFraction: 0.129, feeFixed: 0.3 };

test("cost 12.00, fee 12.9 % and 0.30: 26.12 to ask for 40 % margin, 14.13 to break even; arithmetic, exact 26.1146 and 14.1217", () => {
  const outcome = answerOf(
    whatPriceToAsk.run(moneyTrial(trays, twelve, [product({ ...market, targetMargin: 0.4, currentPrice: 20 })])),
  );
  expect(cellOf(outcome, "Price list", "bag", "price to ask")).toBe(26.12);
  expect(cellOf(outcome, "Price list", "bag", "break-even price")).toBe(14.13);
  // a price is in whole coins, and one below 14.1217 does not break even: the same one wherever it is said
  expect(outcome.estimates[0]!.value).toBe(14.13);
  assertClose(Number(cellOf(outcome, "Price list", "bag", "that as markup")), 0.6667, 0.00005);
  expect(cellOf(outcome, "Price list", "bag", "the price now")).toBe("below the target margin");
  expect(wordsOf(outcome.sentence)).toBe("Short of the target margin: bag, market place (now #, ask #).");
});

test("a margin that no price reaches is said, with the fee named on its base", () => {
  const outcome = answerOf(
    whatPriceToAsk.run(moneyTrial(trays, twelve, [product({ ...market, targetMargin: 0.9, currentPrice: 10 })])),
  );
  expect(cellOf(outcome, "Price list", "bag", "price to ask")).toBeNull();
  expect(cellOf(outcome, "Price list", "bag", "the price now")).toMatch(
    /^below the price floor; the fee leaves a margin below 87.1% at any price, however high/,
  );
  expect(cellOf(outcome, "What the channel", "bag", "charged on")).toBe("the price");
  expect(outcome.caveats.map(wordsOf).join(" ")).toContain(
    "no price reaches a margin of 90%, the fee leaves less than 87.1%",
  );
  // there is no price to ask, and the one that breaks even is no substitute for it
  expect(JSON.stringify(outcome.sentence)).not.toContain("ask ");
});

test("the front counts what has a price: none stated is not said to earn, and several below cost are all counted", () => {
  const frontOf = (...prices: (number | undefined)[]) => {
    const priced = prices.map((currentPrice, index) => {
      const { currentPrice: _, ...plain } = product({ ...market, product: `bag ${index}`, targetMargin: 0.2 });
      return currentPrice === undefined ? plain : { ...plain, currentPrice };
    });
    const { figure, short, next } = answerOf(whatPriceToAsk.run(moneyTrial(trays, twelve, priced)));
    return { figure, short: wordsOf(short!), act: next?.[0] && wordsOf(next[0].act) };
  };
  expect(frontOf(undefined, undefined)).toMatchObject({
    figure: { label: "without a price yet", value: 2, of: 2 },
    short: "For bag 0 ask #.",
    act: undefined,
  });
  expect(frontOf(50, undefined)).toMatchObject({
    figure: { label: "earn what they should", value: 1, of: 2 },
    short: "Those with a price cover cost and the margin you want.",
  });
  expect(frontOf(50)).toMatchObject({ short: "Every price covers cost and the margin you want." });
  // with a cost line missing a price can be said to cover no more than the others
  const rent = {
    sheet: "costs",
    name: "rent",
    reason: "6O",
    source: { file: "costs.csv", row: 3 },
    inUse: false,
  } as const;
  const [sold] = [{ ...product({ ...market, product: "bag", targetMargin: 0.2 }), currentPrice: 50 }];
  const said = answerOf(whatPriceToAsk.run({ ...moneyTrial(trays, twelve, [sold]), unread: [rent] }));
  expect(wordsOf(said.short!)).toBe("Every price covers the costs that could be read and the margin you want.");
  expect(wordsOf(said.sentence)).toMatch(/^Every price covers the costs that could be read and reaches/);
  expect(frontOf(5, 6, 50)).toMatchObject({
    figure: { label: "sold below cost", value: 2, of: 3 },
    act: "Reprice 2 products, bag 0 first.",
  });
});

test("where the cost of a gram leaves it open whether a price covers cost, the price is to be looked at, not changed", () => {
  // five trays of 60 to 140 g that cost 12 each: 12 for 100 g, and far less or more with another cook
  const cook = [60, 80, 100, 120, 140].map((dryGrams, index) =>
    tray({ trayId: `T${index}`, batch: "C1", dryGrams, inoculatedOn: "2026-03-02", harvestedOn: "2026-04-11" }),
  );
  const stepOf = (currentPrice: number) => {
    const bag = { ...product({ product: "bag", grams: 100 }), currentPrice };
    return answerOf(whatPriceToAsk.run(moneyTrial(cook, twelve, [bag]))).next?.map(({ act }) => wordsOf(act));
  };
  expect([stepOf(13), stepOf(11), stepOf(2)]).toEqual([
    undefined,
    ["Look again at the price of bag."],
    ["Reprice bag."],
  ]);
});

test("fixed 20,000, price 400, variable 250: 134 units; textbook arithmetic", () => {
  const outcome = answerOf(
    whatPriceToAsk.run(
      moneyTrial(
        trays,
        [
          line({ item: "mushrooms", packPrice: 250 }),
          line({ item: "rent", kind: "overhead", per: "month", packUnit: "month", packPrice: 20000 }),
        ],
        [product({ product: "crate", grams: 100, currentPrice: 400 })],
      ),
    ),
  );
  expect(cellOf(outcome, "What the prices now earn", "crate", "units a month to break even")).toBe(134);
  expect(cellOf(outcome, "What the prices now earn", "crate", "left over the cost of one more")).toBe(150);
});

test("per gram, tray and shelf day by hand: 8.00 over a cost of 12.00, 100 g, 40 days", () => {
  const outcome = answerOf(whatPriceToAsk.run(moneyTrial(trays, twelve, [product({ grams: 100, currentPrice: 20 })])));
  const earned = (column: string) => cellOf(outcome, "What the prices now earn", "dried slices", column);
  expect(earned("earned per unit")).toBe(8);
  assertClose(Number(earned("earned by weight")), 0.08, 1e-12);
  assertClose(Number(earned("earned per started tray")), 8, 1e-12);
  assertClose(Number(earned("earned per shelf day")), 0.2, 1e-12);
  expect(outcome.certainty).toBe("open");
});

test("a quantity step is priced from the price now, and the largest discount that covers cost is named", () => {
  const outcome = answerOf(
    whatPriceToAsk.run(
      moneyTrial(trays, twelve, [
        product({ grams: 100, currentPrice: 20, quantityDiscounts: [{ from: 10, discount: 0.15 }] }),
      ]),
    ),
  );
  const step = (column: string) => cellOf(outcome, "Prices for larger orders", "dried slices", column);
  expect(step("price of one")).toBe(17);
  expect(step("price of the order")).toBe(170);
  assertClose(Number(step("largest discount that covers full cost")), 0.4, 1e-12);
});

test("the demo book: every product is in the sentence's count, unit costs add up to the cent, interval holds the value", async () => {
  const outcome = answerOf(whatPriceToAsk.run(await demoMoneyTrial()));
  expect(outcome.estimates).toHaveLength(4);
  for (const { value, low, high } of outcome.estimates) {
    expect(low).toBeLessThan(value);
    expect(high).toBeGreaterThan(value);
  }
  const parts = outcome.tables.find(({ caption }) => caption.startsWith("What one sold unit costs"))!;
  for (const row of parts.rows) {
    const cents = row.slice(2, -1).map((cell) => Math.round(Number(cell) * 100));
    expect(cents.slice(0, -1).reduce((sum, cell) => sum + cell, 0)).toBe(cents.at(-1));
  }
  expect(outcome.charts).toHaveLength(1);
});

test("no costs, no products, nothing weighed: cannot tell, and says what is missing", () => {
  const { costLines: _, ...withoutCosts } = moneyTrial(trays, [], [product()]);
  const { products: __, ...withoutProducts } = moneyTrial(trays, twelve, []);
  const reasons = [
    withoutCosts,
    withoutProducts,
    moneyTrial(trays, [], [product()]),
    moneyTrial(trays, twelve, []),
    moneyTrial([tray({})], twelve, [product()]),
    moneyTrial([], twelve, [product()]),
    moneyTrial([tray({ outcome: "contaminated" })], twelve, [product()]),
  ].map((trial) => {
    const outcome = whatPriceToAsk.run(trial);
    return outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  });
  const start = "Cannot tell what price to ask: ";
  expect(reasons).toEqual([
    `${start}the book has no costs.csv.`,
    `${start}the book has no products.csv.`,
    `${start}costs.csv has no line that could be used.`,
    `${start}products.csv has no row that could be used.`,
    `${start}dried slices, web shop: no dry weights are recorded, so a gram of it has no cost.`,
    `${start}there are no trays.`,
    `${start}no finished tray was good, so there is nothing to carry the cost.`,
  ]);
});

test("where a cost line is left out, no less than what is said is to be asked", () => {
  const lost = { sheet: "costs", name: "gas", reason: "it cannot be read", inUse: false } as const;
  const said = (file: string) => {
    const unread = file === "" ? [] : [{ ...lost, source: { file, row: 4 } }];
    const sold = product({ ...market, targetMargin: 0.4, currentPrice: 12 });
    const outcome = answerOf(whatPriceToAsk.run({ ...moneyTrial(trays, twelve, [sold]), unread }));
    return [outcome.sentence, outcome.short!, outcome.next![0]!.because!].map(wordsOf);
  };
  expect(said("")).toEqual([
    "Sold below cost today: bag, market place (now #, ask #).",
    "Worst: bag, # now; it breaks even at #.",
    "# now, # to ask.",
  ]);
  expect(said("costs.csv")).toEqual([
    "Sold below cost today: bag, market place (now #, ask at least #).",
    "Worst: bag, # now; it breaks even above #.",
    "# now, at least # to ask.",
  ]);
});
