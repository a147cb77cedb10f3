import { expect, test } from "vitest";
import { breakEvenMix, breakEvenUnits } from "../../src/costing/products/break-even.ts";
import { type GradedUnit, jointCostFactors } from "../../src/costing/products/joint-cost.ts";
import { goingPrice, makeProduct, netPricePerGram } from "../../src/costing/products/make-product.ts";
import { type PricedProduct, priceList } from "../../src/costing/products/price-list.ts";
import { madeOfWhat, unitCost } from "../../src/costing/products/unit-cost.ts";
import type { GramRates, TrayYield } from "../../src/costing/trays/book-rates.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Product } from "../../src/records/product.ts";
import { assertClose } from "../agreement.ts";
import { line, product, settings } from "./sample-records.ts";

// by hand

const rates: GramRates = {
  full: { fresh: 0.02, dried: 0.2 },
  "without owner labour": { fresh: 0.015, dried: 0.15 },
  variable: { fresh: 0.01, dried: 0.1 },
};
const owner = settings({ ownerLabourRate: 30 });
const unitOf = (facts: Partial<Product>, costLines: CostLine[] = [], others: Product[] = [], by = rates) => {
  const made = product(facts);
  return unitCost(made, { rates: by, costLines, products: [made, ...others], settings: owner });
};
const reasonOf = (...of: Parameters<typeof unitOf>) => {
  const unit = unitOf(...of);
  return unit.kind === "cannot-tell" ? unit.reason : "a cost";
};
const fullOf = (...of: Parameters<typeof unitOf>) => {
  const unit = unitOf(...of);
  return unit.kind === "cannot-tell" ? unit.reason : unit.full;
};
const perTray: TrayYield = { fresh: 300, dried: 30, shelfDays: 60, labourHours: 0.5 };
const priced = (facts: Partial<Product>, tray: TrayYield | undefined = perTray): PricedProduct => {
  const [row] = priceList({
    ...{ products: [product(facts)], rates, costLines: [], settings: owner, fixedCostPerMonth: 120 },
    ...(tray === undefined ? {} : { perTray: tray }),
  });
  if (row!.priced.kind === "cannot-tell") throw new Error(row!.priced.reason);
  return row!.priced;
};

test("every number of a product that is out of its range is named with product and row", () => {
  const where = 'product "dried slices" (products.csv row 2): ';
  for (const name of ["packagingCost", "minutes", "shippingCost", "shippingCharged", "feeFixed", "taxRate"] as const) {
    expect(() => unitOf({ [name]: -0.01 }), name).toThrow(`${where}${name} must be a number of 0 or more`);
  }
  expect(() => unitOf({ grams: 0 })).toThrow(`${where}grams must be a number above 0`);
  expect(() => unitOf({ madeOf: [], grams: -1 })).toThrow(`${where}grams must be a number of 0 or more`);
  expect(() => unitOf({ processingLoss: 1 })).toThrow(`${where}processingLoss`);
  for (const sellThrough of [-0.1, 1.1, Number.NaN])
    expect(() => unitOf({ sellThrough })).toThrow(`${where}sellThrough must be a share from 0 to 1`);
  expect(reasonOf({ sellThrough: 0 })).toBe("nothing of what is made is sold");
  expect(reasonOf({ madeOf: [], grams: 0 })).toBe("a cost");
});

test("a form says what a product is made of, unless the sheet does; another form has to say it", () => {
  const of = (facts: Partial<Product>) => madeOfWhat(product(facts));
  expect(of({ form: "fresh" })).toBe("fresh");
  expect(of({ form: "dried" })).toBe("dried");
  expect(of({ form: "powder" })).toBe("dried");
  expect(of({ form: "other" })).toBeUndefined();
  expect(of({ form: "fresh", madeOf: "dried" })).toBe("dried");
  expect(of({ form: "dried", madeOf: "fresh" })).toBe("fresh");
  expect(of({ form: "other", madeOf: [] })).toBe("parts");
});

test("a gram without a cost in any scope gives no cost, by the weight it is of", () => {
  const dry = "no dry weights are recorded, so a gram of it has no cost";
  for (const scope of ["full", "without owner labour", "variable"] as const)
    expect(reasonOf({}, [], [], { ...rates, [scope]: { fresh: 1 } })).toBe(dry);
  expect(reasonOf({ form: "fresh" }, [], [], { ...rates, full: { dried: 1 } })).toContain("no fresh weights");
  const graded = unitOf({ form: "fresh", grade: "prime" });
  expect(graded).toMatchObject({ madeOf: "fresh", grams: { fresh: 50, dried: 0 } });
  expect(graded.kind === "unit-cost" && graded.parts[0]).toEqual({ item: "mushrooms, fresh, prime", amount: 1 });
  expect(unitOf({}).kind === "unit-cost" && unitOf({})).toMatchObject({ grams: { fresh: 0, dried: 50 } });
});

