import { demoFiles } from "../../data-samples/demo-book.ts";
import type { Answer, Outcome, Table, Trial } from "../../src/analysis.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Product } from "../../src/records/product.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { sheet } from "../cleaning/book-of.ts";
import { settings } from "../costing/sample-records.ts";

/** What an analysis sees of trays with what they cost and what is sold. */
export const moneyTrial = (
  trays: Tray[],
  costLines: CostLine[],
  products: Product[],
  stated: Partial<Settings> = {},
): Trial => ({
  trays,
  costLines,
  products,
  settings: settings(stated),
  temperatureLog: [],
  issues: [],
  memo: new Memo(),
});

/** The demo book, cleaned. */
export async function demoMoneyTrial(): Promise<Trial> {
  const files = demoFiles();
  const paths = ["costs.csv", "products.csv", "settings.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"];
  const sheets = paths.map((path) => sheet(path, files[`demo-book/${path}`]!));
  return trialOf(await cleanBook(sheets, { name: "demo" }));
}

/** @throws Error with what could not be answered, when there is no answer */
export function answerOf(outcome: Outcome): Answer {
  if (outcome.kind === "answer") return outcome;
  throw new Error(outcome.reason.map((part) => (typeof part === "string" ? part : JSON.stringify(part))).join(""));
}

/** A cell of a table by the start of its caption, its row's first cell and its column's label (the first one of that name). */
export function cellOf(
  outcome: Outcome,
  caption: string,
  row: string | number,
  column: string,
): string | number | null {
  const table = outcome.tables.find((one) => one.caption.startsWith(caption));
  if (table === undefined)
    throw new Error(`no table ${caption}: ${outcome.tables.map((one) => one.caption).join("; ")}`);
  return cellIn(table, row, column);
}

function cellIn(table: Table, row: string | number, column: string): string | number | null {
  const place = table.columns.findIndex(({ label }) => label === column);
  const cells = table.rows.find(([first]) => first === row);
  if (place < 0 || cells === undefined) throw new Error(`no cell ${row}, ${column} in ${table.caption}`);
  return cells[place]!;
}

/** The text of a sentence with its numbers left out. */
export const wordsOf = (sentence: ReadonlyArray<unknown>): string =>
  sentence.map((part) => (typeof part === "string" ? part : "#")).join("");

/** Every amount of money in a trial times a factor: the same book in another currency. */
export function inOtherCurrency(trial: Trial, times: number): Trial {
  const scaled = (value: number | undefined) => (value === undefined ? {} : value * times);
  const keep = <K extends string>(key: K, value: number | undefined) =>
    value === undefined ? {} : ({ [key]: scaled(value) } as Record<K, number>);
  return {
    ...trial,
    costLines: trial.costLines!.map((line) => ({
      ...line,
      packPrice: line.packPrice * times,
      ...keep("salvage", line.salvage),
      ...keep("packPriceLow", line.packPriceLow),
      ...keep("packPriceHigh", line.packPriceHigh),
    })),
    products: trial.products!.map((product) => ({
      ...product,
      packagingCost: product.packagingCost * times,
      shippingCost: product.shippingCost * times,
      shippingCharged: product.shippingCharged * times,
      feeFixed: product.feeFixed * times,
      ...keep("currentPrice", product.currentPrice),
    })),
    settings: {
      ...trial.settings,
      ownerLabourRate: trial.settings.ownerLabourRate * times,
      recoveredPerLostTray: trial.settings.recoveredPerLostTray * times,
      dryingCostPerKgFresh: trial.settings.dryingCostPerKgFresh * times,
    },
  };
}
