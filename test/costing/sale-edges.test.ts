import { expect, test } from "vitest";
import { type MarginUncertainty, simulateMargin } from "../../src/costing/products/margin-simulation.ts";
import { earningsAt, highestMargin, priceForMargin, type SaleTerms } from "../../src/costing/products/price.ts";
import { freshOrDried, rankForms } from "../../src/costing/products/product-forms.ts";
import { bestProductMix, type MakeInput, type MakePlan } from "../../src/costing/products/product-mix.ts";
import { solveSplit, solveWhole, type WholeProgramme } from "../../src/costing/products/whole-programme.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../agreement.ts";

// by hand

const plain: SaleTerms = {
  ...{ feeFraction: 0, feeFixed: 0, feeBase: "price", taxRate: 0, taxIncluded: false, shippingCharged: 0 },
};

test("every number of the terms of a sale that is out of its range is named by who asks", () => {
  const routines: [string, (terms: SaleTerms) => unknown][] = [
    ["highestMargin", (terms) => highestMargin(terms)],
    ["priceForMargin", (terms) => priceForMargin(1, terms, 0)],
    ["earningsAt", (terms) => earningsAt(1, 1, terms)],
  ];
  for (const [name, run] of routines) {
    expect(() => run({ ...plain, feeFraction: 1.01 })).toThrow(`${name}: feeFraction`);
    for (const amount of ["feeFixed", "taxRate", "shippingCharged"] as const)
      expect(() => run({ ...plain, [amount]: -0.01 })).toThrow(`${name}: ${amount}`);
    expect(() => run(plain)).not.toThrow();
  }
  expect(() => priceForMargin(1, plain, Number.NaN)).toThrow("priceForMargin: margin");
  expect(() => earningsAt(1, -1, plain)).toThrow("earningsAt: cost");
});

test("the margin no price passes is what the fee leaves of the price without tax", () => {
  expect(highestMargin(plain)).toBe(1);
  assertClose(highestMargin({ ...plain, feeFraction: 0.129 }), 0.871, 1e-12);
  // 10 % of a shown price that is one fifth tax is 12.5 % of the rest
  assertClose(highestMargin({ ...plain, feeFraction: 0.1, taxRate: 0.25, taxIncluded: true }), 0.875, 1e-12);
  assertClose(highestMargin({ ...plain, feeFraction: 0.1, taxRate: 0.25 }), 0.9, 1e-12);
  const ofAll = { ...plain, feeFraction: 0.1, taxRate: 0.25, feeBase: "price, shipping and tax" as const };
  assertClose(highestMargin(ofAll), 0.875, 1e-12);
});

test("a fee that takes the whole price leaves no price; shipping that pays for all leaves any", () => {
  const reason = (terms: Partial<SaleTerms>, margin = 0) => {
    const found = priceForMargin(1, { ...plain, ...terms }, margin);
    return found.kind === "price" ? found.price : found.reason;
  };
  expect(reason({ feeFraction: 1 })).toBe("the fee takes the whole price or more, so no price earns anything");
  expect(reason({ feeFraction: 0.9995 }, 0.5)).toContain("takes the whole price");
  expect(reason({ feeFraction: 0.999 }, 0.5)).toBe("the fee leaves a margin below 0.1% at any price, however high");
  expect(reason({ feeFraction: 0.125 }, 0.9)).toContain("below 87.5%");
  expect(reason({}, 1)).toContain("below 100%");
  expect(reason({ shippingCharged: 1 })).toBe(0);
  expect(reason({ shippingCharged: 9 })).toBe(0);
  expect(reason({ shippingCharged: 0.25 })).toBe(0.75);
  expect(reason({ feeFixed: 0.5 })).toBe(1.5);
  const free = earningsAt(1, 0, { ...plain, shippingCharged: 2 });
  expect(free).toMatchObject({ profit: 3, margin: 3, markup: Number.POSITIVE_INFINITY });
  expect(earningsAt(1, 0, plain).markup).toBe(Number.POSITIVE_INFINITY);
});

