import { requireNotNegative } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { earningsAt, termsOf } from "./price.ts";
import type { PricedProduct } from "./price-list.ts";
import type { MakeProduct } from "./product-mix.ts";

/** Price a product goes for: the current one, or else the one on the price list for its target margin. */
export function goingPrice({ current, target }: PricedProduct): number | undefined {
  if ("price" in current) return current.price;
  return target.kind === "listed" ? target.shown : undefined;
}

/**
 * A priced product as the monthly plan sees it: growing and drying are decisions of the plan, so their cost is not in it.
 * @returns cannot-tell when the product has no price, or nothing limits how many of it are made
 */
export function makeProduct(priced: PricedProduct): { kind: "make"; product: MakeProduct } | CannotTell {
  const price = goingPrice(priced);
  if (price === undefined) return cannotTell("the product has neither a current price nor one for a target margin");
  const { product, unit } = priced;
  const contribution = earningsAt(price, unit.variable, termsOf(product)).profit;
  const most = product.maxUnitsPerMonth ?? (unit.madeOf === "parts" ? product.expectedUnitsPerMonth : undefined);
  if (unit.grams.fresh + unit.grams.dried === 0 && most === undefined && product.minutes === 0) {
    return cannotTell("nothing limits how many can be made: state max_units_month or minutes");
  }
  return {
    kind: "make",
    product: {
      name: product.channel === "" ? product.product : `${product.product}, ${product.channel}`,
      grams: unit.grams,
      earns: contribution + unit.mushroomsVariable,
      hours: product.minutes / 60,
      ...(most === undefined ? {} : { maxUnits: most }),
    },
  };
}

/**
 * What a gram that is made brings net of fees, packaging, sending and packing work, unsold grams counted. Growing and
 * drying are not taken off: for the best dose take off what is spent per gram, `trayCostParts(...).perGram`.
 * @param priced a priced product; @param workRate money per hour of packing work
 * @returns money per gram of what the product is made of
 * @throws RangeError if workRate is negative
 */
export function netPricePerGram(
  priced: PricedProduct,
  workRate: number,
): { kind: "net-price"; madeOf: "fresh" | "dried"; perGram: number } | CannotTell {
  requireNotNegative("netPricePerGram", "workRate", workRate);
  const made = makeProduct(priced);
  if (made.kind === "cannot-tell") return made;
  const { unit } = priced;
  if (unit.madeOf === "parts") return cannotTell("it is not made of mushrooms by weight");
  const { earns, hours } = made.product;
  return { kind: "net-price", madeOf: unit.madeOf, perGram: (earns - hours * workRate) / unit.gramsNeeded };
}
