import { requireNotNegative, requireShareBelowOne } from "../../measures/require-amounts.ts";
import type { Product } from "../../records/product.ts";
import { type CannotTell, cannotTell, outOfRangeToReason } from "../cannot-tell.ts";
import type { TrayYield } from "../trays/book-rates.ts";
import { type BreakEvenUnits, breakEvenUnits } from "./break-even.ts";
import { jointCostFactors } from "./joint-cost.ts";
import { type Earnings, earningsAt, priceForMargin, termsOf } from "./price.ts";
import { roundUpToEnding } from "./round-up-to-ending.ts";
import { type UnitCost, type UnitSources, unitCost } from "./unit-cost.ts";

/** A price worked out and the price to write on the label. */
export interface ListedPrice {
  kind: "listed";
  exact: number;
  /** rounded up, never down */
  shown: number;
  /** what the shown price earns over full cost */
  earns: Earnings;
}

/** What a price earns now, by everything that may be short. Profit is over full cost. */
export interface PriceEarnings extends Earnings {
  /** what a unit leaves over its variable cost */
  contribution: number;
  /** per gram of the product; absent where it is not sold by weight */
  profitPerGram?: number;
  /** per started tray made into this product alone; absent where no such weight is recorded */
  profitPerTray?: number;
  /** per day a shelf place is held; absent where days are not known too */
  profitPerShelfDay?: number;
  /** units a month of this product alone that cover the fixed cost of the month */
  breakEvenUnits: BreakEvenUnits | CannotTell;
  standing:
    | "below the price floor"
    | "below break-even"
    | "below the target margin"
    | "meets the target margin"
    | "covers cost";
}

/** A lower price for a larger order. */
export interface QuantityPrice {
  quantity: number;
  discount: number;
  /** per unit, rounded up to the minor unit */
  price: number;
  orderTotal: number;
  earns: Earnings;
  /** largest discount at which a unit still covers its full cost; its variable cost; 0 when the list price does not */
  largestDiscountAtFullCost: number;
  largestDiscountAtVariableCost: number;
}

/** One row of the price list. */
export interface PricedProduct {
  kind: "priced";
  product: Product;
  unit: UnitCost;
  /** covers variable cost and fees: selling below it loses money on every unit */
  floor: ListedPrice | CannotTell;
  /** covers full cost and fees */
  breakEven: ListedPrice | CannotTell;
  /** earns the target margin */
  target: ListedPrice | CannotTell;
  current: PriceEarnings | CannotTell;
  quantities: QuantityPrice[];
}

/**
 * Price per unit of a larger order. Fees and sending count for each unit as for a single one.
 * @param discount share off the list price, below 1
 * @throws RangeError if the quantity is not at least 1 or the discount is no such share
 * @example quantityPrice(20, 10, 0.15, product, { full: 9, variable: 5 }, 2).price // 17
 */
export function quantityPrice(
  listPrice: number,
  quantity: number,
  discount: number,
  product: Product,
  unit: Pick<UnitCost, "full" | "variable">,
  decimals: number,
): QuantityPrice {
  if (!(quantity >= 1)) throw new RangeError(`quantityPrice: quantity must be 1 or more; received ${quantity}`);
  requireShareBelowOne("quantityPrice", "discount", discount);
  const terms = termsOf(product);
  const price = roundUpToEnding(listPrice * (1 - discount), [], decimals);
  const largest = (cost: number): number => {
    const least = priceForMargin(cost, terms, 0);
    return least.kind === "price" ? Math.max(0, 1 - least.price / listPrice) : 0;
  };
  return {
    quantity,
    discount,
    price,
    orderTotal: price * quantity,
    earns: earningsAt(price, unit.full, terms),
    largestDiscountAtFullCost: largest(unit.full),
    largestDiscountAtVariableCost: largest(unit.variable),
  };
}

