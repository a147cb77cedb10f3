import { describe, expect, test } from "vitest";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { columnFormat } from "../../src/report/column-format.ts";
import {
  formatEstimate,
  formatProbability,
  formatQuantity,
  formatRange,
  sentenceText,
} from "../../src/report/format-quantity.ts";

const metric = defaultSettings;
const us = { ...defaultSettings, displayUnits: "us", currency: "USD", locale: "en-US" } as const;
/** no-break spaces read as plain ones */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");
const quantity = (value: number, unit: string, settings: typeof metric = metric, more = {}) =>
  plain(formatQuantity({ value, unit, ...more }, settings));
const range = (from: number, to: number, unit: string, settings: typeof metric = metric, more = {}) =>
  plain(formatRange({ from, to, unit, ...more }, settings));

test("doc examples", () => {
  expect(formatQuantity({ value: 12.345, unit: "g" }, defaultSettings)).toBe("12.3\u00a0g");
  expect(plain(formatRange({ from: 12.1, to: 14.6, unit: "g" }, defaultSettings))).toBe("12.1 to 14.6 g");
  expect(formatProbability(0.0004, defaultSettings)).toBe("< 0.001");
  expect(plain(sentenceText(["It gave ", { value: 3, unit: "g", signed: true }, "."], defaultSettings))).toBe(
    "It gave +3 g.",
  );
});

test("the last bits of a sum that should be 0 are written as 0, alone and in a column", () => {
  expect(quantity(0.1 + 0.2 - 0.3, "days")).toBe("0 days");
  expect(quantity(0.1 + 0.2 - 0.3, "money/g")).toBe("€0.00 per g");
  const column = columnFormat({ label: "x", unit: "money/g" }, [0, 0.1 + 0.2 - 0.3], metric);
  expect([0, 0.1 + 0.2 - 0.3].map(column.write)).toEqual(["0.00", "0.00"]);
});

test("a range clear of 0 has a digit at its small end instead of touching 0", () => {
  expect(range(0.031, 3.47, "g")).toBe("0.03 to 3.5 g");
  expect(range(0.3, 14.2, "g")).toBe("0.3 to 14 g");
  expect(range(-3.47, -0.031, "g")).toBe("−3.5 to −0.03 g");
});

describe("digits", () => {
  test.each([
    [0, "g", "0 g"],
    [12, "g", "12 g"],
    [0.8, "days", "0.8 days"],
    [1, "days", "1 day"],
    [1, "trays", "1 tray"],
    [2, "trays", "2 trays"],
    [9.996, "g", "10.0 g"],
    [1234.6, "g", "1,235 g"],
    [123456, "g", "123,456 g"],
    [-2.345, "g", "−2.35 g"],
    [0.04231, "factor", "0.0423"],
    [12.34, "g/tray", "12.3 g per tray"],
    [0.3, "g/shelf day", "0.3 g per shelf day"],
    [3, "cooks", "3 cooks"],
  ])("%d in %s is %s", (value, unit, text) => {
    expect(quantity(value, unit)).toBe(text);
  });
  test("asked for digits are kept, zeros and all", () => {
    expect(quantity(12, "g", metric, { digits: 3 })).toBe("12.0 g");
    expect(quantity(0.5, "share", metric, { digits: 3 })).toBe("50.0%");
  });
  test("gains carry a plus, nothing carries none", () => {
    expect(quantity(3.1234, "g", metric, { signed: true })).toBe("+3.12 g");
    expect(quantity(-3.1234, "g", metric, { signed: true })).toBe("−3.12 g");
    expect(quantity(0, "g", metric, { signed: true })).toBe("0 g");
  });
  test("the width of a range decides its digits", () => {
    expect(range(12.134, 14.632, "g")).toBe("12.1 to 14.6 g");
    expect(range(0.0123, 0.0456, "g")).toBe("0.012 to 0.046 g");
    expect(range(101.3, 912.8, "g")).toBe("101 to 913 g");
    expect(range(10, 13, "mL")).toBe("10 to 13 mL");
    expect(range(-0.34, 3.39, "g", metric, { signed: true })).toBe("−0.3 to +3.4 g");
    expect(range(5, 5, "mL")).toBe("5 to 5 mL");
  });
  test("an infinite end is said in words", () => {
    expect(range(Number.NEGATIVE_INFINITY, 3, "mL")).toBe("3 mL or less");
    expect(range(3, Number.POSITIVE_INFINITY, "mL")).toBe("3 mL or more");
    expect(range(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, "mL")).toBe("any value");
  });
  test("an estimate has the digits its interval can carry", () => {
    const estimate = { label: "", level: 0.95, unit: "g", n: 3, nUnit: "trays", method: "" };
    const { value, interval } = formatEstimate({ ...estimate, value: 3.1234, low: 1.91, high: 4.32 }, metric);
    expect([plain(value), plain(interval)]).toEqual(["3.1 g", "1.9 to 4.3 g"]);
    expect(formatEstimate({ ...estimate, value: 3.1234 }, metric).interval).toBe("");
  });
});

