import { expect, test } from "vitest";
import { jointCostFactors } from "../../src/costing/products/joint-cost.ts";
import { makeProduct } from "../../src/costing/products/make-product.ts";
import { type PricedProduct, priceList } from "../../src/costing/products/price-list.ts";
import { unitCost } from "../../src/costing/products/unit-cost.ts";
import type { GramRates } from "../../src/costing/trays/book-rates.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Product } from "../../src/records/product.ts";
import { assertClose } from "../agreement.ts";
import { line, product, settings } from "./sample-records.ts";

const rates: GramRates = {
  full: { fresh: 0.02, dried: 0.2 },
  "without owner labour": { fresh: 0.015, dried: 0.15 },
  variable: { fresh: 0.01, dried: 0.1 },
};
const costLines: CostLine[] = [
  line({ item: "culture jar", per: "jar", packPrice: 4.5 }),
  line({ item: "Label", per: "unit sold", packPrice: 10, packSize: 100 }),
  line({ item: "rent", kind: "space", per: "month", packPrice: 60 }),
];
const list = (products: Product[], stated: Parameters<typeof settings>[0] = {}): PricedProduct[] =>
  priceList({
    products,
    rates,
    costLines,
    settings: settings({ ownerLabourRate: 30, ...stated }),
    fixedCostPerMonth: 0,
  }).map(({ priced }) => {
    if (priced.kind === "cannot-tell") throw new Error(priced.reason);
    return priced;
  });
const unitOf = (made: Product, products: Product[] = [made]) =>
  unitCost(made, { rates, costLines, products, settings: settings() });

test("a jar of culture costs its cost line and not grams of mushrooms; by hand", () => {
  const jar = product({
    product: "culture",
    form: "other",
    grams: 0,
    madeOf: [
      { name: "Culture Jar", count: 1 },
      { name: "label", count: 2 },
    ],
    packagingCost: 0.5,
    shippingCost: 3,
    currentPrice: 12,
    maxUnitsPerMonth: 8,
  });
  const [priced] = list([jar]);
  // a jar at 4.50, two labels at 0.10; the label is named, so that it does not count a third time
  assertClose(priced!.unit.full, 4.5 + 0.2 + 0.5 + 3, 1e-12);
  expect(priced!.unit).toMatchObject({ madeOf: "parts", gramsNeeded: 0, grams: { fresh: 0, dried: 0 }, mushrooms: 0 });
  expect(priced!.current).not.toHaveProperty("profitPerGram");
  const made = makeProduct(priced!);
  expect(made).toMatchObject({ kind: "make", product: { grams: { fresh: 0, dried: 0 }, maxUnits: 8 } });
  const { maxUnitsPerMonth: _, ...endless } = jar;
  expect(makeProduct(list([endless])[0]!)).toMatchObject({ reason: expect.stringContaining("nothing limits") });
});

test("a bundle costs the products in it without their sending, and takes their grams; by hand", () => {
  const slices = product({ product: "slices", grams: 50, packagingCost: 0.6, minutes: 4, shippingCost: 3.9 });
  const punnet = product({ product: "punnet", form: "fresh", grams: 200 });
  const bundle = product({
    product: "box",
    form: "other",
    grams: 0,
    madeOf: [
      { name: "slices", count: 2 },
      { name: "punnet", count: 1 },
    ],
    shippingCost: 5,
    currentPrice: 60,
  });
  const priced = list([slices, punnet, bundle])[2]!;
  // two bags of 10.00 + 0.60 + 2.00 + 0.10, a punnet of 4.00 + 0.10, a label and the sending
  assertClose(priced.unit.full, 2 * 12.7 + 4.1 + 0.1 + 5, 1e-12);
  expect(priced.unit.grams).toEqual({ fresh: 200, dried: 100 });
  assertClose(priced.unit.mushrooms, 24, 1e-12);
  const made = makeProduct(priced);
  if (made.kind === "cannot-tell") throw new Error(made.reason);
  expect(made.product.grams).toEqual({ fresh: 200, dried: 100 });
  // growing is a decision of the plan: what a unit brings has no mushrooms taken off
  assertClose(made.product.earns, 60 - (priced.unit.variable - (2 * 5 + 2)), 1e-9);
});

