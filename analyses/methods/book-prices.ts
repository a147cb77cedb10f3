import type { Trial } from "../../src/analysis.ts";
import {
  fixedCostPerMonth,
  type GramRates,
  gramRates,
  type TrayYield,
  yieldPerStartedTray,
} from "../../src/costing/book-rates.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { netPricePerGram } from "../../src/costing/make-product.ts";
import { type PricedProduct, priceList } from "../../src/costing/price-list.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/tray-costs.ts";
import type { Product } from "../../src/records/product.ts";

const no = (reason: string): CannotTell => ({ kind: "cannot-tell", reason });

/** The book's costs, gram rates and price list, as every question about money needs them. */
export interface BookPrices {
  kind: "prices";
  costs: TrayCosts;
  rates: GramRates;
  perTray: TrayYield | undefined;
  fixedPerMonth: number | undefined;
  list: { product: Product; priced: PricedProduct | CannotTell }[];
}

/** Works out the book's costs; the reason where there are none. */
export function bookCosts({ trays, costLines, settings }: Trial): TrayCosts | CannotTell {
  if (costLines === undefined) return no("the book has no costs.csv");
  if (costLines.length === 0) return no("costs.csv has no line that could be used");
  return trayCosts({ trays, costLines, settings });
}

/** Works out costs, rates and the price list; the reason where the book lacks something for it. */
export function bookPrices(trial: Trial): BookPrices | CannotTell {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return costs;
  const { products, settings } = trial;
  if (products === undefined) return no("the book has no products.csv");
  if (products.length === 0) return no("products.csv has no row that could be used");
  const rates = gramRates(costs);
  if (rates.kind === "cannot-tell") return rates;
  const yielded = yieldPerStartedTray(costs);
  const fixed = fixedCostPerMonth(costs);
  const perTray = yielded.kind === "yield" ? yielded.perTray : undefined;
  const fixedPerMonth = fixed.kind === "fixed" ? fixed.total : undefined;
  return {
    kind: "prices",
    costs,
    rates: rates.rates,
    perTray,
    fixedPerMonth,
    list: priceList({
      products,
      rates: rates.rates,
      productLines: costs.productLines,
      settings,
      ...(perTray === undefined ? {} : { perTray }),
      fixedCostPerMonth: fixedPerMonth ?? 0,
    }),
  };
}

/**
 * What one gram brings net of fees, packing and sending: the mean over the products made of it, weighed by the grams
 * expected to be sold in a month (equally where none is expected).
 */
export function meanNetPrice(
  prices: BookPrices,
  trial: Trial,
  madeOf: "fresh" | "dried",
): { kind: "net-price"; perGram: number; products: string[] } | CannotTell {
  const priced = prices.list.flatMap(({ product, priced: one }) => {
    if (one.kind === "cannot-tell") return [];
    const net = netPricePerGram(one, prices.rates, trial.settings.ownerLabourRate);
    if (net.kind === "cannot-tell" || net.madeOf !== madeOf) return [];
    return [
      {
        name: product.product,
        perGram: net.perGram,
        grams: (product.expectedUnitsPerMonth ?? 0) * one.unit.gramsNeeded,
      },
    ];
  });
  if (priced.length === 0) return no(`no product made of ${madeOf} mushrooms has a price`);
  const expected = priced.reduce((sum, { grams }) => sum + grams, 0);
  const weight = (grams: number) => (expected > 0 ? grams / expected : 1 / priced.length);
  return {
    kind: "net-price",
    perGram: priced.reduce((sum, { perGram, grams }) => sum + weight(grams) * perGram, 0),
    products: priced.filter(({ grams }) => weight(grams) > 0).map(({ name }) => name),
  };
}
