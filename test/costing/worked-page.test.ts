import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { type BookPrices, bookPrices } from "../../analyses/costs/book-prices.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { earningsAt, termsOf } from "../../src/costing/products/price.ts";
import type { PricedProduct } from "../../src/costing/products/price-list.ts";
import { costAccount } from "../../src/costing/trays/cost-account.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import type { Book } from "../../src/records/book.ts";
import { assertClose } from "../agreement.ts";
import { sheet } from "../cleaning/book-of.ts";

const section = readFileSync(new URL("../../docs/worked-price.md", import.meta.url), "utf8");

/** The sheets on the page: a file name in back quotes, and the block of CSV under it. */
const sheets = [...section.matchAll(/^`([\w./-]+\.csv)`\n\n```csv\n([\s\S]*?)```/gm)].map((match) =>
  sheet(match[1]!, match[2]!),
);

/** The rows of the page's table whose first head is given, as text. */
function tableOf(head: string): string[][] {
  const lines = section.split("\n");
  const start = lines.findIndex((line) => line.startsWith(`| ${head} |`));
  if (start < 0) throw new Error(`the page has no table that starts with ${head}`);
  const end = lines.findIndex((line, index) => index > start && !line.startsWith("|"));
  return lines.slice(start + 2, end).map((line) =>
    line
      .slice(1, -1)
      .split("|")
      .map((cell) => cell.trim()),
  );
}

/** A printed figure is right to half a unit of its last digit. */
function assertPrinted(printed: string | undefined, value: number): void {
  expect(printed).toMatch(/^\d+(\.\d+)?$/);
  const decimals = printed!.split(".")[1]?.length ?? 0;
  assertClose(value, Number(printed), 0.5 * 10 ** -decimals * (1 + 1e-9));
}

let book: Book;
let prices: BookPrices;
let priced: PricedProduct;

beforeAll(async () => {
  book = await cleanBook(sheets, { name: "worked" });
  const worked = bookPrices(trialOf(book));
  if (worked.kind === "cannot-tell") throw new Error(worked.reason);
  prices = worked;
  const only = prices.list[0]!.priced;
  if (only.kind === "cannot-tell") throw new Error(only.reason);
  priced = only;
});

test("the page's sheets are read without an error or a flag", () => {
  expect(sheets.map(({ path }) => path)).toEqual(["harvests/worked.csv", "costs.csv", "products.csv", "settings.csv"]);
  expect(book.issues.filter(({ severity }) => severity === "error" || severity === "warning")).toEqual([]);
  expect(book.trays).toHaveLength(10);
});

test("what a good and a lost tray cost, line by line", () => {
  const { costs } = prices;
  const placeOf = (wanted: string) => costs.trays.findIndex(({ outcome }) => outcome === wanted);
  const [good, lost] = [placeOf("good"), placeOf("contaminated")];
  const rows = tableOf("line");
  expect(rows.slice(0, -1).map(([item]) => item)).toEqual(costs.items.map(({ item }) => item));
  for (const [item, , printedGood, printedLost] of rows) {
    const row = costs.items.findIndex((one) => one.item === item);
    const amount = (tray: number) => (item === "together" ? costs.totals : costs.amounts[row]!)[tray]!;
    assertPrinted(printedGood, amount(good));
    assertPrinted(printedLost, amount(lost));
  }
});

test("what trays and grams cost", () => {
  const account = costAccount(prices.costs, "full");
  if (account.kind === "cannot-tell") throw new Error(account.reason);
  const { dried, fresh } = account.perGram;
  const figures: Record<string, number | undefined> = {
    "cost of a started tray": account.loss.costPerStarted,
    "cost of a good tray": account.loss.costPerGood,
    "cost of a dry gram": "withAllLosses" in dried ? dried.withAllLosses : undefined,
    "cost of a fresh gram": "withAllLosses" in fresh ? fresh.withAllLosses : undefined,
  };
  const rows = tableOf("figure");
  expect(rows.map(([name]) => name)).toEqual(Object.keys(figures));
  for (const [name, , printed] of rows) assertPrinted(printed, figures[name!]!);
});

test("what a bag costs, part by part", () => {
  const [mushrooms, packaging, work, sending] = priced.unit.parts.map(({ amount }) => amount);
  const amounts = [mushrooms, packaging, work, sending, priced.unit.full];
  const rows = tableOf("part of a bag");
  expect(rows).toHaveLength(amounts.length);
  rows.forEach(([, , printed], index) => {
    assertPrinted(printed, amounts[index]!);
  });
});

test("what to ask, and what two prices earn", () => {
  const { breakEven, target, unit, product, current } = priced;
  if (breakEven.kind !== "listed" || target.kind !== "listed" || !("price" in current)) throw new Error("no price");
  const rows = tableOf("price");
  assertPrinted(rows[0]![2], breakEven.exact);
  assertPrinted(rows[0]![3], breakEven.shown);
  assertPrinted(rows[1]![2], target.exact);
  assertPrinted(rows[1]![3], target.shown);
  const earned = tableOf("at a price of");
  expect(earned.map(([price]) => Number(price))).toEqual([target.shown, current.price]);
  for (const [price, profit, margin, markup] of earned) {
    const earns = earningsAt(Number(price), unit.full, termsOf(product));
    assertPrinted(profit, earns.profit);
    assertPrinted(margin, earns.margin * 100);
    assertPrinted(markup, earns.markup * 100);
  }
  expect(current.standing).toBe("below the target margin");
});
