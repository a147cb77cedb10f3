import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { earningsAt, priceForMargin, termsOf } from "../../src/costing/products/price.ts";
import type { PricedProduct, PriceEarnings } from "../../src/costing/products/price-list.ts";
import { roundUpToEnding } from "../../src/costing/products/round-up-to-ending.ts";
import { type CostAccount, costAccount } from "../../src/costing/trays/cost-account.ts";
import type { Product } from "../../src/records/product.ts";
import { type BookPrices, pricesWithGuesses } from "../costs/book-prices.ts";
import { gramCostInterval } from "../costs/gram-cost.ts";
import { boundOfCosts } from "../costs/money-doubts.ts";
import { productName } from "../costs/product-name.ts";

/** What a product's price reaches, in the order of how badly it wants a change. */
export type Standing = PriceEarnings["standing"] | "has no price yet";

/** A value now, and at both ends of the interval of a gram's cost. */
export interface Spread {
  value: number;
  low?: number;
  high?: number;
}

/** One product of the price list with how sure its figures are. */
export interface PricedOutlook {
  name: string;
  product: Product;
  priced: PricedProduct;
  standing: Standing;
  /** lowest prices that cover cost, each rounded up to the smallest coin; absent where none does */
  breakEven?: Spread;
  /** margin at the current price */
  margin?: Spread;
  /** costs are left out of it, so that it breaks even at no less, and no less is to be asked */
  isLeast: boolean;
  /** what the current price calls for; absent without one */
  call?: Call;
  /** whether the call is the same at both ends of the interval; undefined without an interval */
  holds?: boolean;
  /** the call with every cost line that could not be read counted as it could be, where that differs */
  callWithGuesses?: Call;
  /** trays or cooks the interval rests on */
  units: number;
  unitName: string;
}

/** What could not be priced, and why. */
export interface Unpriced {
  name: string;
  product: Product;
  reason: string;
}

/** Share by which a gram's cost could lie below and above what the price list rests on. */
function gramSpread(trial: Trial, account: CostAccount | CannotTell, madeOf: "fresh" | "dried") {
  if (account.kind === "cannot-tell") return undefined;
  const cost = gramCostInterval(trial, account.perGram[madeOf]);
  if (cost.kind === "cannot-tell") return undefined;
  const { low, high, value, units, unitName } = cost;
  if (low === undefined || high === undefined || !(value > 0)) return { units, unitName };
  return { low: low / value, high: high / value, units, unitName };
}

/** Of a product without mushrooms in it: no interval of a gram moves it. */
const certain = { low: 1, high: 1, units: 0, unitName: "trays" };

/** What a standing calls for. */
export type Call = "covers less than cost" | "short of the target" | "earns what it should";

/** What the price calls for at another full cost of the unit. */
function callAt({ product }: PricedProduct, fullCost: number, price: number): Call {
  const { profit, margin } = earningsAt(price, fullCost, termsOf(product));
  if (profit < -1e-9) return "covers less than cost";
  return margin >= (product.targetMargin ?? Number.NEGATIVE_INFINITY) - 1e-9
    ? "earns what it should"
    : "short of the target";
}

/** The call at the cost with guesses, where it differs. */
function withGuesses(
  one: PricedProduct,
  guessed: PricedProduct | CannotTell | undefined,
  price: number,
): Pick<PricedOutlook, "callWithGuesses"> {
  if (guessed === undefined || guessed.kind === "cannot-tell") return {};
  const call = callAt(one, guessed.unit.full, price);
  return call === callAt(one, one.unit.full, price) ? {} : { callWithGuesses: call };
}

/**
 * The price list with the interval of a gram's cost carried through to break-even prices, margins and standings.
 * @returns priced products in the order of the sheet, and those that could not be priced with the reason
 */
export function priceOutlook(trial: Trial, prices: BookPrices): { priced: PricedOutlook[]; unpriced: Unpriced[] } {
  const account = costAccount(prices.costs, "full");
  const spreads = { fresh: gramSpread(trial, account, "fresh"), dried: gramSpread(trial, account, "dried") };
  const guessed = pricesWithGuesses(prices)?.list;
  const isLeast = boundOfCosts(prices.costs.doubts) === "at least";
  const priced: PricedOutlook[] = [];
  const unpriced: Unpriced[] = [];
  for (const [place, { product, priced: one }] of prices.list.entries()) {
    const name = productName(product);
    if (one.kind === "cannot-tell") {
      unpriced.push({ name, product, reason: one.reason });
      continue;
    }
    const { unit, breakEven, current } = one;
    const spread = unit.grams.dried > 0 ? spreads.dried : unit.grams.fresh > 0 ? spreads.fresh : certain;
    const costAt = (share: number): number => Math.max(0, unit.full + unit.mushrooms * (share - 1));
    const ends = spread?.low === undefined ? undefined : ([costAt(spread.low), costAt(spread.high)] as const);
    const breakEvenAt = (cost: number): number => {
      const answer: { kind: "price"; price: number } | CannotTell = priceForMargin(cost, termsOf(product), 0);
      return answer.kind === "price" ? roundUpToEnding(answer.price, [], trial.settings.currencyDecimals) : 0;
    };
    const now = "price" in current ? current : undefined;
    const marginAt = (cost: number): number => earningsAt(now!.price, cost, termsOf(product)).margin;
    priced.push({
      name,
      product,
      priced: one,
      isLeast,
      standing: now?.standing ?? "has no price yet",
      ...(breakEven.kind === "listed"
        ? {
            breakEven: {
              value: breakEven.shown,
              ...(ends === undefined ? {} : { low: breakEvenAt(ends[0]), high: breakEvenAt(ends[1]) }),
            },
          }
        : {}),
      ...(now === undefined
        ? {}
        : {
            margin: {
              value: now.margin,
              ...(ends === undefined ? {} : { low: marginAt(ends[1]), high: marginAt(ends[0]) }),
            },
          }),
      ...(now === undefined ? {} : { call: callAt(one, unit.full, now.price) }),
      ...(now === undefined ? {} : withGuesses(one, guessed?.[place]?.priced, now.price)),
      ...(ends === undefined || now === undefined
        ? {}
        : { holds: callAt(one, ends[0], now.price) === callAt(one, ends[1], now.price) }),
      units: spread?.units ?? 0,
      unitName: spread?.unitName ?? "trays",
    });
  }
  return { priced, unpriced };
}
