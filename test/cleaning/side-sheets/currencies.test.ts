import { expect, test } from "vitest";
import { withBookCurrency } from "../../../src/cleaning/side-sheets/book-currency.ts";
import { checkCurrency, markedCurrency } from "../../../src/cleaning/side-sheets/check-currency.ts";
import { currencyMark, isCurrencyCode } from "../../../src/cleaning/side-sheets/currency-mark.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOf, tableOfText } from "./table-of-text.ts";

// codes by ISO 4217; which signs stand for which of them, and the order where one stands for several, is from memory
test.each([
  ["€ 5", ["EUR"]],
  ["£ 5", ["GBP"]],
  ["¥ 5", ["JPY", "CNY"]],
  ["₹ 5", ["INR"]],
  ["₽ 5", ["RUB"]],
  ["₺ 5", ["TRY"]],
  ["₩ 5", ["KRW"]],
  ["5 zł", ["PLN"]],
  ["5 ZŁ", ["PLN"]],
  ["5 zl.", ["PLN"]],
  ["5 Kč", ["CZK"]],
  ["5 kc", ["CZK"]],
  ["5 Ft", ["HUF"]],
  ["R$ 5", ["BRL"]],
  ["r$ 5", ["BRL"]],
  ["5 kr", ["SEK", "NOK", "DKK", "ISK"]],
  ["$5", ["USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"]],
  ["US$5", ["USD"]],
  ["C$5", ["CAD"]],
  ["A$5", ["AUD"]],
  ["NZ$5", ["NZD"]],
  ["5 chf", ["CHF"]],
  ["5 euro", ["EUR"]],
  ["5 Euros", ["EUR"]],
  ["5 dollars", ["USD"]],
  ["1 dollar", ["USD"]],
  ["1 pound", ["GBP"]],
  ["5 pounds", ["GBP"]],
  ["5 francs", ["CHF"]],
  ["5 sfr", ["CHF"]],
  ["5 Franken", ["CHF"]],
  ["5 lei", ["RON"]],
  ["1 leu", ["RON"]],
  ["5 zloty", ["PLN"]],
  ["5 złoty", ["PLN"]],
  ["5 złotych", ["PLN"]],
  ["5 zlotych", ["PLN"]],
  ["5 reais", ["BRL"]],
  ["1 koruna", ["CZK"]],
  ["5 korun", ["CZK"]],
  ["5 kronor", ["SEK"]],
  ["5 forint", ["HUF"]],
  ["5 yen", ["JPY"]],
  ["5", []],
  ["5 xyz", []],
  ["5 krill", []],
  ["5 ab", []],
])("%s is money in %j", (cell, currencies) => {
  expect(currencyMark(cell).currencies).toEqual(currencies);
  expect(currencyMark(cell).mark === "").toBe(currencies.length === 0);
});

test.each([
  ["€12,90", "12,90"],
  ["12.90 EUR", "12.90"],
  ["- £4", "-4"],
  ["+ £4", "+4"],
  ["4 £ - 5", "4 - 5"],
  ["€  5  ", "5"],
  ["22,- €", "22"],
  ["129:-", "129"],
  ["5.–", "5"],
  ["5 , --.", "5"],
  ["5 -", "5 -"],
  [" 5 ", "5"],
  ["5,- each", "5,- each"],
  ["-   £  4", "-4"],
  ["1 200 kr.", "1 200"],
])("%j is an amount of %j", (cell, amount) => {
  expect(currencyMark(cell).amount).toBe(amount);
});

test("a code is one of ISO 4217, in capitals", () => {
  expect(["EUR", "USD", "eur", "EU", "XYZ", ""].map(isCurrencyCode)).toEqual([true, true, false, false, false, false]);
});

const priced = async (...cells: string[]) => {
  const table = await tableOfText(`price,other\n${cells.map((cell) => `"${cell}",$9`).join("\n")}\n`);
  return { table, columns: [{ index: 0, header: "price", unit: "" }] };
};

test.each<[string[], string | undefined]>([
  [["5", "6"], undefined],
  [["5", "£6"], "GBP"],
  [["£5", "£6", "€7"], undefined],
  [["5 kr", "6 DKK"], "DKK"],
  [["6 DKK", "5 kr"], "DKK"],
  [["$5", "5 kr"], undefined],
  [["$5", "$6"], "USD"],
  // a word for money without a number is no money
  [["£", "$6"], "USD"],
])("money of %j is marked in %s", async (cells, currency) => {
  expect(markedCurrency([await priced(...cells)])).toBe(currency);
});

test("rows of money in another currency than the book's are errors that name the cell", async () => {
  const { table, columns } = await priced("5", "$6", "€7", "8 kr", "free £");
  expect(checkCurrency(table, columns, "EUR").foreignRows).toEqual(new Set([3, 5]));
  expect(checkCurrency(table, columns, "NOK").foreignRows).toEqual(new Set([3, 4]));
  expect(checkCurrency(table, columns, "NOK").issues).toMatchObject([
    { row: 3, column: "price", raw: "$6", rule: "two-currencies", severity: "error", setting: "currency" },
    { row: 4, raw: "€7", expected: "money in NOK, the currency of the book" },
  ]);
  const marked = [{ index: 0, header: "price ($)", unit: "$" }];
  expect(checkCurrency(table, marked, "EUR").foreignRows).toEqual(new Set([2, 3, 5]));
});

test("a cell of money is told as typed, without the spaces around it; a book with nothing to change is left as it is", () => {
  const table = tableOf("a.csv", ["price"], [[" $6 "]]);
  const columns = [{ index: 0, header: "price", unit: "" }];
  expect(checkCurrency(table, columns, "EUR").issues).toMatchObject([{ raw: "$6" }]);
  const nothing = { settings: defaultSettings, issues: [] };
  expect(withBookCurrency(defaultSettings, new Set(), [], [])).toEqual(nothing);
  expect(withBookCurrency(defaultSettings, new Set(["currency"]), [table], [])).toEqual(nothing);
  expect(withBookCurrency(defaultSettings, new Set(), [], [table])).toMatchObject({
    settings: { currency: "USD", currencyDecimals: 2 },
    issues: [{ file: "a.csv", rule: "currency-from-sheets", result: "USD", setting: "currency" }],
  });
});
