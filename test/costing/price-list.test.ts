import { expect, test } from "vitest";
import { makeProduct, netPricePerGram } from "../../src/costing/products/make-product.ts";
import { type PricedProduct, priceList, quantityPrice } from "../../src/costing/products/price-list.ts";
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
const owner = settings({ ownerLabourRate: 30 });
const price = (facts: Partial<Product>, productLines: CostLine[] = []): PricedProduct => {
  const [row] = priceList({
    products: [product(facts)],
    rates,
    costLines: productLines,
    settings: owner,
    perTray: { fresh: 300, dried: 30, shelfDays: 60, labourHours: 0.5 },
    fixedCostPerMonth: 120,
  });
  if (row!.priced.kind === "cannot-tell") throw new Error(row!.priced.reason);
  return row!.priced;
};

test("a unit's cost by hand: 50 g of powder, 4 % milling loss, 80 % sold", () => {
  const unit = unitCost(
    product({
      form: "powder",
      processingLoss: 0.04,
      sellThrough: 0.8,
      packagingCost: 0.5,
      minutes: 4,
      shippingCost: 3,
    }),
    {
      rates,
      costLines: [line({ item: "label", per: "unit sold", packPrice: 10, packSize: 100 })],
      products: [],
      settings: owner,
    },
  );
  if (unit.kind === "cannot-tell") throw new Error(unit.reason);
  assertClose(unit.gramsNeeded, 50 / 0.96 / 0.8, 1e-12);
  assertClose(unit.full, unit.gramsNeeded * 0.2 + 0.5 + 2 + 3 + 0.1, 1e-12);
  assertClose(
    unit.full,
    unit.parts.reduce((sum, { amount }) => sum + amount, 0),
    1e-12,
  );
  assertClose(unit.withoutOwnerLabour, unit.gramsNeeded * 0.15 + 0.5 + 3 + 0.1, 1e-12);
  assertClose(unit.variable, unit.gramsNeeded * 0.1 + 0.5 + 3 + 0.1, 1e-12);
});

test("lines per unit sold can be for one product, channel or form, and the last price counts", () => {
  const label = line({ item: "label", per: "unit sold", packPrice: 1 });
  const fullWith = (lines: CostLine[]): number => {
    const unit = unitCost(product({ grams: 1 }), { rates, costLines: lines, products: [], settings: owner });
    return unit.kind === "cannot-tell" ? Number.NaN : unit.full;
  };
  assertClose(fullWith([{ ...label, onlyWhereColumn: "channel", onlyWhereValue: "Web Shop" }]), 1.2, 1e-12);
  assertClose(fullWith([{ ...label, onlyWhereColumn: "form", onlyWhereValue: "fresh" }]), 0.2, 1e-12);
  assertClose(fullWith([{ ...label, onlyWhereColumn: "product", onlyWhereValue: " Dried Slices" }]), 1.2, 1e-12);
  assertClose(fullWith([{ ...label, onlyWhereColumn: "product", onlyWhereValue: "powder" }]), 0.2, 1e-12);
  assertClose(fullWith([{ ...label, onlyWhereColumn: "strain", onlyWhereValue: "pearl" }]), 0.2, 1e-12);
  assertClose(fullWith([label, { ...label, packPrice: 2, fromDate: "2026-02-01" }]), 2.2, 1e-12);
});

test("cost 12.00, fee 12.9 % and 0.30, margin 40 %: 26.1146, on the label 26.50; break-even 14.1217; arithmetic", () => {
  const priced = price({
    grams: 50,
    packagingCost: 2,
    feeFraction: 0.129,
    feeFixed: 0.3,
    targetMargin: 0.4,
    priceEndings: [0.5, 0.9],
    currentPrice: 20,
  });
  assertClose(priced.unit.full, 12, 1e-12);
  if (
    priced.target.kind !== "listed" ||
    priced.breakEven.kind !== "listed" ||
    priced.floor.kind !== "listed" ||
    !("price" in priced.current)
  )
    throw new Error("all are known here");
  assertClose(priced.target.exact, 26.1146, 0.00005);
  expect(priced.target.shown).toBe(26.5);
  expect(priced.target.earns.margin).toBeGreaterThanOrEqual(0.4);
  assertClose(priced.breakEven.exact, 14.1217, 0.00005);
  expect(priced.breakEven.shown).toBe(14.13);
  assertClose(priced.floor.exact, 7.3 / 0.871, 1e-9);
  const { profit, contribution, profitPerGram, profitPerTray, profitPerShelfDay, breakEvenUnits, standing } =
    priced.current;
  assertClose(profit, 20 * 0.871 - 0.3 - 12, 1e-12);
  assertClose(contribution, 20 * 0.871 - 0.3 - 7, 1e-12);
  assertClose(profitPerGram!, profit / 50, 1e-12);
  // 30 g a started tray are 0.6 units
  assertClose(profitPerTray!, 0.6 * profit, 1e-12);
  assertClose(profitPerShelfDay!, 0.01 * profit, 1e-12);
  expect(breakEvenUnits).toMatchObject({ units: Math.ceil(120 / 10.12) });
  expect(standing).toBe("below the target margin");
});