test("fresh against dried: what unsold fresh brings, what is equal, and when no ratio or share turns it", () => {
  const offer = { freshPerKg: 20, driedPerKg: 200, dryingRatio: 10, dryingCostPerKgFresh: 0 };
  expect(freshOrDried(offer)).toMatchObject({ fresh: 20, dried: 20, better: "equal" });
  expect(freshOrDried({ ...offer, freshPerKg: 20.0001 }).better).toBe("fresh");
  expect(freshOrDried({ ...offer, freshPerKg: 19.9999 }).better).toBe("dried");
  expect(freshOrDried({ ...offer, freshPerKg: 2e10, driedPerKg: 2e11 + 1 }).better).toBe("equal");
  expect(freshOrDried({ ...offer, freshSellThrough: 0.5, unsoldFreshPerKg: 2 }).fresh).toBe(11);
  expect(freshOrDried({ ...offer, driedSellThrough: 0.5 }).dried).toBe(10);
  const ratio = (facts: Partial<typeof offer>) => freshOrDried({ ...offer, ...facts }).breakEvenRatio;
  expect(ratio({ dryingCostPerKgFresh: 5 })).toEqual({ kind: "ratio", ratio: 8 });
  expect(ratio({ freshPerKg: 0 })).toMatchObject({ reason: expect.stringContaining("drying pays at any ratio") });
  expect(ratio({ driedPerKg: 0 })).toMatchObject({ reason: "dried brings nothing" });
  expect(ratio({ driedPerKg: -1 })).toMatchObject({ reason: "dried brings nothing" });
  const share = (facts: Parameters<typeof freshOrDried>[0]) => freshOrDried(facts).breakEvenSellThrough;
  expect(share({ ...offer, freshPerKg: 40 })).toEqual({ kind: "share", share: 0.5 });
  expect(share({ ...offer, unsoldFreshPerKg: 30, freshPerKg: 40 })).toEqual({ kind: "share", share: 0 });
  expect(share({ ...offer, unsoldFreshPerKg: 20 }).kind).toBe("cannot-tell");
  const named = ["freshPerKg", "driedPerKg", "unsoldFreshPerKg", "dryingRatio", "dryingCostPerKgFresh"] as const;
  for (const name of [...named, "freshSellThrough", "driedSellThrough"] as const)
    expect(() => freshOrDried({ ...offer, [name]: Number.NaN })).toThrow(`freshOrDried: ${name}`);
  const form = {
    name: "x",
    netPricePerKg: 1,
    freshPerKg: 1,
    processingLoss: 0,
    processingCostPerKgFresh: 0,
    sellThrough: 1,
  };
  for (const name of [
    "netPricePerKg",
    "freshPerKg",
    "processingLoss",
    "processingCostPerKgFresh",
    "sellThrough",
  ] as const)
    expect(() => rankForms([{ ...form, [name]: Number.NaN }])).toThrow(`rankForms: ${name}`);
  expect(rankForms([{ ...form, netPricePerKg: 10, sellThrough: 0.5, processingCostPerKgFresh: 2 }])).toEqual([
    { name: "x", perKgFresh: 3 },
  ]);
});

test("quantiles of a margin lie between order statistics, type 7: of 0 to 100 the share itself", () => {
  let turn = 0;
  const basis = { terms: plain, otherCostPerUnit: 0 };
  const rising: MarginUncertainty = {
    mushrooms: () => 100 - turn++,
    price: { low: 100, central: 100, high: 100 },
  };
  const found = simulateMargin(basis, rising, 101, seededRandom(1));
  assertClose(found.margin.q05, 0.05, 1e-12);
  assertClose(found.margin.q95, 0.95, 1e-12);
  expect(found.chanceCovered).toBe(1);
  expect("chanceTarget" in found).toBe(false);
  turn = 0;
  assertClose(simulateMargin(basis, rising, 100, seededRandom(1)).margin.q05, 0.0495, 1e-12);
});

test("a price that just covers cost covers it, one that just reaches the target reaches it; endless cost does neither", () => {
  const run = (mushrooms: (turn: number) => number, targetMargin?: number) => {
    let turn = 0;
    return simulateMargin(
      { terms: plain, otherCostPerUnit: 8, ...(targetMargin === undefined ? {} : { targetMargin }) },
      { mushrooms: () => mushrooms(turn++), price: { low: 16, central: 16, high: 16 } },
      100,
      seededRandom(1),
    );
  };
  expect(run(() => 8).chanceCovered).toBe(1);
  expect(run(() => 8.01).chanceCovered).toBe(0);
  expect(run(() => 4, 0.25).chanceTarget).toBe(1);
  expect(run(() => 4.01, 0.25)).toMatchObject({ chanceTarget: 0, chanceCovered: 1 });
  expect(run((turn) => (turn % 2 ? Number.POSITIVE_INFINITY : 18)).margin).toMatchObject({ q05: -0.625, q95: -0.625 });
  expect(run((turn) => (turn % 2 ? Number.POSITIVE_INFINITY : 4), 0.25)).toMatchObject({
    ...{ chanceCovered: 0.5, chanceTarget: 0.5 },
    margin: { q05: 0, q95: 0.25 },
  });
  // what is recovered on lost trays may pass their cost, but a unit costs no less than nothing
  expect(run(() => -20).margin.q05).toBe(1);
  expect(() => run(() => 4, 1)).toThrow("targetMargin");
  expect(() =>
    simulateMargin(
      { terms: plain, otherCostPerUnit: 0 },
      { mushrooms: () => 1, price: { low: 1, central: 1, high: 1 } },
      100.5,
      seededRandom(1),
    ),
  ).toThrow("draws");
});