describe("money", () => {
  test.each([
    [12, "money", "€12.00"],
    [1234.567, "money", "€1,234.57"],
    [0.0042, "money", "< €0.01"],
    [-5, "money", "−€5.00"],
    [0.042345, "money/g", "€0.0423 per g"],
    [28.3, "money/kg fresh", "€28.30 per kg fresh"],
  ])("%d %s is %s", (value, unit, text) => {
    expect(quantity(value, unit)).toBe(text);
  });
  test("coins, currencies and places", () => {
    expect(quantity(1234, "money", { ...metric, currency: "JPY", currencyDecimals: 0 })).toBe("JP¥1,234");
    expect(quantity(1234.5, "money", { ...metric, locale: "de-DE" })).toBe("1.234,50 €");
    expect(quantity(1234567.5, "money", { ...metric, locale: "en-IN", currency: "INR" })).toBe("₹12,34,567.50");
    expect(range(1.5, 2.25, "money", us)).toBe("$1.50 to $2.25");
  });
  test("a currency that is no code stands after the number", () => {
    expect(quantity(2, "money", { ...metric, currency: "tokens" })).toBe("2.00 tokens");
  });
});

describe("shares", () => {
  test("are percentages in the place's way", () => {
    expect(quantity(0.358, "share")).toBe("35.8%");
    expect(quantity(0.358, "share", { ...metric, locale: "de-DE" })).toBe("35,8 %");
    expect(range(0.0258, 0.1986, "share")).toBe("3 to 20%");
  });
});

// exact sizes: NIST Handbook 44, appendix C (from memory); 72 °F = 22.22 °C and 64.4 °F = 18 °C by the definition of °F
describe("US units", () => {
  test.each([
    [28.349523125, "g", "1 oz"],
    [100, "g", "3.53 oz"],
    [4535.9237, "g", "10 lb"],
    [1, "kg", "2.2 lb"],
    // syringes are marked in mL (common practice, no source)
    [6, "mL", "6 mL"],
    [0.946352946, "L", "1 qt"],
    [18, "°C", "64.4 °F"],
    [18, "°C difference", "32.4 °F"],
    [0.01, "money/g", "$0.283 per oz"],
    [10, "money/kg", "$4.54 per lb"],
    [1, "g/°C", "0.0196 oz per °F"],
    [453.59237, "g/kg", "7.26 oz per lb"],
  ])("%d %s is %s", (value, unit, text) => {
    expect(quantity(value, unit, us)).toBe(text);
  });
  test("a signed temperature is a difference", () => {
    expect(quantity(2, "°C", us, { signed: true })).toBe("+3.6 °F");
  });
  test("metric stays metric", () => {
    expect(quantity(18, "°C")).toBe("18 °C");
    expect(quantity(2, "°C difference")).toBe("2 °C");
  });
  test("one sentence keeps to one unit", () => {
    const sentence = ["from ", { value: 100, unit: "g" }, " to ", { value: 4535.9237, unit: "g" }];
    expect(plain(sentenceText(sentence, us))).toBe("from 0.22 lb to 10 lb");
  });
});

