import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseDate } from "../../src/cleaning/dates/parse-date.ts";
import { currencyMark } from "../../src/cleaning/side-sheets/currency-mark.ts";
import { parseQuantity } from "../../src/cleaning/values/parse-quantity.ts";
import { plainConventions, type QuantityKind } from "../../src/cleaning/values/quantity-reading.ts";

/** Strings of other parsers' tests, with where they are from and under which licence. */
function casesOf<T>(name: string): T[] {
  const { source, licence, cases } = JSON.parse(
    readFileSync(new URL(`../reference/strings-${name}.json`, import.meta.url), "utf8"),
  ) as { source: string; licence: string; cases: T[] };
  expect(source).not.toBe("");
  expect(licence).not.toBe("");
  return cases;
}

const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(b));

describe("strings of other parsers' tests are read as they say, or left open", () => {
  test("dates of dateutil and dateparser", () => {
    // the others turn a time zone into Universal Time, or take 50 and 94 for years of this or the last century at will
    const known = new Set(["1999-12-31 19:00:00 -0500", "3/3/50", "3/3/94", "25 03 Sep"]);
    let read = 0;
    for (const [text, iso] of casesOf<[string, string, string]>("dates")) {
      const reading = parseDate(text);
      if (reading.kind !== "date") continue;
      read++;
      if (!known.has(text)) expect(reading.iso, text).toBe(iso);
    }
    expect(read).toBeGreaterThanOrEqual(75);
  });

  test("prices of price-parser", () => {
    // a minus parted from its price: a list mark there, a minus here; "ft": no price there, forints here
    const known = new Set(["- $44.99", "16.00 ft"]);
    let read = 0;
    for (const [text, amount] of casesOf<[string, number, string?]>("prices")) {
      const reading = parseQuantity(currencyMark(text).amount, "number", plainConventions);
      if (reading.kind !== "value" && reading.kind !== "approximate") continue;
      read++;
      if (!known.has(text))
        expect(close(reading.value, amount), `${text} is ${amount}, read ${reading.value}`).toBe(true);
    }
    expect(read).toBeGreaterThanOrEqual(660);
  });

  test("quantities of quantulum3", () => {
    let read = 0;
    for (const [text, kind, amount] of casesOf<[string, QuantityKind, number]>("quantities")) {
      const reading = parseQuantity(text, kind, plainConventions);
      if (reading.kind === "bounds") {
        const middle = ((reading.low ?? Number.NaN) + (reading.high ?? Number.NaN)) / 2;
        expect(close(middle, amount), text).toBe(true);
        read++;
      }
      if (reading.kind !== "value" && reading.kind !== "approximate") continue;
      read++;
      expect(close(reading.value, amount), `${text} is ${amount}, read ${reading.value}`).toBe(true);
    }
    expect(read).toBeGreaterThanOrEqual(60);
  });
});

test.each([
  ["12,90 zł", "12,90", "PLN"],
  ["12.90 zl", "12.90", "PLN"],
  ["149 Kč", "149", "CZK"],
  ["149 Kc", "149", "CZK"],
  ["89 kr", "89", "SEK"],
  ["89 kr.", "89", "SEK"],
  ["R$ 25,00", "25,00", "BRL"],
  ["45 lei", "45", "RON"],
])("a price of %j is %s in %s", (cell, amount, currency) => {
  const found = currencyMark(cell);
  expect(found.amount).toBe(amount);
  expect(found.currencies).toContain(currency);
  expect(parseQuantity(cell, "number", { ...plainConventions, decimalMark: cell.includes(",") ? "," : "." }).kind).toBe(
    "value",
  );
});