/** What a price earns, per unit, gram, tray and shelf day, and what it reaches. */
function priceEarnings(
  price: number,
  product: Product,
  unit: UnitCost,
  perTray: TrayYield | undefined,
  fixedCost: number,
): PriceEarnings {
  const terms = termsOf(product);
  const earns = earningsAt(price, unit.full, terms);
  const contribution = earns.profit + unit.full - unit.variable;
  const grams = unit.madeOf === "parts" ? undefined : perTray?.[unit.madeOf];
  const profitPerTray = grams === undefined ? undefined : (earns.profit * grams) / unit.gramsNeeded;
  const days = perTray?.shelfDays;
  const reaches = (value: number, wanted: number): boolean => value >= wanted - 1e-9;
  const { targetMargin } = product;
  return {
    ...earns,
    contribution,
    ...(product.grams > 0 ? { profitPerGram: earns.profit / product.grams } : {}),
    ...(profitPerTray === undefined ? {} : { profitPerTray }),
    ...(profitPerTray === undefined || days === undefined || !(days > 0)
      ? {}
      : { profitPerShelfDay: profitPerTray / days }),
    breakEvenUnits: breakEvenUnits(fixedCost, contribution + unit.variable, unit.variable),
    standing: !reaches(contribution, 0)
      ? "below the price floor"
      : !reaches(earns.profit, 0)
        ? "below break-even"
        : targetMargin === undefined
          ? "covers cost"
          : reaches(earns.margin, targetMargin)
            ? "meets the target margin"
            : "below the target margin",
  };
}

/** What a price list is worked out from. */
export interface PriceListInput extends Omit<UnitSources, "gradeFactors"> {
  /** yield and days of a started tray; absent: no figures per tray */
  perTray?: TrayYield;
  /** money, for break-even units */
  fixedCostPerMonth: number;
}

function pricedProduct(product: Product, unit: UnitCost, input: PriceListInput): PricedProduct {
  const decimals = input.settings.currencyDecimals;
  const terms = termsOf(product);
  const listed = (cost: number, margin: number, endings: ReadonlyArray<number>): ListedPrice | CannotTell => {
    const answer = priceForMargin(cost, terms, margin);
    if (answer.kind === "cannot-tell") return answer;
    const shown = roundUpToEnding(answer.price, endings, decimals);
    if (shown === 0) return cannotTell("what is charged for shipping covers all cost, so any price will do");
    return { kind: "listed", exact: answer.price, shown, earns: earningsAt(shown, unit.full, terms) };
  };
  const { targetMargin, currentPrice, quantityDiscounts = [] } = product;
  const target =
    targetMargin === undefined
      ? cannotTell("the product states no target margin")
      : listed(unit.full, targetMargin, product.priceEndings);
  const current =
    currentPrice === undefined || currentPrice === 0
      ? cannotTell("the product states no current price")
      : priceEarnings(currentPrice, product, unit, input.perTray, input.fixedCostPerMonth);
  const listPrice = "price" in current ? current.price : target.kind === "listed" ? target.shown : undefined;
  const quantities =
    listPrice === undefined
      ? []
      : quantityDiscounts.map(({ from, discount }) =>
          quantityPrice(listPrice, from, discount, product, unit, decimals),
        );
  return {
    kind: "priced",
    product,
    unit,
    floor: listed(unit.variable, 0, []),
    breakEven: listed(unit.full, 0, []),
    target,
    current,
    quantities,
  };
}

/** Every product's cost of a gram over the mean gram, where its grade shares the cost by value. */
function gradeFactors(input: PriceListInput): Map<Product, number> {
  const factors = new Map<Product, number>();
  for (const madeOf of ["fresh", "dried"] as const) {
    const graded = input.products.flatMap((product) => {
      const unit = outOfRangeToReason(() => unitCost(product, input));
      return unit.kind === "unit-cost" && unit.madeOf === madeOf ? [{ product, unit }] : [];
    });
    jointCostFactors(graded, input.settings.jointCostBy).forEach((factor, index) => {
      factors.set(graded[index]!.product, factor);
    });
  }
  return factors;
}

/**
 * The price list: for each product and channel what a unit costs, the lowest sensible price, the break-even price, the
 * price for the target margin, and what the current price earns. Only the target price is rounded up to the grower's
 * endings; the floor and the break-even price are rounded up to the minor unit. Mushrooms are in it at the cost of a gram
 * with all losses of the period.
 * @returns one row per product in the order given; a product whose cost is not known, or that holds a number out of its
 *   range, comes with the reason
 * @throws RangeError if the fixed cost is negative
 */
export function priceList(input: PriceListInput): { product: Product; priced: PricedProduct | CannotTell }[] {
  requireNotNegative("priceList", "fixedCostPerMonth", input.fixedCostPerMonth);
  const sources = { ...input, gradeFactors: gradeFactors(input) };
  return input.products.map((product) => {
    const priced = outOfRangeToReason(() => {
      const unit = unitCost(product, sources, sources.gradeFactors.get(product));
      return unit.kind === "cannot-tell" ? unit : pricedProduct(product, unit, input);
    });
    return { product, priced };
  });
}
