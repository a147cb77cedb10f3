import type { Trial } from "../../src/analysis.ts";
import { netPricePerGram } from "../../src/costing/products/make-product.ts";
import type { BookPrices } from "../costs/book-prices.ts";
import { productName } from "../costs/product-name.ts";

/** A priced product as a way to sell mushrooms: what a kilogram of what it is made of brings. */
export interface NetOffer {
  name: string;
  madeOf: "fresh" | "dried";
  /** money per kg of that, if all of it were sold: after fees, packing, sending and packing work */
  perKgSold: number;
  /** share of what is made that is sold */
  sellThrough: number;
  /** the most kg a month that can be sold; undefined: no limit stated */
  mostKgPerMonth: number | undefined;
}

/** Every product with a price as an offer, and the names of those without one. */
export function netOffers(trial: Trial, prices: BookPrices): { offers: NetOffer[]; without: string[] } {
  const offers: NetOffer[] = [];
  const without: string[] = [];
  for (const { product, priced } of prices.list) {
    const name = productName(product);
    const net = priced.kind === "priced" ? netPricePerGram(priced, trial.settings.ownerLabourRate) : priced;
    if (net.kind === "cannot-tell" || priced.kind === "cannot-tell") {
      without.push(`${name} (${net.kind === "cannot-tell" ? net.reason : "no price"})`);
      continue;
    }
    const { maxUnitsPerMonth: most, sellThrough } = product;
    offers.push({
      name,
      madeOf: net.madeOf,
      // grams made for a unit hold those never sold, so their share is taken out again
      perKgSold: (net.perGram * 1000) / sellThrough,
      sellThrough,
      mostKgPerMonth: most === undefined ? undefined : (most * priced.unit.gramsNeeded) / 1000,
    });
  }
  return { offers, without };
}