test("a part is a cost line at the price that holds now, or another product; else its name is said", () => {
  const kit = (...madeOf: { name: string; count: number }[]) => ({ form: "other" as const, grams: 0, madeOf });
  const label = line({ item: "label", packPrice: 1 });
  const work = line({ item: "packing", kind: "labour", packPrice: 2, ownerLabour: true });
  const rent = line({ item: "rent", kind: "overhead", packPrice: 4 });
  expect(unitOf(kit({ name: " LABEL ", count: 3 }), [label])).toMatchObject({
    ...{ full: 3, withoutOwnerLabour: 3, variable: 3 },
  });
  expect(fullOf(kit({ name: "label", count: 1 }), [label, { ...label, packPrice: 5, fromDate: "2026-01-01" }])).toBe(5);
  expect(fullOf(kit({ name: "label", count: 1 }), [{ ...label, packPrice: 5, fromDate: "2026-01-01" }, label])).toBe(5);
  expect(fullOf({ ...kit({ name: "label", count: 1 }), sellThrough: 0.5 }, [label])).toBe(2);
  expect(
    unitOf(kit({ name: "packing", count: 1 }, { name: "rent", count: 1 }, { name: "label", count: 1 }), [
      label,
      work,
      rent,
    ]),
  ).toMatchObject({ full: 7, withoutOwnerLabour: 5, variable: 1, mushrooms: 0, mushroomsVariable: 0 });
  expect(reasonOf(kit({ name: "frame", count: 1 }), [line({ item: "frame", kind: "reusable" })])).toBe(
    "frame: a reusable needs to say how long it lasts",
  );
  expect(reasonOf({}, [line({ item: "frame", kind: "reusable", per: "unit sold" })])).toBe(
    "frame: a reusable needs to say how long it lasts",
  );
  const unsold = product({ product: "sachet", sellThrough: 0 });
  expect(reasonOf(kit({ name: "sachet", count: 1 }), [], [unsold])).toBe("sachet: nothing of what is made is sold");
  const sachet = product({ product: "sachet", grams: 10, shippingCost: 3, minutes: 2 });
  expect(unitOf(kit({ name: "Sachet", count: 2 }), [], [sachet])).toMatchObject({
    ...{ full: 6, withoutOwnerLabour: 3, variable: 2, mushrooms: 4, mushroomsVariable: 2 },
    grams: { fresh: 0, dried: 20 },
  });
  expect(reasonOf(kit({ name: "dried slices", count: 1 }))).toContain("neither a cost line nor a product");
});

test("a line per unit sold that a product names as a part does not count twice; nor does one that no longer holds", () => {
  const label = line({ item: "Label", per: "unit sold", packPrice: 1 });
  const kit = { form: "other" as const, grams: 0, madeOf: [{ name: "label", count: 2 }] };
  expect(fullOf(kit, [label])).toBe(2);
  expect(fullOf(kit, [label, { ...label, item: "bag" }])).toBe(3);
  expect(fullOf({ grams: 50 }, [label])).toBe(11);
  expect(fullOf({ grams: 50 }, [{ ...label, per: "tray" }])).toBe(10);
  expect(fullOf({ grams: 50 }, [{ ...label, onlyWhereColumn: " Channel ", onlyWhereValue: undefined }])).toBe(10);
  expect(fullOf({ grams: 50, channel: "" }, [{ ...label, onlyWhereColumn: "channel" }])).toBe(11);
});