describe("columns", () => {
  const cells = (values: number[], unit: string, more = {}, settings = metric) => {
    const format = columnFormat({ label: "x", unit, ...more }, values, settings);
    return [format.unit, ...values.map((value) => plain(format.write(value)))];
  };
  test("one unit and one number of decimals", () => {
    expect(cells([12.71, 14.9, 15.62], "g")).toEqual(["g", "12.7", "14.9", "15.6"]);
    expect(cells([4, 8, 12], "mL")).toEqual(["mL", "4", "8", "12"]);
    expect(cells([10, 200, 5000], "g", {}, us)).toEqual(["lb", "0.02", "0.44", "11.02"]);
  });
  test("money and shares leave their sign to the head", () => {
    expect(cells([0.3, 0.227], "money")).toEqual(["€", "0.30", "0.23"]);
    expect(cells([0.0214, 0.0162, 0.0091], "money/g")).toEqual(["€ per g", "0.0214", "0.0162", "0.0091"]);
    expect(cells([0.04, 0.125], "share")[0]).toBe("%");
  });
  test("what would vanish is said to be less", () => {
    expect(cells([0.0992, 0.00000008], "p")).toEqual(["", "0.099", "< 0.001"]);
    expect(cells([12.5, 14.5, 0.0004], "g").at(-1)).toBe("< 0.1");
  });
  // a pound is 453.59237 g exactly: NIST Handbook 44, appendix C
  test("what was weighed in pounds is recorded in whole grams, what was typed in grams as typed", () => {
    const recorded = (values: number[]) =>
      values.map(columnFormat({ label: "x", unit: "g" }, values, metric, true).write);
    expect(recorded([2 * 453.59237, 500])).toEqual(["907", "500"]);
    expect(recorded([33.75, 907.2])).toEqual(["33.75", "907.20"]);
  });
  test("an empty column has a head", () => {
    expect(cells([], "g")).toEqual(["g"]);
  });
});

test("what is no number is refused", () => {
  expect(() => formatQuantity({ value: Number.NaN, unit: "g" }, metric)).toThrow(RangeError);
  expect(() => formatRange({ from: 1, to: Number.NaN, unit: "g" }, metric)).toThrow(RangeError);
  expect(() => formatProbability(Number.NaN, metric)).toThrow(RangeError);
  expect(() => columnFormat({ label: "x" }, [Number.NaN], metric)).toThrow(RangeError);
});

test("a number before its interval in brackets takes the interval's decimals", () => {
  const value = { value: 7.312, unit: "g", signed: true };
  const interval = { from: 4.51, to: 10.16, unit: "g", signed: true };
  expect(plain(sentenceText([value, " (", interval, ")"], metric))).toBe("+7.3 g (+4.5 to +10.2 g)");
  expect(plain(sentenceText([value, " (95 % interval ", interval, ")"], metric))).toBe(
    "+7.3 g (95 % interval +4.5 to +10.2 g)",
  );
  expect(plain(sentenceText([value, " against (1) ", interval], metric))).toBe("+7.31 g against (1) +4.5 to +10.2 g");
  expect(plain(sentenceText([{ ...value, digits: 4 }, " (", interval, ")"], metric))).toBe(
    "+7.312 g (+4.5 to +10.2 g)",
  );
});

test("money per gram beside a range near it has the range's decimals; of another kind of gram its own", () => {
  const gram = (value: number) => ({ value, unit: "money/g" });
  const range = { from: 0.0911, to: 0.1022, unit: "money/g" };
  const fresh = [gram(0.0098), " (", { from: 0.00952, to: 0.01011, unit: "money/g" }, ")"];
  expect(
    plain(sentenceText([gram(0.0954), " (", range, "), fresh ", ...fresh, ", in all ", gram(0.0954)], metric)),
  ).toBe(
    "€0.095 per g (€0.091 to €0.102 per g), fresh €0.00980 per g (€0.00952 to €0.01011 per g), in all €0.095 per g",
  );
  expect(plain(sentenceText([gram(0.18423), " beside ", range, " and ", ...fresh], metric))).toContain(
    "€0.184 per g beside",
  );
  expect(plain(sentenceText(["without ", gram(0.0954)], metric))).toBe("without €0.0954 per g");
});

test("no probability is 0", () => {
  expect([0, 1e-20, 0.0004, 0.04, 1].map((p) => formatProbability(p, metric))).toEqual([
    "< 0.001",
    "< 0.001",
    "< 0.001",
    "0.040",
    "1.000",
  ]);
});

test("a place that is not known falls back", () => {
  expect(quantity(1234.5, "factor", { ...metric, locale: "english" })).toBe("1,235");
  expect(quantity(1234.5, "factor", { ...metric, locale: "not a tag" })).toBe("1,235");
});

test("a rate whose weight stands beside it is said once, and a loss below the coin is nothing", () => {
  expect(quantity(0.3257, "money/g", us, { isNamed: true })).toBe("$9.23");
  expect(range(0.3, 0.35, "money/g", metric, { isNamed: true })).toBe("€0.300 to €0.350");
  expect(quantity(-0.004, "money")).toBe("€0.00");
  expect(quantity(0.004, "money")).toBe("< €0.01");
});
