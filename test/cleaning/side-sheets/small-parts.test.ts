import { describe, expect, test } from "vitest";
import { costMeasure, splitUnit } from "../../../src/cleaning/costs/cost-amount.ts";
import { costBase, costKind, yesOrNo } from "../../../src/cleaning/costs/cost-words.ts";
import { currencyMark } from "../../../src/cleaning/side-sheets/currency-mark.ts";
import { dateText, percentText, plainNumberText } from "../../../src/csv/workbook/plain-cell-text.ts";
import { bookOf } from "../book-of.ts";

test.each([
  ["min", { unit: "hour", factor: 1 / 60 }],
  ["Kilograms", { unit: "g", factor: 1000 }],
  // 1 US fluid ounce is 29.5735295625 mL exactly (NIST Handbook 44, appendix C)
  ["fl. oz", { unit: "mL", factor: 29.5735295625 }],
  ["cup", { unit: "mL", factor: 240 }],
  ["kW·h", { unit: "kWh", factor: 1 }],
  ["kWh", { unit: "kWh", factor: 1 }],
  ["week", { unit: "day", factor: 7 }],
  ["Pcs.", { unit: "each", factor: 1 }],
  [" man-hours ", { unit: "hour", factor: 1 }],
  ["fl.  oz", { unit: "mL", factor: 29.5735295625 }],
  ["dozen", { unit: "each", factor: 12 }],
  ["seconds", { unit: "hour", factor: 1 / 3600 }],
  ["Wh", { unit: "kWh", factor: 0.001 }],
  ["MWh", { unit: "kWh", factor: 1000 }],
  ["Monate", { unit: "month", factor: 1 }],
  ["year", { unit: "month", factor: 12 }],
  ["quarterly", { unit: "month", factor: 3 }],
  ["tray-day", { unit: "day", factor: 1 }],
  [" shelf days. ", { unit: "day", factor: 1 }],
  ["g", { unit: "g", factor: 1 }],
  ["syringes", { unit: "each", factor: 1 }],
  ["seringues", { unit: "each", factor: 1 }],
  // a "#" may be a count or pounds
  ["#", undefined],
  ["smidgen", undefined],
  ["", undefined],
])("measure of %s", (text, expected) => {
  expect(costMeasure(text, 240)).toEqual(expected);
});

test.each([
  ["25 kg", "25", "kg"],
  ["100", "100", ""],
  ["1/2 lb", "1/2", "lb"],
  ["½ cup", "½", "cup"],
  ["1.000,5 g", "1.000,5", "g"],
  ["50 bags", "50", "bags"],
  ["50 %", "50 %", ""],
  ["2 of each", "2", "each"],
  ["2 of  each", "2", "each"],
  [" 25  kg ", "25", "kg"],
  ["25kg", "25", "kg"],
  ["25.kg", "25", "kg"],
  ["25, kg", "25", "kg"],
  ["5 part of it", "5", "part of it"],
  ["2 offcuts", "2", "offcuts"],
  ["10 boxes of 5", "10 boxes of 5", ""],
  [" kg ", "kg", ""],
  [" 50 % ", "50 %", ""],
])("number and unit of %s", (cell, number, unit) => {
  expect(splitUnit(cell)).toEqual({ number, unit });
});

test.each([
  ["12.90 EUR", "12.90", "EUR"],
  ["€12,90", "12,90", "EUR"],
  ["$1,200.50", "1,200.50", "USD"],
  ["US$ 4", "4", "USD"],
  ["- £4", "-4", "GBP"],
  ["4 kr.", "4", "SEK"],
  ["3 euros", "3", "EUR"],
  ["12.9", "12.9", undefined],
  ["12 bag", "12 bag", undefined],
  ["12,50 zl", "12,50", "PLN"],
  ["49,99 zł", "49,99", "PLN"],
  ["250 Kč", "250", "CZK"],
  ["250 Kc", "250", "CZK"],
  ["99 kr.", "99", "SEK"],
  ["R$ 12,90", "12,90", "BRL"],
  ["35 lei", "35", "RON"],
  ["1200 Ft", "1200", "HUF"],
])("currency of %s", (cell, amount, currency) => {
  const found = currencyMark(cell);
  expect([found.amount, found.currencies[0]]).toEqual([amount, currency]);
});

test("words of a cost sheet", () => {
  expect(
    ["per tray", "each batch", "Cooker run", "mL of culture", "kg dry", "tray-day", "harvested tray"].map(
      (text) => costBase.find(text)?.answer,
    ),
  ).toEqual(["tray", "cook", "load", "inoculum mL", "kg dried", "shelf day", "good tray"]);
  expect(
    ["Labor", "electricity", "Equipment", "rent", "consumible"].map((text) => costKind.find(text)?.answer),
  ).toEqual(["labour", "energy", "reusable", "space", "consumable"]);
  expect(yesOrNo.find("TRUE")?.answer).toBe("yes");
  expect(costBase.find("day")).toBeUndefined();
});

test("text of workbook values", () => {
  expect([0.1, 1234567.5, -0, 1e-7].map(plainNumberText)).toEqual(["0.1", "1234567.5", "0", "1e-7"]);
  expect([0.129, 0.07, 1.1, 0.29].map(percentText)).toEqual(["12.9%", "7%", "110%", "29%"]);
  expect(dateText(new Date(Date.UTC(2026, 2, 4, 13, 29, 59, 999)))).toBe("2026-03-04T13:30");
  expect(dateText(new Date(Date.UTC(1899, 11, 30, 13, 30)))).toBe("13:30");
  expect(dateText(new Date(Number.NaN))).toBe("#NUM!");
});

