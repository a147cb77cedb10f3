import { requireNotNegative } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import type { GramRates } from "../trays/book-rates.ts";
import { earningsAt } from "./price.ts";
import type { PricedProduct } from "./price-list.ts";
import { termsOf } from "./price-list.ts";
import type { MakeProduct } from "./product-mix.ts";

/** Price a product goes for: the current one, or else the one on the price list for its target margin. */
export function goingPrice({ current, target }: PricedProduct): number | undefined {
  if ("price" in current) return current.price;
  return target.kind === "listed" ? target.shown : undefined;
}

/**
 * A priced product as the monthly plan sees it: growing and drying are decisions of the plan, so their cost is not in it.
 * @param rates the cost of a gram the product was priced with
 * @returns cannot-tell when the product has no price
 */
export function makeProduct(
  priced: PricedProduct,
  rates: GramRates,
): { kind: "make"; product: MakeProduct } | CannotTell {
  const price = goingPrice(priced);
  if (price === undefined) return cannotTell("the product has neither a current price nor one for a target margin");
  const { product, unit } = priced;
  const contribution = earningsAt(price, unit.variable, termsOf(product)).profit;
  return {
    kind: "make",
    product: {
      name: product.channel === "" ? product.product : `${product.product}, ${product.channel}`,
      madeOf: unit.madeOf,
      gramsNeeded: unit.gramsNeeded,
      earns: contribution + unit.gramsNeeded * (rates.variable[unit.madeOf] ?? 0),
      hours: product.minutes / 60,
      ...(product.maxUnitsPerMonth === undefined ? {} : { maxUnits: product.maxUnitsPerMonth }),
    },
  };
}

/**
 * What a gram that is made brings net of fees, packaging, sending and packing work, unsold grams counted. Growing and
 * drying are not taken off: for the best dose take off what is spent per gram, `trayCostParts(...).perGram`.
 * @param priced a priced product; @param rates as it was priced with; @param workRate money per hour of packing work
 * @returns money per gram of what the product is made of
 * @throws RangeError if workRate is negative
 */
export function netPricePerGram(
  priced: PricedProduct,
  rates: GramRates,
  workRate: number,
): { kind: "net-price"; madeOf: "fresh" | "dried"; perGram: number } | CannotTell {
  requireNotNegative("netPricePerGram", "workRate", workRate);
  const made = makeProduct(priced, rates);
  if (made.kind === "cannot-tell") return made;
  const { earns, gramsNeeded, madeOf, hours } = made.product;
  return { kind: "net-price", madeOf, perGram: (earns - hours * workRate) / gramsNeeded };
}