const certain = (grams: number) => ({ low: grams, mid: grams, high: grams });
const bag = { name: "bag", grams: { fresh: 0, dried: 50 }, earns: 10, hours: 0.5 };
const month: MakeInput = {
  products: [bag],
  freshGrams: certain(0),
  driedGrams: 0,
  dryingRatio: 10,
  dryingCostPerKgFresh: 2,
  labourHours: 10,
};
const plan = (facts: Partial<MakeInput>): MakePlan => {
  const found = bestProductMix({ ...month, ...facts });
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  return found;
};

test("a month's plan by hand: what is made, dried and earned", () => {
  const trays = { shelfPlaces: 4, startsPerPlace: 0.75, freshGrams: certain(300), cost: 1, hours: 0.25 };
  const punnet = { name: "punnet", grams: { fresh: 200, dried: 0 }, earns: 25, hours: 0, maxUnits: 2.9 };
  const found = plan({ products: [bag, punnet], freshGrams: certain(520), driedGrams: 10, trays });
  // three trays give 900 g more: two punnets leave 1020 g, of which 900 g with the 10 g in stock make two bags
  expect(found).toMatchObject({
    units: [
      { name: "bag", units: 2, grams: 100, earns: 20 },
      { name: "punnet", units: 2, grams: 400, earns: 50 },
    ],
    traysStarted: 3,
    earned: 70,
    notSearched: 0,
  });
  assertClose(found.freshDried, 900, 1e-6);
  assertClose(found.hoursUsed, 1.75, 1e-12);
  assertClose(found.variableCost, 3 + 1.8, 1e-9);
  assertClose(found.contributionMargin, 70 - 4.8, 1e-9);
  const limit = (name: string) => found.limits.find((one) => one.limit === name)!;
  expect(limit("most units of punnet")).toMatchObject({ used: 2, available: 2.9, isBinding: true });
  expect(limit("shelf places")).toMatchObject({ used: 4, available: 4 });
  assertClose(limit("fresh grams").used, 1300, 1e-6);
  assertClose(limit("fresh grams").available, 1420, 1e-6);
  assertClose(limit("dried grams").used, 100, 1e-6);
  assertClose(limit("dried grams").available, 100, 1e-6);
  expect(limit("hours of work")).toMatchObject({ available: 10, isBinding: false, shadowPrice: 0 });
  expect(plan({ driedGrams: 75 })).toMatchObject({ traysStarted: 0, variableCost: 0 });
});

test("shelf places hold a plan back where no further tray can be started in what is left of them", () => {
  const places = (shelfPlaces: number) => {
    const trays = { shelfPlaces, startsPerPlace: 0.75, freshGrams: certain(600), cost: 1, hours: 0 };
    return plan({ trays }).limits.find(({ limit }) => limit === "shelf places")!;
  };
  expect(places(4)).toMatchObject({ used: 4, isBinding: true });
  expect(places(5)).toMatchObject({ used: 4, available: 5, isBinding: true }); // 3.75 trays: three
  assertClose(places(4).shadowPrice, 0.75 * (12 - 1.2 - 1), 1e-9);
});

test("places and grams hold a plan back where what is left of them makes no further unit; by hand", () => {
  // seven trays of 300 g make three units of 600 g in 6 trays; the seventh tray makes none, and is not started
  const trays = { shelfPlaces: 7, startsPerPlace: 1, freshGrams: certain(300), cost: 1, hours: 0 };
  const found = plan({ products: [{ name: "box", grams: { fresh: 600, dried: 0 }, earns: 9, hours: 0 }], trays });
  expect([found.traysStarted, found.units[0]!.units]).toEqual([6, 3]);
  for (const { limit, shadowPrice, isBinding } of found.limits) {
    expect([limit, isBinding]).toEqual([limit, shadowPrice > 1e-6]);
  }
  expect(found.limits.find(({ limit }) => limit === "shelf places")).toMatchObject({ used: 6, isBinding: true });
});

test("work holds a plan back where the least that anything takes no longer fits", () => {
  const hours = (labourHours: number) =>
    plan({ driedGrams: 1e6, labourHours }).limits.find(({ limit }) => limit === "hours of work")!;
  expect(hours(2)).toMatchObject({ used: 2, isBinding: true, shadowPrice: 20 });
  expect(hours(2.4)).toMatchObject({ used: 2, isBinding: true });
  // half an hour is left, in which something small would be made if there were grams for it
  const jar = { name: "jar", grams: { fresh: 0, dried: 1000 }, earns: 1, hours: 0.1 };
  const short = { products: [{ ...bag, hours: 1 }], driedGrams: 90, labourHours: 1.5 };
  expect(plan(short).limits[2]).toMatchObject({ used: 1, isBinding: true });
  expect(plan({ ...short, products: [...short.products, jar] }).limits[2]).toMatchObject({ used: 1, isBinding: false });
  const free = { ...bag, hours: 0, maxUnits: 3 };
  expect(plan({ products: [free], driedGrams: 1e6, labourHours: 0 }).limits[2]).toMatchObject({ isBinding: false });
});

