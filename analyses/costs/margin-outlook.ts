import type { Trial } from "../../src/analysis.ts";
import { goingPrice } from "../../src/costing/products/make-product.ts";
import {
  type RandomSource,
  type SimulatedMargin,
  simulateMargin,
} from "../../src/costing/products/margin-simulation.ts";
import { termsOf } from "../../src/costing/products/price.ts";
import type { PricedProduct } from "../../src/costing/products/price-list.ts";
import { costAccount } from "../../src/costing/trays/cost-account.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { fiellerRatioAt } from "../../src/statistics/optimum/fieller-ratio.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { BookPrices } from "./book-prices.ts";
import { type GramCostInterval, gramCostInterval } from "./gram-cost.ts";
import { productName } from "./product-name.ts";

/** How a product's margin may turn out, at its price and where the price comes out lower. */
export interface MarginOutlook {
  name: string;
  price: number;
  /** at that price and the cost of the price list: the same figure as there */
  margin: number;
  profit: number;
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

/** even steps of probability that a gram's cost is drawn from */
const steps = 400;

/** Quantiles of Student's distribution at the middles of the steps, rising. */
function studentSteps({ memo, settings }: Trial, degreesOfFreedom: number): Float64Array {
  return memo.once([settings], `steps of Student's distribution, ${degreesOfFreedom}`, () => {
    const quantiles = new Float64Array(steps);
    for (let step = steps / 2; step < steps; step++) {
      quantiles[step] = studentTQuantile((step + 0.5) / steps, degreesOfFreedom);
      quantiles[steps - 1 - step] = -quantiles[step]!;
    }
    return quantiles;
  });
}

/** Draws of what mushrooms cost, as a share of their cost in the price list. Quantiles are those of the gram's interval. */
function costShares(trial: Trial, { means, value }: GramCostInterval): ((random: RandomSource) => number) | undefined {
  if (means === undefined || !(value > 0)) return undefined;
  const shares = studentSteps(trial, means.degreesOfFreedom).map((t) => Math.max(0, fiellerRatioAt(t, means)) / value);
  return (random) => shares[Math.floor(random.uniform() * steps)]!;
}

function outlookOf(
  trial: Trial,
  priced: PricedProduct,
  share: ((random: RandomSource) => number) | undefined,
): MarginOutlook | string {
  const { product, unit, current, target } = priced;
  const price = goingPrice(priced);
  const earns = "price" in current ? current : target.kind === "listed" ? target.earns : undefined;
  if (price === undefined || earns === undefined) return "no price";
  if (share === undefined && unit.mushrooms > 0) return "fewer than three cooks or trays weighed";
  const simulate = (low: number): SimulatedMargin =>
    simulateMargin(
      {
        terms: termsOf(product),
        otherCostPerUnit: Math.max(0, unit.full - unit.mushrooms),
        ...(product.targetMargin === undefined ? {} : { targetMargin: product.targetMargin }),
      },
      {
        mushrooms: (random) => (share === undefined ? 0 : unit.mushrooms * share(random)),
        price: { low, central: price, high: price },
        costShare: { low: 1 - otherCostShare, high: 1 + otherCostShare },
      },
      draws,
      // every product meets the same turns of luck
      seededRandom(trial.settings.seed),
    );
  const discount = product.quantityDiscounts?.at(-1)?.discount ?? usualDiscount;
  return {
    name: productName(product),
    price,
    margin: earns.margin,
    profit: earns.profit,
    isCurrent: "price" in current,
    asListed: simulate(price),
    discounted: simulate(price * (1 - Math.min(discount, 0.99))),
  };
}

/**
 * Draws the cost of a gram and the other cost of every product with a price. The cost of a gram is drawn so that its
 * quantiles are the limits of its interval: yield, losses and cost vary together as they did from cook to cook.
 * @returns one outlook per product in the order of the sheet; the reason for those left out
 */
export function marginOutlook(
  trial: Trial,
  prices: BookPrices,
): { outlooks: MarginOutlook[]; without: string[]; units: number; unitName: string } {
  const account = costAccount(prices.costs, "full");
  const intervals = (["dried", "fresh"] as const).map((weight) =>
    account.kind === "cannot-tell" ? account : gramCostInterval(trial, account.perGram[weight]),
  );
  const [dried, fresh] = intervals.map((one) => (one.kind === "interval" ? costShares(trial, one) : undefined));
  const outlooks: MarginOutlook[] = [];
  const without: string[] = [];
  for (const { product, priced } of prices.list) {
    const name = productName(product);
    if (priced.kind === "cannot-tell") {
      without.push(`${name} (${priced.reason})`);
      continue;
    }
    const outlook = outlookOf(trial, priced, priced.unit.grams.dried > 0 ? dried : fresh);
    if (typeof outlook === "string") without.push(`${name} (${outlook})`);
    else outlooks.push(outlook);
  }
  const main = intervals.find((one): one is GramCostInterval => one.kind === "interval");
  return { outlooks, without, units: main?.units ?? 0, unitName: main?.unitName ?? "trays" };
}
