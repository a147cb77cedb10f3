import type { Missing, Trial } from "../../src/analysis.ts";
import { type CannotTell, cannotTell as no, outOfRangeToReason } from "../../src/costing/cannot-tell.ts";
import { netPricePerGram } from "../../src/costing/products/make-product.ts";
import { type PricedProduct, priceList } from "../../src/costing/products/price-list.ts";
import { gramRates, type TrayYield, yieldPerStartedTray } from "../../src/costing/trays/book-rates.ts";
import { type FixedMonth, fixedMonth } from "../../src/costing/trays/fixed-month.ts";
import { type TrayCosts, trayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { Product } from "../../src/records/product.ts";
import type { UnreadMoney } from "../../src/records/unread-money.ts";
import { bookDryingRatio } from "./book-drying-ratio.ts";
import { productName } from "./product-name.ts";

/** The book's costs, gram rates and price list, as every question about money needs them. */
export interface BookPrices {
  kind: "prices";
  costs: TrayCosts;
  perTray: TrayYield | undefined;
  /** what a month costs whatever is made; undefined where that takes dates and there are none */
  fixed: FixedMonth | undefined;
  list: { product: Product; priced: PricedProduct | CannotTell }[];
}

/**
 * Why there are no costs, with the rows of costs.csv that could not be read.
 * @param doubts why lines that were read count for no tray
 */
function noCosts({ costLines, unread = [] }: Trial, doubts: TrayCosts["doubts"] = []): CannotTell {
  const lost = [...unread.filter(({ sheet, inUse }) => sheet === "costs" && !inUse), ...doubts];
  if (costLines === undefined && lost.length === 0) return no("the book has no costs.csv");
  const [first] = lost;
  return no(
    first === undefined
      ? "costs.csv has no line that could be used"
      : `no line of ${first.source.file} could be used (${first.name}: ${first.reason})`,
  );
}

/** Works out the book's costs, once for the same book; the reason where there are none. */
export function bookCosts(trial: Trial): TrayCosts | CannotTell {
  const { trays, costLines = [], settings, unread = nothingUnread, memo } = trial;
  if (costLines.length === 0) return noCosts(trial);
  return memo.once([trays, costLines, settings, unread], "costs", () => {
    const costs = outOfRangeToReason(() => trayCosts({ trays, costLines, settings, unread, memo }));
    // nothing counted beside lines left out is no cost of 0
    const isUncounted = costs.kind === "costs" && costs.doubts.length > 0 && costs.totals.every((total) => total === 0);
    return isUncounted ? noCosts(trial, costs.doubts) : costs;
  });
}

const nothingUnread: ReadonlyArray<UnreadMoney> = [];

/** Works out costs, rates and the price list, once for the same book; the reason where the book lacks something for it. */
export function bookPrices(trial: Trial): BookPrices | CannotTell {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return costs;
  const { products, settings, memo } = trial;
  if (products === undefined) return no("the book has no products.csv");
  if (products.length === 0) return no("products.csv has no row that could be used");
  return memo.once([costs, products, settings], "prices", () => pricesAtCosts(costs, products, settings));
}

/**
 * What a question about prices waits for where `bookPrices` has none: a sheet that is not there, rows of it that can be read, or
 * trays with weights.
 * @param products what of products.csv the question needs
 */
export function pricesMissing(trial: Trial, products: string): Missing {
  const { costLines, products: sold, unread = [] } = trial;
  const noCostLines = bookCosts(trial).kind === "cannot-tell";
  if ((costLines ?? []).length === 0 && !unread.some(({ sheet }) => sheet === "costs"))
    return { kind: "costs", need: "cost lines in costs.csv" };
  if (noCostLines) return { kind: "record", need: "cost lines that can be read" };
  if (sold === undefined) return { kind: "products", need: products };
  if (sold.length === 0) return { kind: "record", need: "rows of products.csv that can be read" };
  return { kind: "record", need: "good trays with their weights" };
}

/** The price list at the costs of some trays. */
function pricesAtCosts(
  costs: TrayCosts,
  products: ReadonlyArray<Product>,
  settings: Trial["settings"],
): BookPrices | CannotTell {
  const found = gramRates(costs);
  if (found.kind === "cannot-tell") return found;
  const { rates } = found;
  const yielded = yieldPerStartedTray(costs);
  const month = outOfRangeToReason(() => fixedMonth(costs));
  const perTray = yielded.kind === "yield" ? yielded.perTray : undefined;
  const fixed = month.kind === "fixed" ? month : undefined;
  const list = priceList({
    products,
    rates,
    costLines: costs.costLines,
    settings,
    ...(perTray === undefined ? {} : { perTray }),
    fixedCostPerMonth: fixed?.total ?? 0,
  });
  return { kind: "prices", costs, perTray, fixed, list };
}

/** The costs with every line that could not be read counted as it could be; undefined where none can be guessed. */
export function costsWithGuesses(costs: TrayCosts): TrayCosts | undefined {
  const guesses = costs.doubts.flatMap(({ guess, effect }) =>
    guess === undefined || effect !== "left out" ? [] : [guess],
  );
  if (guesses.length === 0) return undefined;
  const { trays, settings } = costs;
  const counted = outOfRangeToReason(() => trayCosts({ trays, settings, costLines: [...costs.costLines, ...guesses] }));
  return counted.kind === "costs" ? counted : undefined;
}

/** The price list with every line that could not be read counted as it could be; undefined where none can be guessed. */
export function pricesWithGuesses({ costs, list }: BookPrices): BookPrices | undefined {
  const guessed = costsWithGuesses(costs);
  if (guessed === undefined) return undefined;
  const prices = pricesAtCosts(
    guessed,
    list.map(({ product }) => product),
    costs.settings,
  );
  return prices.kind === "prices" ? prices : undefined;
}

/** What a gram brings as the book sells it. Money. */
export interface NetPrice {
  kind: "net-price";
  /** net of fees, packing and sending; neither growing nor drying is taken off */
  perGram: number;
  hoursPerGram: number;
  /** share of what is picked that is dried to be sold so, 0 to 1 */
  driedShare: number;
  /** products whose price is in it */
  products: string[];
  /** products with a price that are made of the other weight and not in it */
  others: string[];
}

/**
 * What one gram of a weight brings: the mean over the products, weighed by the grams expected to be sold in a month (equally
 * where none is expected). Where fresh and dried ones are both expected, all of them count, the other weight by the book's
 * drying ratio; else those made of the weight asked for.
 */
export function meanNetPrice({ list }: BookPrices, trial: Trial, madeOf: "fresh" | "dried"): NetPrice | CannotTell {
  const priced = list.flatMap(({ product, priced: one }) => {
    if (one.kind === "cannot-tell") return [];
    const net = netPricePerGram(one, trial.settings.ownerLabourRate);
    if (net.kind === "cannot-tell") return [];
    const { gramsNeeded } = one.unit;
    const grams = (product.expectedUnitsPerMonth ?? 0) * gramsNeeded;
    return [{ ...net, name: productName(product), hoursPerGram: product.minutes / 60 / gramsNeeded, grams }];
  });
  const isExpected = (form: "fresh" | "dried") => priced.some((one) => one.madeOf === form && one.grams > 0);
  const ratio = isExpected("fresh") && isExpected("dried") ? bookDryingRatio(trial)?.value : undefined;
  const isIn = (one: (typeof priced)[number]) => one.madeOf === madeOf || ratio !== undefined;
  const sold = priced.filter(isIn).map(({ name, perGram, hoursPerGram, grams, madeOf: form }) => {
    // a gram of its own weight as grams of the one asked for
    const size = form === madeOf ? 1 : madeOf === "dried" ? 1 / ratio! : ratio!;
    return { name, form, perGram: perGram / size, hoursPerGram: hoursPerGram / size, grams: grams * size };
  });
  if (sold.length === 0) return no(`no product made of ${madeOf} mushrooms has a price`);
  const expected = sold.reduce((sum, { grams }) => sum + grams, 0);
  const weight = (grams: number) => (expected > 0 ? grams / expected : 1 / sold.length);
  const mean = (of: (one: (typeof sold)[number]) => number) =>
    sold.reduce((sum, one) => sum + weight(one.grams) * of(one), 0);
  return {
    kind: "net-price",
    perGram: mean(({ perGram }) => perGram),
    hoursPerGram: mean((one) => one.hoursPerGram),
    driedShare: mean(({ form }) => (form === "dried" ? 1 : 0)),
    products: sold.filter(({ grams }) => weight(grams) > 0).map(({ name }) => name),
    others: priced.filter((one) => !isIn(one)).map(({ name }) => name),
  };
}
