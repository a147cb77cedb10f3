import { bookCosts, bookPrices } from "../../../analyses/costs/book-prices.ts";
import { gramWord } from "../../../analyses/costs/gram-cost.ts";
import type { CannotTell } from "../../costing/cannot-tell.ts";
import type { ListedPrice } from "../../costing/products/price-list.ts";
import { costAccount } from "../../costing/trays/cost-account.ts";
import { trialOf } from "../../engine/trial-of.ts";
import type { Book } from "../../records/book.ts";
import { formatQuantity } from "../../report/format-quantity.ts";

/** A figure that follows a change at once. */
export interface FigureNow {
  /** the same figure has the same name whatever is changed */
  name: string;
  text: string;
}

/** One product's prices as text. */
export interface PricesNow {
  product: string;
  floor: string;
  breakEven: string;
  target: string;
  current: string;
  margin: string;
  standing: string;
}

/** What can be worked out at once: costs and the price list. */
export interface FiguresNow {
  figures: FigureNow[];
  prices: PricesNow[];
  /** why there are none; "" where there are */
  reason: string;
}

/** Costs and prices of a book, quick enough to follow every keystroke. Answers that need a fit follow by themselves. */
export function figuresNow(book: Book, trial = trialOf(book)): FiguresNow {
  const { settings } = book;
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return { figures: [], prices: [], reason: costs.reason };
  const money = (value: number, unit = "money") => formatQuantity({ value, unit, isNamed: true }, settings);
  const account = costAccount(costs, "full");
  const figures: FigureNow[] = [];
  if (account.kind === "account") {
    const { dried, fresh } = account.perGram;
    if (dried.kind === "gram-cost")
      figures.push({ name: `a good ${gramWord("dried", settings)}`, text: money(dried.withAllLosses, "money/g") });
    if (fresh.kind === "gram-cost")
      figures.push({ name: `a good ${gramWord("fresh", settings)}`, text: money(fresh.withAllLosses, "money/g") });
    figures.push({ name: "a good tray", text: money(account.loss.costPerGoodWithAllLosses) });
    figures.push({ name: "a started tray", text: money(account.loss.costPerStarted) });
  }
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") return { figures, prices: [], reason: prices.reason };
  const shown = (price: ListedPrice | CannotTell): string => (price.kind === "listed" ? money(price.shown) : "–");
  const rows = prices.list.map(({ product, priced }): PricesNow => {
    const name = product.channel === "" ? product.product : `${product.product}, ${product.channel}`;
    if (priced.kind === "cannot-tell") {
      const none = "–";
      return {
        product: name,
        floor: none,
        breakEven: none,
        target: none,
        current: none,
        margin: none,
        standing: priced.reason,
      };
    }
    const { floor, breakEven, target, current } = priced;
    const isPriced = "price" in current;
    return {
      product: name,
      floor: shown(floor),
      breakEven: shown(breakEven),
      target: shown(target),
      current: product.currentPrice === undefined ? "–" : money(product.currentPrice),
      margin: isPriced ? formatQuantity({ value: current.margin, unit: "share" }, settings) : "–",
      standing: isPriced ? current.standing : current.reason,
    };
  });
  return { figures, prices: rows, reason: account.kind === "cannot-tell" ? account.reason : "" };
}
