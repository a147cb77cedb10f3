import { type BookPrices, bookPrices } from "../../analyses/costs/book-prices.ts";
import { type PricedOutlook, priceOutlook, type Unpriced } from "../../analyses/prices/price-outlook.ts";
import { trialOf } from "../engine/trial-of.ts";
import type { Book } from "../records/book.ts";
import { missingMoneyLines } from "./missing-money-lines.ts";
import { openBookFolder, requireTrays } from "./open-book.ts";
import { writeOutputs } from "./output/output-set.ts";
import { PlainFailure } from "./plain-failure.ts";
import { priceListCsv } from "./price-list-csv.ts";
import { priceListText } from "./price-list-text.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import type { Stated } from "./stated-settings.ts";

export interface PricesOptions {
  /** settings and columns stated on the command line */
  set?: ReadonlyArray<Stated>;
  /** file the list is written to as CSV */
  out?: string;
  /** print every number unrounded as JSON instead of the table */
  json?: boolean;
  /** exit code 1 where anything is missing from the money */
  strict?: boolean;
}

/** The list as data: every number unrounded. */
function pricesAsData(
  book: Book,
  prices: BookPrices,
  priced: ReadonlyArray<PricedOutlook>,
  unpriced: ReadonlyArray<Unpriced>,
) {
  return {
    book: book.name,
    currency: book.settings.currency,
    fixedCostPerMonth: prices.fixed?.total ?? null,
    lossesIn: "all losses of the period",
    missing: prices.costs.doubts,
    products: priced.map(({ product, priced: one, standing, breakEven, margin }) => ({
      product: product.product,
      channel: product.channel,
      form: product.form,
      unitCost: one.unit,
      priceFloor: one.floor,
      breakEvenPrice: one.breakEven,
      priceToAsk: one.target,
      currentPrice: one.current,
      quantityPrices: one.quantities,
      standing,
      breakEvenRange: breakEven ?? null,
      marginRange: margin ?? null,
    })),
    notPriced: unpriced.map(({ product, reason }) => ({
      product: product.product,
      channel: product.channel,
      reason,
    })),
  };
}

/**
 * `gramwright prices`: prints the price list of a book, and writes it as CSV when asked to. What is missing from the money
 * is said; the exit code is then 1 only where that was asked for, or where nothing could be priced.
 * @throws PlainFailure when the book has nothing to price, or the file exists or cannot be written
 */
export async function printPrices(path: string, options: PricesOptions): Promise<void> {
  const progress = terminalProgress();
  const outputs =
    options.out === undefined ? [] : [{ path: options.out, kind: "price list" as const, option: "--out" }];
  const { book, folder } = await openBookFolder(path, progress, { set: options.set, outputs });
  progress.done();
  requireTrays(book, path);
  const trial = trialOf(book);
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    const todo = /has no \w+\.csv$/.test(prices.reason)
      ? "Put one into a folder with the harvest sheets, and give that folder; gramwright new <folder> writes one to fill in."
      : `gramwright check ${path} says what was wrong with the sheets.`;
    throw new PlainFailure(`${path}: no prices can be worked out: ${prices.reason}. ${todo}`, 1);
  }
  const { priced, unpriced } = priceOutlook(trial, prices);
  const { doubts } = prices.costs;
  if (priced.length === 0 || (options.strict && doubts.length > 0)) process.exitCode = 1;
  const list = priceListCsv(priced, unpriced, book.settings, { hasMonths: prices.fixed !== undefined, doubts });
  const written = writeOutputs(
    outputs.map((output) => ({ ...output, text: list })),
    folder,
  );
  if (options.json) {
    print(`${JSON.stringify(pricesAsData(book, prices, priced, unpriced), null, 2)}\n`);
    return;
  }
  const title = book.settings.bookTitle === "" ? book.name : book.settings.bookTitle;
  const hasOwnTime = prices.costs.items.some(({ ownerLabour }) => ownerLabour);
  const shown = priceListText(title, priced, unpriced, book.settings, hasOwnTime);
  const lines = [...shown, ...missingMoneyLines(doubts, book.settings)];
  const said = written.length === 0 ? [] : ["", `Written: ${written.join(", ")}`];
  print(`${[...lines, ...said].join("\n")}\n`);
}