test("what a product is made of is asked, not guessed; parts nobody knows, monthly costs and circles are named", () => {
  const reasonOf = (facts: Partial<Product>, others: Product[] = []): string => {
    const made = product({ product: "kit", form: "other", grams: 0, ...facts });
    const unit = unitOf(made, [made, ...others]);
    return unit.kind === "cannot-tell" ? unit.reason : "a cost";
  };
  expect(reasonOf({ grams: 500 })).toContain("made_of in products.csv");
  expect(reasonOf({ madeOf: [{ name: "gold", count: 1 }] })).toBe(
    "gold is neither a cost line nor a product of the book",
  );
  expect(reasonOf({ madeOf: [{ name: "rent", count: 1 }] })).toContain("a cost per month");
  const other = product({ product: "set", form: "other", grams: 0, madeOf: [{ name: "kit", count: 1 }] });
  expect(reasonOf({ madeOf: [{ name: "set", count: 1 }] }, [other])).toContain("made of itself by way of");
  expect(reasonOf({ madeOf: "dried", grams: 10 })).toBe("a cost");
});

test("grades share a gram's cost by weight alike, by value as they sell; the shares add up to the mean gram; by hand", () => {
  // 80 % sold at 0.50 a gram and 20 % at 0.10: the mean gram brings 0.42
  const prime = product({ product: "prime", grade: "prime", gradeShare: 0.8, grams: 50, currentPrice: 25 });
  const broken = product({ product: "broken", grade: "broken", gradeShare: 0.2, grams: 50, currentPrice: 5 });
  const noLabels = (products: Product[], jointCostBy: "weight" | "value") =>
    priceList({
      products,
      rates,
      costLines: [],
      settings: settings({ jointCostBy }),
      fixedCostPerMonth: 0,
    }).map(({ priced }) => {
      if (priced.kind !== "priced") throw new Error(priced.reason);
      const { full, variable, mushrooms, mushroomsVariable, withoutOwnerLabour } = priced.unit;
      const gradeFactor = full / (50 * rates.full.dried!);
      // every scope takes the same share
      assertClose(withoutOwnerLabour, 50 * rates["without owner labour"].dried! * gradeFactor, 1e-12);
      assertClose(variable, 50 * rates.variable.dried! * gradeFactor, 1e-12);
      expect([mushrooms, mushroomsVariable]).toEqual([full, variable]);
      return full;
    });
  expect(noLabels([prime, broken], "weight")).toEqual([10, 10]);
  const [primeFull, brokenFull] = noLabels([prime, broken], "value");
  assertClose(primeFull!, (10 * 0.5) / 0.42, 1e-9);
  assertClose(brokenFull!, (10 * 0.1) / 0.42, 1e-9);
  // 80 % of the grams at one cost and 20 % at the other cost what all of them cost
  assertClose(0.8 * primeFull! + 0.2 * brokenFull!, 10, 1e-9);
  // what is left of the weight is sold under no grade; where nothing is, it carries nothing
  const rest = product({ product: "rest", grams: 50, currentPrice: 10 });
  const [a, b] = noLabels([{ ...prime, gradeShare: 0.6 }, rest], "value");
  assertClose(a!, (10 * 0.5) / (0.6 * 0.5 + 0.4 * 0.2), 1e-9);
  assertClose(0.6 * a! + 0.4 * b!, 10, 1e-9);
  const [alone] = noLabels([prime], "value");
  assertClose(0.8 * alone!, 10, 1e-9);
  // a grade without a price gives no value to share by
  const { currentPrice: _, ...unsold } = broken;
  expect(noLabels([prime, unsold], "value")).toEqual([10, 10]);
  expect(jointCostFactors([], "value")).toEqual([]);
});

test("several steps of discount, each from its own quantity; by hand", () => {
  const [priced] = list([
    product({
      currentPrice: 20,
      quantityDiscounts: [
        { from: 5, discount: 0.05 },
        { from: 10, discount: 0.1 },
      ],
    }),
  ]);
  expect(priced!.quantities.map(({ quantity, price, orderTotal }) => [quantity, price, orderTotal])).toEqual([
    [5, 19, 95],
    [10, 18, 180],
  ]);
});