test("joint cost by value: a price too low to pay its own packing brings nothing; nothing of value shares by weight", () => {
  const graded = (grade: string | undefined, gradeShare: number | undefined, price?: number, full = 10): GradedUnit => {
    const made = product({ grade, gradeShare, currentPrice: price, grams: 10 });
    const unit = unitOf({ grams: 10 });
    if (unit.kind === "cannot-tell") throw new Error(unit.reason);
    return { product: made, unit: { ...unit, full, mushrooms: 2, gramsNeeded: 10 } };
  };
  const factors = (...units: GradedUnit[]) => jointCostFactors(units, "value");
  // prime brings 28 - 8 = 20 for 10 g, broken 18 - 8 = 10: the mean of half each is 1.5 a gram
  const [prime, broken] = [graded("Prime", 0.5, 28), graded("broken", 0.5, 18)];
  expect(factors(prime, broken)).toEqual([2 / 1.5, 1 / 1.5]);
  expect(jointCostFactors([prime, broken], "weight")).toEqual([1, 1]);
  // a grade in two packs brings the mean of both, whatever the case of its name
  expect(factors(prime, graded(" prime", 0.5, 48), broken)).toEqual([3 / 2, 3 / 2, 1 / 2]);
  expect(factors(prime, graded("broken", 0.5, 5))).toEqual([2, 0]);
  expect(factors(graded("prime", 0.5, 5), graded("broken", 0.5, 5))).toEqual([1, 1]);
  expect(factors(prime, graded("broken", 0.5))).toEqual([1, 1]);
  expect(factors(prime, graded("broken", 0.5, 0))).toEqual([1, 1]);
  expect(factors(graded(undefined, undefined, 28), graded(undefined, undefined, 18))).toEqual([1, 1]);
  // the rest of the weight is under no grade; shares above a whole leave none
  expect(factors(prime, graded(undefined, undefined, 18))).toEqual([2 / 1.5, 1 / 1.5]);
  expect(factors(graded("prime", 1.5, 28), graded(undefined, undefined, 18))).toEqual([2 / 3, 1 / 3]);
  expect(factors(prime, graded("broken", undefined, 18))).toEqual([2, 1]);
  // other cost cannot be below nothing
  expect(factors(graded("prime", 0.5, 20, 1), graded("broken", 0.5, 10, 1))).toEqual([2 / 1.5, 1 / 1.5]);
});

test("units that just cover fixed cost: a hair over a whole number is that number, and no unit that leaves nothing does", () => {
  expect(breakEvenUnits(100, 15, 5)).toEqual({ kind: "units", units: 10 });
  expect(breakEvenUnits(101, 15, 5)).toMatchObject({ units: 11 });
  expect(breakEvenUnits(0.7, 0.1, 0)).toMatchObject({ units: 7 });
  expect(breakEvenUnits(7e9, 0.1, 0)).toMatchObject({ units: 7e10 });
  expect(breakEvenUnits(100, 5, 6).kind).toBe("cannot-tell");
  expect(() => breakEvenUnits(1, Number.NaN, 0)).toThrow("netPrice");
  expect(() => breakEvenUnits(1, 1, Number.POSITIVE_INFINITY)).toThrow("variableCost");
  const mix = (fixed: number, ...of: [number, number][]) =>
    breakEvenMix(
      fixed,
      of.map(([contribution, expectedUnits]) => ({ contribution, expectedUnits })),
    );
  expect(mix(0, [5, 2])).toMatchObject({ shareOfExpected: 0, units: [0] });
  expect(mix(21, [5, 2], [10, 1])).toMatchObject({ shareOfExpected: 1.05, units: [3, 2] });
  expect(mix(21, [-5, 2], [10, 1]).kind).toBe("cannot-tell");
  expect(mix(6, [-5, 1], [10, 1])).toMatchObject({ shareOfExpected: 1.2, units: [2, 2] });
  expect(() => mix(-1, [5, 2])).toThrow("fixedCost");
  expect(() => mix(1, [5, -2])).toThrow("expectedUnits");
  expect(() => mix(1, [Number.NaN, 2])).toThrow("contribution");
});

test("what a price earns: figures for what is recorded, and no others", () => {
  const current = (facts: Partial<Product>, tray?: TrayYield) => {
    const found = priced({ currentPrice: 20, ...facts }, tray).current;
    if (!("price" in found)) throw new Error(found.reason);
    return found;
  };
  expect(current({})).toMatchObject({ profit: 10, profitPerGram: 0.2, profitPerTray: 6, profitPerShelfDay: 0.1 });
  expect(current({ form: "fresh" })).toMatchObject({ profit: 19, profitPerTray: 114 });
  const bare = (tray: TrayYield) => current({}, tray);
  expect("profitPerTray" in bare({ fresh: 300, labourHours: 0 })).toBe(false);
  expect("profitPerShelfDay" in bare({ dried: 30, labourHours: 0 })).toBe(false);
  expect("profitPerShelfDay" in bare({ dried: 30, shelfDays: 0, labourHours: 0 })).toBe(false);
  expect(bare({ dried: 30, shelfDays: 0, labourHours: 0 }).profitPerTray).toBe(6);
  expect(current({}).breakEvenUnits).toMatchObject({ units: 8 }); // 120 over 20 - 5
  const none = priceList({
    products: [product({ currentPrice: 20 })],
    rates,
    costLines: [],
    settings: owner,
    fixedCostPerMonth: 0,
  });
  expect(none[0]!.priced).toMatchObject({ current: { profit: 10 } });
  expect(none[0]!.priced).not.toHaveProperty("current.profitPerTray");
  expect(() => priceList({ products: [], rates, costLines: [], settings: owner, fixedCostPerMonth: -1 })).toThrow(
    "fixedCostPerMonth",
  );
});