test("every number of a plan that is out of its range is named", () => {
  const wrong = (facts: Partial<MakeInput>) => () => bestProductMix({ ...month, ...facts });
  const made = (facts: Partial<typeof bag> & { maxUnits?: number }) => wrong({ products: [{ ...bag, ...facts }] });
  expect(made({ grams: { fresh: -1, dried: 0 } })).toThrow("grams.fresh of bag");
  expect(made({ grams: { fresh: 0, dried: -1 } })).toThrow("grams.dried of bag");
  expect(made({ earns: Number.NaN })).toThrow("earns of bag");
  expect(made({ hours: -1 })).toThrow("hours of bag");
  expect(made({ maxUnits: -1 })).toThrow("maxUnits of bag");
  expect(made({ grams: { fresh: 0, dried: 0 }, hours: 0 })).toThrow("bag needs a limit, grams or hours");
  expect(made({ grams: { fresh: 0, dried: 0 }, hours: 0, maxUnits: 0 })).not.toThrow();
  expect(made({ grams: { fresh: 0, dried: 0 } })).not.toThrow();
  expect(made({ grams: { fresh: 1, dried: 0 }, hours: 0 })).not.toThrow();
  for (const name of ["driedGrams", "dryingRatio", "dryingCostPerKgFresh", "labourHours"] as const)
    expect(wrong({ [name]: -1 })).toThrow(`bestProductMix: ${name}`);
  for (const end of ["low", "mid", "high"] as const)
    expect(wrong({ freshGrams: { ...certain(1), [end]: -1 } })).toThrow(`freshGrams.${end}`);
  expect(wrong({ freshGrams: { low: 1, mid: 3, high: 2 } })).toThrow("must rise from low to high");
  const trays = { shelfPlaces: 1, startsPerPlace: 1, freshGrams: certain(1), cost: 1, hours: 1 };
  for (const name of ["shelfPlaces", "startsPerPlace", "cost", "hours"] as const)
    expect(wrong({ trays: { ...trays, [name]: -1 } })).toThrow(`trays.${name}`);
  expect(wrong({ trays: { ...trays, freshGrams: { low: 2, mid: 1, high: 3 } } })).toThrow("trays.freshGrams");
});

// a knapsack: weights 5, 4 and 3, worth 10, 9 and 6, in a bag of 7: split 9 + 6 = 15 is whole already, of 8: 10 + 6 = 16
const knapsack = (size: number, whole = ["a", "b", "c"]): WholeProgramme => ({
  variables: {
    a: { money: 10, weight: 5, a: 1 },
    b: { money: 9, weight: 4, b: 1 },
    c: { money: 6, weight: 3, c: 1 },
  },
  objective: "money",
  limits: { weight: size, a: 1, b: 1, c: 1 },
  whole,
});

test("a small knapsack, split and whole", () => {
  assertClose(solveSplit(knapsack(8))!.value, 9 + 8, 1e-9);
  const found = solveWhole(knapsack(8), 100);
  assertClose(found.value, 16, 1e-9);
  assertClose(found.bound, 16, 1e-9);
  expect(["a", "b", "c"].map((name) => Math.round(found.of(name)))).toEqual([1, 0, 1]);
  expect(found.of("d")).toBe(0);
  assertClose(solveWhole(knapsack(7), 100).value, 15, 1e-9);
  assertClose(solveWhole(knapsack(8, []), 100).value, 17, 1e-9);
  expect(solveSplit(knapsack(8), [{ name: "a", at: "least", value: 2 }])).toBeUndefined();
  assertClose(solveSplit(knapsack(8), [{ name: "b", at: "most", value: 0 }])!.value, 16, 1e-9);
  assertClose(solveSplit(knapsack(8), [{ name: "c", at: "least", value: 1 }])!.value, 9 + 6 + 2, 1e-9);
  expect(() => solveSplit({ ...knapsack(8), limits: {} })).toThrow("nothing limits what can be made");
  expect(() => solveWhole({ ...knapsack(8), limits: { weight: -1 } }, 100)).toThrow("has no solution");
});

test("a search that is ended early says how much more there could be", () => {
  const cut = solveWhole(knapsack(8), 1);
  expect(cut.bound).toBeGreaterThan(cut.value);
  assertClose(cut.bound, 17, 1e-9);
});