describe("the currency of a book that states none is the one all its money is marked in", () => {
  const trays = "tray,dose ml,fresh g\nT1,10,200\nT2,20,210\n";
  const of = async (costs: string, products = "", stated = "") => {
    const {
      settings,
      issues,
      costLines = [],
    } = await bookOf({
      "trays.csv": trays,
      "costs.csv": `item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per\n${costs}`,
      ...(products === "" ? {} : { "products.csv": `product,form,grams,price\n${products}` }),
      ...(stated === "" ? {} : { "settings.csv": `key,value\n${stated}` }),
    });
    const { currency, currencyDecimals } = settings;
    const rules = issues.filter(({ rule }) => /currenc/.test(rule)).map(({ rule, severity }) => `${rule}: ${severity}`);
    return { currency, currencyDecimals, rules, counted: costLines.length };
  };
  const straw = (price: string) => `straw,ingredient,${price},5,kg,2,kg,cook\n`;
  const taken = "currency-from-sheets: warning";

  test.each<[string, Awaited<ReturnType<typeof of>>, Parameters<typeof of>]>([
    ["nothing is marked", { currency: "EUR", currencyDecimals: 2, rules: [], counted: 1 }, [straw("10")]],
    ["marked as it is anyway", { currency: "EUR", currencyDecimals: 2, rules: [], counted: 1 }, [straw("€10")]],
    ["all in dollars", { currency: "USD", currencyDecimals: 2, rules: [taken], counted: 1 }, [straw("$10")]],
    ["yen have no cents", { currency: "JPY", currencyDecimals: 0, rules: [taken], counted: 1 }, [straw("¥1000")]],
    [
      "but where decimals are stated, those",
      { currency: "JPY", currencyDecimals: 2, rules: [taken], counted: 1 },
      [straw("¥1000"), "", "currency_decimals,2\n"],
    ],
    [
      "a sign of several currencies is the one that a code names",
      { currency: "DKK", currencyDecimals: 2, rules: [taken], counted: 1 },
      [straw("100 kr"), "slices,dried,50,80 DKK\n"],
    ],
    [
      "two currencies: the book's, and what is in another is not added up",
      { currency: "EUR", currencyDecimals: 2, rules: ["two-currencies: error"], counted: 1 },
      [straw("$10") + straw("€9").replace("straw", "bran")],
    ],
    [
      "a stated currency stays",
      { currency: "GBP", currencyDecimals: 2, rules: ["two-currencies: error"], counted: 0 },
      [straw("$10"), "", "currency,GBP\n"],
    ],
  ])("%s", async (_, expected, book) => {
    expect(await of(...book)).toEqual(expected);
  });

  test("products alone tell it, and a mark in the header counts for cells without one of their own", async () => {
    const book = (products: string) => bookOf({ "trays.csv": trays, "products.csv": products });
    const currencyOf = async (products: string) => (await book(products)).settings.currency;
    expect(await currencyOf("product,form,grams,price\nslices,dried,50,£8\n")).toBe("GBP");
    expect(await currencyOf("product,form,grams,price (USD)\nslices,dried,50,8\n")).toBe("USD");
    expect(await currencyOf("product,form,grams,price (USD)\nslices,dried,50,£8\n")).toBe("GBP");
    expect(await currencyOf("product,form,grams,price (USD)\nslices,dried,50,£8\nbox,dried,90,9\n")).toBe("EUR");
    expect(await currencyOf("product,form,grams,price (USD)\nslices,dried,50,\n")).toBe("EUR");
  });
});

test("money that could not be read is on the book with its row, and a book that is read whole has none", async () => {
  const unread = async (files: Record<string, string>) =>
    (await bookOf({ "trays.csv": "tray,dose ml,fresh g\nT1,10,200\nT2,20,210\n", ...files })).unread?.map(
      ({ sheet, name, source, inUse }) => [sheet, name, source.file, source.row, inUse],
    );
  expect(await unread({})).toBeUndefined();
  expect(await unread({ "settings.csv": "key,value\nshelf_places,40\n" })).toBeUndefined();
  expect(await unread({ "settings.csv": "key,value\nbook_title,mine\nshelf_places,many\n" })).toEqual([
    ["settings", "shelf_places", "settings.csv", 3, true],
  ]);
  expect(await unread({ "settings.csv": "key,value\nowner_labour_rate,a lot\n" })).toEqual([
    ["settings", "owner_labour_rate", "settings.csv", 2, false],
  ]);
  const costs =
    "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per\nstraw,ingredient,dear,5,kg,2,kg,cook\n";
  expect(await unread({ "costs.csv": costs })).toEqual([["costs", "straw", "costs.csv", 2, false]]);
});

test("a number out of a setting's range is told the range", async () => {
  const said = async (line: string) =>
    (
      await bookOf({
        "trays.csv": "tray,dose ml,fresh g\nT1,10,200\nT2,20,210\n",
        "settings.csv": `key,value\n${line}\n`,
      })
    ).issues
      .filter(({ file, severity }) => file === "settings.csv" && severity !== "note")
      .map(({ expected }) => expected);
  expect((await said("shelf_places,-3")).join()).toContain("shelf_places, 1 to");
  expect((await said("owner_labour_rate,-3")).join()).toContain("owner_labour_rate, 0 to");
  expect((await said("fruiting_high_c,90")).join()).toContain("fruiting_high_c, -10 to 50 °C");
});
