import fc from "fast-check";
import { expect, test } from "vitest";
import { breakEvenMix, breakEvenUnits } from "../../src/costing/products/break-even.ts";
import { earningsAt, markupFromMargin, priceForMargin, type SaleTerms } from "../../src/costing/products/price.ts";
import { roundUpToEnding } from "../../src/costing/products/round-up-to-ending.ts";
import { assertClose } from "../agreement.ts";

const plain: SaleTerms = {
  feeFraction: 0.129,
  feeFixed: 0.3,
  feeBase: "price",
  taxRate: 0,
  taxIncluded: false,
  shippingCharged: 0,
};
const priceOf = (cost: number, terms: SaleTerms, margin: number): number => {
  const answer = priceForMargin(cost, terms, margin);
  if (answer.kind === "cannot-tell") throw new Error(answer.reason);
  return answer.price;
};

test("cost 12.00, fee 12.9 % and 0.30: 26.1146 for 40 % margin, 14.1217 to break even; arithmetic", () => {
  assertClose(priceOf(12, plain, 0.4), 26.1146, 0.00005);
  assertClose(priceOf(12, plain, 0), 14.1217, 0.00005);
  assertClose(earningsAt(26.1146, 12, plain).margin, 0.4, 1e-5);
});

test("margin and markup: a margin of 40 % is a markup of 66.67 %; arithmetic", () => {
  assertClose(markupFromMargin(0.4), 0.6667, 0.00005);
  const { margin, markup } = earningsAt(20, 12, plain);
  assertClose(markupFromMargin(margin), markup, 1e-12);
});

test("fees by hand: 20 + 4 shipping, 10 % fee, 25 % tax, arithmetic", () => {
  const terms = { ...plain, feeFraction: 0.1, feeFixed: 0, taxRate: 0.25, shippingCharged: 4 };
  assertClose(earningsAt(20, 5, { ...terms, feeBase: "price" }).fee, 2, 1e-12);
  assertClose(earningsAt(20, 5, { ...terms, feeBase: "price and shipping" }).fee, 2.4, 1e-12);
  assertClose(earningsAt(20, 5, { ...terms, feeBase: "price, shipping and tax" }).fee, 3, 1e-12);
  const included = earningsAt(20, 5, { ...terms, taxIncluded: true, feeBase: "price, shipping and tax" });
  assertClose(included.fee, 2.4, 1e-12);
  assertClose(included.netPrice, 16, 1e-12);
  assertClose(included.netShipping, 3.2, 1e-12);
  assertClose(included.tax, 4.8, 1e-12);
  assertClose(included.profit, 16 + 3.2 - 2.4 - 5, 1e-12);
});

test("the price for a margin earns that margin, whatever is taxed, charged or included", () => {
  const share = (max: number) => fc.double({ min: 0, max, noNaN: true });
  fc.assert(
    fc.property(
      share(200),
      share(0.3),
      share(2),
      fc.constantFrom("price" as const, "price and shipping" as const, "price, shipping and tax" as const),
      share(0.25),
      fc.boolean(),
      share(10),
      share(0.4),
      (cost, feeFraction, feeFixed, feeBase, taxRate, taxIncluded, shippingCharged, margin) => {
        const terms = { feeFraction, feeFixed, feeBase, taxRate, taxIncluded, shippingCharged };
        const answer = priceForMargin(cost + 20, terms, margin);
        if (answer.kind === "cannot-tell") throw new Error(answer.reason);
        const earned = earningsAt(answer.price, cost + 20, terms);
        assertClose(earned.margin, margin, 1e-9);
        // nothing of what the buyer pays goes missing
        const paid = taxIncluded ? answer.price + shippingCharged : (answer.price + shippingCharged) * (1 + taxRate);
        assertClose(earned.profit + earned.cost + earned.fee + earned.tax, paid, 1e-8);
        const scaled = priceForMargin(
          (cost + 20) * 100,
          { ...terms, feeFixed: feeFixed * 100, shippingCharged: shippingCharged * 100 },
          margin,
        );
        assertClose(scaled.kind === "price" ? scaled.price : 0, answer.price * 100, 1e-6 * answer.price * 100);
      },
    ),
  );
});

