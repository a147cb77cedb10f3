import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { bookPrices } from "../../analyses/costs/book-prices.ts";
import { priceOutlook } from "../../analyses/prices/price-outlook.ts";
import { demoFiles } from "../../data-samples/demo-book.ts";
import { printPrices } from "../../src/cli/command-prices.ts";
import { PlainFailure } from "../../src/cli/plain-failure.ts";
import { priceListCsv } from "../../src/cli/price-list-csv.ts";
import { priceListText } from "../../src/cli/price-list-text.ts";
import type { Product } from "../../src/records/product.ts";
import { moneyTrial } from "../analyses/money-books.ts";
import { line, product, tray } from "../costing/sample-records.ts";

let folder: string;
let printed: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gramwright-prices-"));
  printed = "";
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    printed += String(text);
    return true;
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

/** Writes the demo book, or some sheets of it, into the temporary folder. */
function demoBookFolder(keep: (path: string) => boolean = () => true): string {
  for (const [path, text] of Object.entries(demoFiles())) {
    if (!path.startsWith("demo-book/") || !keep(path)) continue;
    mkdirSync(join(folder, path, ".."), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return join(folder, "demo-book");
}

test("the list of a book is printed in columns as wide as their longest cell, and written as CSV", async () => {
  const out = join(folder, "prices.csv");
  await printPrices(demoBookFolder(), { out });
  const lines = printed.split("\n");
  const head = lines.findIndex((text) => text.startsWith("product "));
  const rows = lines.slice(head + 2, head + 6);
  expect(rows.map((text) => text.split("  ")[0])).toEqual([
    "dried slices 50 g",
    "dried slices 250 g",
    "powder 30 g",
    "fresh punnet 200 g",
  ]);
  // the last column begins at the same place in every row, numbers end at the same place
  const last = lines[head]!.indexOf("the price now");
  for (const row of rows) expect(row.slice(last - 1)).toMatch(/^ \S/);
  expect(printed).toContain(`Written: ${out}`);
  const written = readFileSync(out, "utf8").trimEnd().split("\r\n");
  expect(written).toHaveLength(5);
  expect(written[1]!.split(",").length).toBe(written[0]!.split(",").length);
});

test("an existing file is not written over", async () => {
  const out = join(folder, "prices.csv");
  writeFileSync(out, "mine");
  await expect(printPrices(demoBookFolder(), { out })).rejects.toThrow(PlainFailure);
  expect(readFileSync(out, "utf8")).toBe("mine");
});

test("as JSON every number is there unrounded", async () => {
  await printPrices(demoBookFolder(), { json: true });
  const { products, currency } = JSON.parse(printed) as {
    products: { product: string; unitCost: { full: number; parts: { amount: number }[] } }[];
    currency: string;
  };
  expect(currency).toBe("EUR");
  expect(products).toHaveLength(4);
  const { full, parts } = products[0]!.unitCost;
  expect(parts.reduce((sum, { amount }) => sum + amount, 0)).toBeCloseTo(full, 10);
});

test("a book without costs or products fails in one plain line", async () => {
  const path = demoBookFolder((file) => !file.endsWith("products.csv"));
  await expect(printPrices(path, {})).rejects.toThrow(
    `${path}: no prices can be worked out: the book has no products.csv. Put one into a folder with the harvest sheets, and give that folder; gramwright new <folder> writes one to fill in.`,
  );
});

function listOf(products: Product[]) {
  const trial = moneyTrial(
    [tray({ dryGrams: 100, inoculatedOn: "2026-03-01" })],
    [line({ item: "all", packPrice: 12 })],
    products,
  );
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") throw new Error(prices.reason);
  return { ...priceOutlook(trial, prices), settings: trial.settings };
}

test("names that a spreadsheet would run, or that would move the cursor, are made harmless", () => {
  const hostile = '=HYPERLINK("http://x","y")';
  const { priced, unpriced, settings } = listOf([
    product({ product: hostile, grams: 100, currentPrice: 20 }),
    product({ product: "\u001b[2Jred\u202e", channel: "@shop", grams: 100, currentPrice: 20 }),
  ]);
  const csv = priceListCsv(priced, unpriced, settings, { hasMonths: true, doubts: [] });
  expect(csv.split("\r\n")[1]).toMatch(/^"'=HYPERLINK/);
  expect(csv).toContain(",'@shop,");
  const text = priceListText("book", priced, unpriced, settings, false).join("\n");
  for (const harm of ["\u001b", "\u202e"]) expect(text).not.toContain(harm);
});

test("a product without a cost is listed with the reason, an impossible target too", () => {
  const { priced, unpriced, settings } = listOf([
    product({ product: "fresh", form: "fresh" }),
    product({ product: "dear", grams: 100, feeFraction: 0.5, targetMargin: 0.6 }),
  ]);
  const csv = priceListCsv(priced, unpriced, settings, { hasMonths: true, doubts: [] }).split("\r\n");
  expect(csv[1]).toContain("has no price yet,");
  expect(csv[1]).toContain("the fee leaves a margin below 50% at any price");
  expect(csv[2]).toMatch(/^fresh,web shop,fresh,50,EUR,.*not priced,.*no fresh weights/);
  const text = priceListText("book", priced, unpriced, settings, false).join("\n");
  expect(text).toContain("your own time not");
  expect(priceListText("book", priced, unpriced, settings, true).join("\n")).toContain(", your own time too");
  expect(text).toContain("No price to ask\n  dear, web shop: ");
  expect(text).toContain("Not priced\n  fresh, web shop: ");
});