test("discounts go off the current price, or off the listed one where there is none; off nothing where there is neither", () => {
  const steps = {
    quantityDiscounts: [
      { from: 1, discount: 0 },
      { from: 5, discount: 0.1 },
    ],
  };
  const prices = (facts: Partial<Product>) => priced({ ...steps, ...facts }).quantities.map((one) => one.price);
  expect(prices({ currentPrice: 20 })).toEqual([20, 18]);
  expect(prices({ targetMargin: 0.5 })).toEqual([20, 18]);
  expect(prices({ currentPrice: 30, targetMargin: 0.5 })).toEqual([30, 27]);
  expect(prices({ currentPrice: 0, targetMargin: 0.5 })).toEqual([20, 18]);
  expect(prices({})).toEqual([]);
  expect(priced({ quantityDiscounts: undefined, currentPrice: 20 }).quantities).toEqual([]);
  // 10 g at 0.20 and 0.10: the fee takes all, so no discount leaves anything
  expect(priced({ ...steps, currentPrice: 20, feeFraction: 1 }).quantities[0]).toMatchObject({
    ...{ largestDiscountAtFullCost: 0, largestDiscountAtVariableCost: 0 },
  });
});

test("a product in the month's plan goes by its channel, and needs something that limits it", () => {
  const made = (facts: Partial<Product>, costLines: CostLine[] = []) => {
    const [row] = priceList({ products: [product(facts)], rates, costLines, settings: owner, fixedCostPerMonth: 0 });
    if (row!.priced.kind === "cannot-tell") throw new Error(row!.priced.reason);
    const found = makeProduct(row!.priced);
    return found.kind === "cannot-tell" ? found.reason : found.product;
  };
  expect(made({ currentPrice: 20 })).toEqual({
    ...{ name: "dried slices, web shop", grams: { fresh: 0, dried: 50 }, earns: 20, hours: 0 },
  });
  expect(made({ currentPrice: 20, channel: "" })).toMatchObject({ name: "dried slices" });
  expect(made({ currentPrice: 20, maxUnitsPerMonth: 4, minutes: 30 })).toMatchObject({ maxUnits: 4, hours: 0.5 });
  expect(made({ currentPrice: 20, expectedUnitsPerMonth: 4 })).not.toHaveProperty("maxUnits");
  const kit = { form: "other" as const, grams: 0, madeOf: [{ name: "label", count: 1 }], currentPrice: 3 };
  const label = [line({ item: "label" })];
  const endless = "nothing limits how many can be made: state max_units_month or minutes";
  expect(made(kit, label)).toBe(endless);
  expect(made({ ...kit, minutes: 6 }, label)).toMatchObject({ hours: 0.1, earns: 2 });
  expect(made({ ...kit, expectedUnitsPerMonth: 7 }, label)).toMatchObject({ maxUnits: 7 });
  expect(made({ ...kit, expectedUnitsPerMonth: 7, maxUnitsPerMonth: 3 }, label)).toMatchObject({ maxUnits: 3 });
  expect(made({})).toBe("the product has neither a current price nor one for a target margin");
  expect(goingPrice(priced({ targetMargin: 0.5 }))).toBe(20);
  expect(goingPrice(priced({ targetMargin: 0.5, currentPrice: 30 }))).toBe(30);
  expect(goingPrice(priced({}))).toBeUndefined();
});

test("what a gram brings is of the weight a product is made of; one of parts has none", () => {
  expect(netPricePerGram(priced({ currentPrice: 20 }), 0)).toEqual({
    kind: "net-price",
    madeOf: "dried",
    perGram: 0.4,
  });
  expect(() => netPricePerGram(priced({ currentPrice: 20 }), -1)).toThrow("workRate");
  const parts = priced({ form: "other", madeOf: [], grams: 0, minutes: 6, currentPrice: 8 });
  expect(netPricePerGram(parts, 0)).toMatchObject({ reason: "it is not made of mushrooms by weight" });
  assertClose(parts.unit.full, 3, 1e-12);
});