test("where the current price stands", () => {
  const standing = (currentPrice: number, targetMargin?: number): string => {
    const { current } = price({ currentPrice, targetMargin });
    return "standing" in current ? current.standing : "";
  };
  // 50 g cost 10.00 in full and 5.00 variable
  expect([4.99, 5, 9.99, 10].map((asked) => standing(asked))).toEqual([
    "below the price floor",
    "below break-even",
    "below break-even",
    "covers cost",
  ]);
  expect([19.99, 20].map((asked) => standing(asked, 0.5))).toEqual([
    "below the target margin",
    "meets the target margin",
  ]);
});

test("a larger order at a discount, arithmetic", () => {
  const [step] = price({ currentPrice: 20, quantityDiscounts: [{ from: 10, discount: 0.15 }] }).quantities;
  expect(step).toMatchObject({ quantity: 10, price: 17, orderTotal: 170 });
  assertClose(step!.earns.profit, 7, 1e-12);
  assertClose(step!.largestDiscountAtFullCost, 0.5, 1e-12);
  assertClose(step!.largestDiscountAtVariableCost, 0.75, 1e-12);
  expect(quantityPrice(8, 1, 0, product(), { full: 10, variable: 5 }, 2).largestDiscountAtFullCost).toBe(0);
  expect(() => quantityPrice(8, 0, 0, product(), { full: 10, variable: 5 }, 2)).toThrow("quantity must be 1 or more");
  expect(() => quantityPrice(8, 1, 15, product(), { full: 10, variable: 5 }, 2)).toThrow("discount");
});

test("targets that cannot be reached, prices and weights that are not there", () => {
  expect(price({ feeFraction: 0.5, targetMargin: 0.5 }).target).toMatchObject({
    kind: "cannot-tell",
    reason: "the fee leaves a margin below 50% at any price, however high",
  });
  expect(price({}).target).toMatchObject({ reason: "the product states no target margin" });
  expect(price({}).current).toMatchObject({ reason: "the product states no current price" });
  expect(price({ shippingCharged: 50 }).breakEven).toMatchObject({
    reason: expect.stringContaining("any price will do"),
  });
  const rows = priceList({
    products: [product({ form: "fresh" }), product({ sellThrough: 0 })],
    rates: { ...rates, full: { dried: 1 } },
    costLines: [],
    settings: owner,
    fixedCostPerMonth: 0,
  });
  expect(rows.map(({ priced }) => priced.kind)).toEqual(["cannot-tell", "cannot-tell"]);
  // a number no sheet should hold is that product's own reason: the others keep their prices
  expect(() => price({ grams: 0 })).toThrow(
    `a number in the book's sheets cannot be right (product "dried slices" (products.csv row 2): grams must be a number above 0; received 0)`,
  );
  expect(() => price({ processingLoss: 4 })).toThrow("processingLoss");
  expect(() => price({ currentPrice: -5 })).toThrow("price must be a number above 0; received -5");
});

test("what a sold gram brings: price less fees, packing and sending, per gram made", () => {
  const priced = price({
    currentPrice: 20,
    feeFraction: 0.1,
    packagingCost: 1,
    shippingCost: 2,
    minutes: 3,
    sellThrough: 0.8,
  });
  const made = makeProduct(priced);
  if (made.kind === "cannot-tell") throw new Error(made.reason);
  assertClose(made.product.earns, 18 - 3, 1e-12);
  assertClose(made.product.hours, 0.05, 1e-12);
  const net = netPricePerGram(priced, 30);
  assertClose(net.kind === "net-price" ? net.perGram : 0, (15 - 1.5) / 62.5, 1e-12);
  expect(makeProduct(price({})).kind).toBe("cannot-tell");
  expect(netPricePerGram(price({}), 0).kind).toBe("cannot-tell");
});
