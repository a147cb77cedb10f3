import { requireFinite, requireNotNegative, requirePositive, requireShare } from "../../measures/require-amounts.ts";
import type { FeeBase, Product } from "../../records/product.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";

/**
 * Margin on price, (P - C)/P, as markup on cost, (P - C)/C.
 * @throws RangeError if the margin is not below 1
 * @example markupFromMargin(0.4) // 0.6666...
 */
export function markupFromMargin(margin: number): number {
  if (!(margin < 1)) throw new RangeError(`markupFromMargin: margin must be below 1; received ${margin}`);
  return margin / (1 - margin);
}

/** How a channel takes its part of a sale. Money for one unit; shares 0 to 1. */
export interface SaleTerms {
  feeFraction: number;
  feeFixed: number;
  /**
   * what the fraction is charged on. "price" is the price as shown to the buyer, so it holds the tax where the shown
   * price does; "price, shipping and tax" is all the buyer pays
   */
  feeBase: FeeBase;
  taxRate: number;
  /** whether the shown price, and what is charged for shipping, hold the tax */
  taxIncluded: boolean;
  /** what the buyer pays for shipping, shown the same way as the price; taxed like it */
  shippingCharged: number;
}

/** The sale terms of a product. */
export const termsOf = (product: Product): SaleTerms => ({
  feeFraction: product.feeFraction,
  feeFixed: product.feeFixed,
  feeBase: product.feeBase,
  taxRate: product.taxRate,
  taxIncluded: product.taxIncluded,
  shippingCharged: product.shippingCharged,
});

function requireTerms(routine: string, terms: SaleTerms): void {
  requireShare(routine, "feeFraction", terms.feeFraction);
  requireNotNegative(routine, "feeFixed", terms.feeFixed);
  requireNotNegative(routine, "taxRate", terms.taxRate);
  requireNotNegative(routine, "shippingCharged", terms.shippingCharged);
}

/** Part of the shown price that is the seller's, and the fee as slope times price plus start. */
function lineOf(terms: SaleTerms): { ownShare: number; feeSlope: number; feeStart: number } {
  const { feeFraction: f, feeFixed, feeBase, taxRate, taxIncluded, shippingCharged } = terms;
  const withTax = feeBase === "price, shipping and tax" && !taxIncluded ? 1 + taxRate : 1;
  return {
    ownShare: taxIncluded ? 1 / (1 + taxRate) : 1,
    feeSlope: f * withTax,
    feeStart: feeFixed + (feeBase === "price" ? 0 : f * withTax * shippingCharged),
  };
}

/**
 * The margin that no price passes, however high: what the percentage fee leaves of the price without tax.
 * @throws RangeError if a number lies outside its range
 * @example highestMargin(terms) // 0.871
 */
export function highestMargin(terms: SaleTerms): number {
  requireTerms("highestMargin", terms);
  const { ownShare, feeSlope } = lineOf(terms);
  return 1 - feeSlope / ownShare;
}

/**
 * The price at which a unit earns a wanted margin after fees and tax. The margin is a share of the price without tax.
 * With no tax and no shipping this is (C + F)/(1 - f - m).
 * @param cost all cost of one unit, shipping it included, fees left out
 * @param margin share of the price without tax; 0 is the break-even price
 * @returns the price as shown to the buyer, not rounded; cannot-tell when fee and margin leave nothing
 * @throws RangeError if a number lies outside its range
 * @source P(1 - f - m) = C + F; arithmetic, extended to taxed prices and charged shipping
 * @example priceForMargin(12, terms, 0.4).price // 26.1146...
 */
export function priceForMargin(
  cost: number,
  terms: SaleTerms,
  margin: number,
): { kind: "price"; price: number } | CannotTell {
  requireNotNegative("priceForMargin", "cost", cost);
  requireTerms("priceForMargin", terms);
  requireFinite("priceForMargin", "margin", margin);
  const { ownShare, feeSlope, feeStart } = lineOf(terms);
  const left = ownShare * (1 - margin) - feeSlope;
  if (!(left > 1e-12)) {
    const most = Math.floor((1 - feeSlope / ownShare) * 1000 + 1e-9) / 10;
    return cannotTell(
      most > 0
        ? `the fee leaves a margin below ${most}% at any price, however high`
        : "the fee takes the whole price or more, so no price earns anything",
    );
  }
  return { kind: "price", price: Math.max(0, (cost + feeStart - ownShare * terms.shippingCharged) / left) };
}

/** What a sale of one unit leaves. */
export interface Earnings {
  /** as shown to the buyer */
  price: number;
  /** without tax */
  netPrice: number;
  /** what the buyer pays for shipping, without tax */
  netShipping: number;
  tax: number;
  fee: number;
  cost: number;
  profit: number;
  /** profit as a share of the price without tax */
  margin: number;
  /** profit as a share of all cost the price has to cover: cost and fee, less what shipping brings in */
  markup: number;
}

/**
 * What any price earns on one unit sold by these terms, which are looked at once: `earningsAt` for many prices.
 * @throws RangeError if a term lies outside its range; what it gives, if a price is not above 0 or a cost below it
 * @example earningsBy(terms)(25, 12).margin // 0.379
 */
export function earningsBy(terms: SaleTerms): (price: number, cost: number) => Earnings {
  requireTerms("earningsAt", terms);
  const { ownShare, feeSlope, feeStart } = lineOf(terms);
  const netShipping = terms.shippingCharged * ownShare;
  return (price, cost) => {
    requirePositive("earningsAt", "price", price);
    requireNotNegative("earningsAt", "cost", cost);
    const netPrice = price * ownShare;
    const fee = feeSlope * price + feeStart;
    const profit = netPrice + netShipping - fee - cost;
    const toCover = netPrice - profit;
    return {
      price,
      netPrice,
      netShipping,
      tax: (netPrice + netShipping) * terms.taxRate,
      fee,
      cost,
      profit,
      margin: profit / netPrice,
      // when shipping brings in more than everything costs there is nothing to mark up
      markup: toCover > 0 ? profit / toCover : Number.POSITIVE_INFINITY,
    };
  };
}

/**
 * What a price earns on one unit.
 * @param cost all cost of one unit, shipping it included, fees left out
 * @throws RangeError if the price is not above 0 or another number lies outside its range
 * @example earningsAt(25, 12, terms).margin // 0.379
 */
export const earningsAt = (price: number, cost: number, terms: SaleTerms): Earnings => earningsBy(terms)(price, cost);