test("a fee and a margin that leave nothing have no price", () => {
  expect(priceForMargin(12, { ...plain, feeFraction: 0.6 }, 0.4)).toEqual({
    kind: "cannot-tell",
    reason: "the fee leaves a margin below 40% at any price, however high",
  });
  expect(priceForMargin(12, plain, 0.9).kind).toBe("cannot-tell");
  // 80 % of a price that is one fifth tax leaves nothing either
  expect(priceForMargin(12, { ...plain, feeFraction: 0.5, taxRate: 0.25, taxIncluded: true }, 0.4).kind).toBe(
    "cannot-tell",
  );
});

test("rounding up to the grower's endings, arithmetic", () => {
  expect(roundUpToEnding(26.1146, [0.5, 0.9], 2)).toBe(26.5);
  expect(roundUpToEnding(26.5, [0.5, 0.9], 2)).toBe(26.5);
  expect(roundUpToEnding(26.500001, [0.5, 0.9], 2)).toBe(26.9);
  expect(roundUpToEnding(26.95, [0.5, 0.9], 2)).toBe(27.5);
  expect(roundUpToEnding(26.1146, [], 2)).toBe(26.12);
  expect(roundUpToEnding(26.1146, [], 0)).toBe(27);
  expect(roundUpToEnding(20.1, [0], 2)).toBe(21);
  expect(roundUpToEnding(25, [4.9, 9.9], 2)).toBe(29.9);
  expect(roundUpToEnding(0.1 + 0.2, [], 2)).toBe(0.3);
  expect(roundUpToEnding(0, [0.9], 2)).toBe(0.9);
});

test("a rounded price is the least with that ending that is not below the price", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 500, noNaN: true }),
      fc.uniqueArray(fc.integer({ min: 0, max: 1999 }), { minLength: 1, maxLength: 4 }),
      (price, cents) => {
        const rounded = Math.round(
          roundUpToEnding(
            price,
            cents.map((cent) => cent / 100),
            2,
          ) * 100,
        );
        const ends = (minor: number): boolean =>
          cents.some(
            (cent) => minor >= cent && (minor - cent) % (cent < 100 ? 100 : cent < 1000 ? 1000 : 10_000) === 0,
          );
        expect(ends(rounded)).toBe(true);
        expect(rounded).toBeGreaterThanOrEqual(price * 100 - 1e-5);
        let least = Math.ceil(price * 100 - 1e-6);
        while (least < rounded && !ends(least)) least++;
        expect(least).toBe(rounded);
      },
    ),
  );
});

test("break-even units: open textbook chapter 7.2, Penn State adaptation (20,000; 400; 250); OpenStax Managerial Accounting 3.2, from memory (18,000; 100; 20)", () => {
  expect(breakEvenUnits(20_000, 400, 250)).toEqual({ kind: "units", units: 134 });
  expect(breakEvenUnits(18_000, 100, 20)).toMatchObject({ units: 225 });
  expect(breakEvenUnits(0, 10, 5)).toMatchObject({ units: 0 });
  expect(breakEvenUnits(100, 5, 5).kind).toBe("cannot-tell");
  expect(breakEvenUnits(0.3, 0.1, 0)).toMatchObject({ units: 3 });
});

test("break-even of a mix, arithmetic: 100 over 2 x 5 + 1 x 10 is five times the mix", () => {
  expect(
    breakEvenMix(100, [
      { contribution: 5, expectedUnits: 2 },
      { contribution: 10, expectedUnits: 1 },
    ]),
  ).toEqual({ kind: "mix", shareOfExpected: 5, units: [10, 5] });
  expect(breakEvenMix(100, []).kind).toBe("cannot-tell");
});

test("wrong numbers are named", () => {
  expect(() => priceForMargin(-1, plain, 0)).toThrow("priceForMargin: cost");
  expect(() => priceForMargin(1, { ...plain, feeFraction: 12.9 }, 0)).toThrow(
    "feeFraction must be a share from 0 to 1; received 12.9",
  );
  expect(() => earningsAt(0, 1, plain)).toThrow("price must be a number above 0");
  expect(() => markupFromMargin(1)).toThrow("margin must be below 1");
  expect(() => roundUpToEnding(1, [0.995], 2)).toThrow("an ending must be whole minor units");
  expect(() => roundUpToEnding(-1, [], 2)).toThrow("price");
  expect(() => breakEvenUnits(-1, 1, 0)).toThrow("fixedCost");
});
