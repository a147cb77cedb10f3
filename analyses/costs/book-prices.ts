import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { netPricePerGram } from "../../src/costing/products/make-product.ts";
import { type PricedProduct, priceList } from "../../src/costing/products/price-list.ts";
import {
  fixedCostPerMonth,
  type GramRates,
  gramRates,
  type TrayYield,
  yieldPerStartedTray,
} from "../../src/costing/trays/book-rates.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { Product } from "../../src/records/product.ts";

const no = (reason: string): CannotTell => ({ kind: "cannot-tell", reason });

/** The book's costs, gram rates and price list, as every question about money needs them. */
export interface BookPrices {
  kind: "prices";
  costs: TrayCosts;
  rates: GramRates;
  perTray: TrayYield | undefined;
  /** cost a month that is there whatever is made, with the owner's time and without; undefined without dates */
  fixedPerMonth: number | undefined;
  fixedWithoutOwner: number | undefined;
  list: { product: Product; priced: PricedProduct | CannotTell }[];
}

/** A number no book should hold, such as a negative price, is told as a reason: it must not stop the other answers. */
function toldAsReason<T>(work: () => T): T | CannotTell {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return no(`a number in the book's sheets cannot be right (${error.message})`);
  }
}

/** Works out the book's costs, once for the same trays, cost lines and settings; the reason where there are none. */
export function bookCosts({ trays, costLines, settings, memo }: Trial): TrayCosts | CannotTell {
  if (costLines === undefined) return no("the book has no costs.csv");
  if (costLines.length === 0) return no("costs.csv has no line that could be used");
  return memo.once([trays, costLines, settings], "costs", () =>
    toldAsReason(() => trayCosts({ trays, costLines, settings, memo })),
  );
}

/** Works out costs, rates and the price list, once for the same book; the reason where the book lacks something for it. */
export function bookPrices(trial: Trial): BookPrices | CannotTell {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return costs;
  const { products, settings, memo } = trial;
  if (products === undefined) return no("the book has no products.csv");
  if (products.length === 0) return no("products.csv has no row that could be used");
  return memo.once([costs, products, settings], "prices", () => pricesOf(costs, products, settings));
}

function pricesOf(
  costs: TrayCosts,
  products: ReadonlyArray<Product>,
  settings: Trial["settings"],
): BookPrices | CannotTell {
  const rates = gramRates(costs);
  if (rates.kind === "cannot-tell") return rates;
  const yielded = yieldPerStartedTray(costs);
  const fixed = fixedCostPerMonth(costs);
  const perTray = yielded.kind === "yield" ? yielded.perTray : undefined;
  const fixedPerMonth = fixed.kind === "fixed" ? fixed.total : undefined;
  const priced = (product: Product): PricedProduct | CannotTell =>
    toldAsReason(
      () =>
        priceList({
          products: [product],
          rates: rates.rates,
          productLines: costs.productLines,
          settings,
          ...(perTray === undefined ? {} : { perTray }),
          fixedCostPerMonth: fixedPerMonth ?? 0,
        })[0]!.priced,
    );
  return {
    kind: "prices",
    costs,
    rates: rates.rates,
    perTray,
    fixedPerMonth,
    fixedWithoutOwner: fixed.kind === "fixed" ? fixed.withoutOwnerLabour : undefined,
    list: products.map((product) => ({ product, priced: priced(product) })),
  };
}

/**
 * What one gram brings net of fees, packing and sending: the mean over the products made of it, weighed by the grams
 * expected to be sold in a month (equally where none is expected). Neither growing nor drying is taken off.
 */
export function meanNetPrice(
  prices: BookPrices,
  trial: Trial,
  madeOf: "fresh" | "dried",
  workRate: number = trial.settings.ownerLabourRate,
): { kind: "net-price"; perGram: number; hoursPerGram: number; products: string[] } | CannotTell {
  const priced = prices.list.flatMap(({ product, priced: one }) => {
    if (one.kind === "cannot-tell") return [];
    const net = netPricePerGram(one, prices.rates, workRate);
    if (net.kind === "cannot-tell" || net.madeOf !== madeOf) return [];
    return [
      {
        name: product.product,
        perGram: net.perGram,
        hoursPerGram: product.minutes / 60 / one.unit.gramsNeeded,
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
    hoursPerGram: priced.reduce((sum, { hoursPerGram, grams }) => sum + weight(grams) * hoursPerGram, 0),
    products: priced.filter(({ grams }) => weight(grams) > 0).map(({ name }) => name),
  };
}
