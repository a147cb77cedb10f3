import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { goingPrice } from "../../src/costing/products/make-product.ts";
import { type SimulatedMargin, simulateMargin } from "../../src/costing/products/margin-simulation.ts";
import { termsOf } from "../../src/costing/products/price-list.ts";
import { type TrayCostParts, trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { BookPrices } from "./book-prices.ts";
import { productName } from "./product-name.ts";
import { unitSums } from "./ratio-over-cooks.ts";

/** How a product's margin may turn out, at its price and where the price comes out lower. */
export interface MarginOutlook {
  name: string;
  price: number;
  /** whether the price is the one asked now, or the one for the target margin */
  isCurrent: boolean;
  asListed: SimulatedMargin;
  /** each sale at a price somewhere between the listed one and this share of it */
  discounted: SimulatedMargin;
}

/** A price that comes out lower by up to this share; a stated quantity discount takes its place. */
export const usualDiscount = 0.1;
/** All cost of a unit but its mushrooms, to either side. */
export const otherCostShare = 0.2;
export const draws = 4000;

/**
 * Mean grams of a good tray and the standard error of that mean, over cooks where there are three or more (trays of one
 * cook share its luck), else over trays.
 * @source variance of a ratio of sums over clusters, K/(K - 1) x sum of squared residual sums over (trays) squared;
 *   Cochran 1977, Sampling Techniques, section 9A (from memory)
 */
function goodTrayGrams(
  trial: Trial,
  madeOf: "fresh" | "dried",
): { mean: number; standardError: number; units: number; unitName: string } | undefined {
  const pairs = trial.trays.flatMap((tray) => {
    const grams = madeOf === "fresh" ? tray.freshGrams : tray.dryGrams;
    return tray.outcome === "good" && grams !== undefined
      ? [{ tray, numerator: grams, denominator: tray.traysInPool }]
      : [];
  });
  const { units, unitName } = unitSums(pairs);
  const trays = units.reduce((sum, { denominator }) => sum + denominator, 0);
  const mean = units.reduce((sum, { numerator }) => sum + numerator, 0) / trays;
  if (units.length < 2 || !(mean > 0)) return undefined;
  const squares = units.reduce((sum, { numerator, denominator }) => sum + (numerator - mean * denominator) ** 2, 0);
  const count = units.length;
  return { mean, standardError: Math.sqrt((count / (count - 1)) * squares) / trays, units: count, unitName };
}

/**
 * Draws yield, loss, price and other cost of every product with a price.
 * @returns one outlook per product in the order of the sheet; the reason for those left out
 */
export function marginOutlook(
  trial: Trial,
  prices: BookPrices,
): { outlooks: MarginOutlook[]; without: string[]; units: number; unitName: string } {
  const { settings } = trial;
  const known = new Map<
    "fresh" | "dried",
    { grams: ReturnType<typeof goodTrayGrams>; parts: TrayCostParts | CannotTell }
  >();
  const basisOf = (madeOf: "fresh" | "dried") => {
    const basis = known.get(madeOf) ?? {
      grams: goodTrayGrams(trial, madeOf),
      parts: trayCostParts(prices.costs, "full", madeOf),
    };
    known.set(madeOf, basis);
    return basis;
  };
  const outlooks: MarginOutlook[] = [];
  const without: string[] = [];
  for (const { product, priced } of prices.list) {
    const name = productName(product);
    if (priced.kind === "cannot-tell") {
      without.push(`${name} (${priced.reason})`);
      continue;
    }
    const price = goingPrice(priced);
    const { unit } = priced;
    const { grams, parts } = basisOf(unit.madeOf);
    if (price === undefined || grams === undefined || parts.kind === "cannot-tell") {
      without.push(`${name} (${price === undefined ? "no price" : "fewer than two good trays weighed"})`);
      continue;
    }
    const mushrooms = unit.gramsNeeded * (prices.rates.full[unit.madeOf] ?? 0);
    const simulate = (low: number): SimulatedMargin =>
      simulateMargin(
        {
          terms: termsOf(product),
          gramsNeeded: unit.gramsNeeded,
          otherCostPerUnit: Math.max(0, unit.full - mushrooms),
          costPerGoodTray: parts.goodTray,
          costPerLostTray: parts.lostTray,
          costPerGram: parts.perGram,
          ...(product.targetMargin === undefined ? {} : { targetMargin: product.targetMargin }),
        },
        {
          gramsPerGoodTray: grams,
          lost: parts.lost,
          finished: parts.started,
          price: { low, central: price, high: price },
          costShare: { low: 1 - otherCostShare, high: 1 + otherCostShare },
        },
        draws,
        // every product meets the same turns of luck
        seededRandom(settings.seed),
      );
    const discount = product.quantityDiscount ?? usualDiscount;
    outlooks.push({
      name,
      price,
      isCurrent: "price" in priced.current,
      asListed: simulate(price),
      discounted: simulate(price * (1 - Math.min(discount, 0.99))),
    });
  }
  const main = known.get("dried")?.grams ?? known.get("fresh")?.grams;
  return { outlooks, without, units: main?.units ?? 0, unitName: main?.unitName ?? "trays" };
}
