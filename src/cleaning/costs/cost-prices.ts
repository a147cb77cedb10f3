import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { fold } from "../../records/words/fold.ts";
import { placesOf } from "../../records/words/languages.ts";
import { listTitled, namesCarriage } from "../../records/words/money-words.ts";
import { perWords } from "../../records/words/per-words.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { costsByName } from "./cost-columns.ts";
import { ofOne, taxIn, yesOrNo } from "./cost-words.ts";
import { baseNamed } from "./read-cost-base.ts";

/** "price per kg", "cost per month": the name of a column of prices, and what a price in it is for. */
const priceFor = new RegExp(
  `^(.+?)\\s*(?:/|(?<!\\p{L})(?:${perWords}|for(?= \\d)|(?<=\\p{Sc} )an?)(?!\\p{L}))\\s*([\\p{L}\\d].{0,18})$`,
  "iu",
);

/** Whether all cells of a column, and there are some, are such. */
function holdsOnly(table: RawTable, index: number, isSuch: (cell: string) => boolean): boolean {
  let [filled, such] = [0, 0];
  table.forEachRow((cells) => {
    const cell = cells[index]!.trim();
    if (cell !== "") filled++;
    if (cell !== "" && isSuch(cell)) such++;
  });
  return filled > 0 && such === filled;
}

const isMoney = (cell: string): boolean => /^\p{Sc}?\s?\d[\d.,]*\s?\p{Sc}?$/u.test(cell.trim());
const perUse = new RegExp(`^(?:${perWords}|each) (.+)$`, "iu");

/**
 * A cost sheet whose lines are called by what they are, "Category", or stand under no name at all, or under one of the
 * grower's own; and whose "Costs" are the things that cost, with money "Per tray" beside them.
 */
export function withItemsNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => costsByName.get(plainName(name))?.key);
  const months = placesOf((words) => words.months);
  // words that are no month and no answer
  const isThing = (cell: string): boolean =>
    /^\p{L}(?!.*(?:19|20)\d\d)/u.test(cell) &&
    !months.has(fold(cell).split(" ")[0]!) &&
    yesOrNo.find(cell)?.misspelt !== false;
  const isThings = (index: number): boolean => holdsOnly(table, index, isThing);
  // "Bought" holds days, or things
  const [own = -1, second] = [...table.header.keys()].filter((index) =>
    table.header[index] === "" ? index === 0 : ["from_date", undefined].includes(keys[index]) && isThings(index),
  );
  // beside things, a "Cost" is their price
  const isOfMoney = (index: number): boolean => isPrice(table.header[index]!) && holdsOnly(table, index, isMoney);
  const named = keys.findIndex((key, index) => key === "item" && !isOfMoney(index));
  const at = [named, keys.indexOf("kind"), second === undefined ? own : -1].find((index) => index >= 0) ?? -1;
  const title = table.header[at] ?? "";
  const hasPrice = table.header.some((name, index) => index !== at && isPrice(priceAndUse(name).price));
  const isOfCosts = (isPrice(title) || listTitled(title) === "costs") && !hasPrice && isThings(at);
  const isUse = (name: string, index: number): boolean =>
    isOfCosts && baseNamed(perUse.exec(name)?.[1] ?? "") !== undefined && holdsOnly(table, index, isMoney);
  const uses = [...table.header.keys()].filter((index) => isUse(table.header[index]!, index));
  if (at < 0 || (keys[at] === "item" && uses.length === 0)) return table;
  const nameOf = (name: string, index: number): string => (uses.includes(index) ? `cost ${name}` : name);
  return { ...table, header: table.header.map((name, index) => (index === at ? "item" : nameOf(name, index))) };
}

/** A cost sheet without a price whose one column of money, each cell with its currency, is its price whatever it is called. */
export function withMoneyAsPrice(table: RawTable): RawTable {
  if (table.header.some((name) => isPrice(priceAndUse(name).price))) return table;
  const hasSign = (cell: string): boolean => /\p{Sc}\s?\d|\d\s?\p{Sc}/u.test(cell);
  const [at, second] = [...table.header.keys()].filter((index) => holdsOnly(table, index, hasSign));
  if (at === undefined || second !== undefined) return table;
  return { ...table, header: table.header.map((name, index) => (index === at ? "price" : name)) };
}

/** Whether a name is that of a price or a cost: "cost", "€", "unit price". */
export function isPrice(name: string): boolean {
  const plain = plainName(name.replace(/[([{].*$/, ""));
  return (
    /^\p{Sc}$/u.test(name) ||
    ["cost", "costs", "paid", "kosten", "koszty"].includes(plain) ||
    costsByName.get(plain)?.key === "pack_price"
  );
}

/** The name of a column of prices without tax that is in them, and what a price in it is for. */
export function priceAndUse(header: string): { price: string; what: string | undefined } {
  const whole = header.trim().replace(taxIn, "");
  const [, price = whole, what] = priceFor.exec(whole) ?? [];
  return { price, what: what?.replace(/\s*[([{].*$/, "") };
}

/** The currency's sign or code in the name of a column. */
const signIn = (header: string): string =>
  currencyMark(/[([{].*$/.exec(header)?.[0] ?? "").mark || (/\p{Sc}/u.exec(header)?.[0] ?? "");

/** A cost sheet with "cost" beside a column of items as its price, and what a price is for set apart in brackets. */
export function withPriceNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => costsByName.get(plainName(name))?.key);
  if (keys.includes("pack_price")) return table;
  const found = table.header.flatMap((name, index) => {
    const isAmountOfMoney = keys[index] === "amount" && signIn(name) !== "";
    if (keys[index] !== undefined && keys[index] !== "item" && !isAmountOfMoney) return [];
    const { price, what } = priceAndUse(name);
    if ((!isPrice(price) && !isAmountOfMoney) || (keys[index] === "item" && what !== undefined)) return [];
    return [{ index, what }];
  });
  const [only, second] = found;
  const hasItem = keys.some((key, index) => key === "item" && index !== only?.index);
  if (only === undefined || second !== undefined || !hasItem) return table;
  const header = table.header[only.index]!;
  const sign = signIn(header);
  const inside =
    only.what === undefined ? (/[([{].*$/.exec(header)?.[0] ?? "") : `(${`${sign} per ${only.what}`.trim()})`;
  const renamed = `price ${inside === "" && sign !== "" ? `(${sign})` : inside}`.trim();
  return { ...table, header: table.header.map((name, index) => (index === only.index ? renamed : name)) };
}

// In the eight languages, from memory.
const withAllTax = /^(?:gross|brutto|lordo|bruto|ttc|(?:total|amount) (?:paid|(?:inc|incl|with) (?:vat|tax)))$/;
const ofTax = /^(?:net|netto|neto|ht|vat|tax|mwst|ust|tva|iva|btw)(?: (?:pct|rate|amount))?$/;

/** A cost sheet with what was paid with all tax as its price; the price before it and the tax are parts of that. */
export function withGrossAsPrice(table: RawTable): RawTable {
  const plain = table.header.map(plainName);
  const [gross, second] = [...plain.keys()].filter((index) => withAllTax.test(plain[index]!));
  if (gross === undefined || second !== undefined || plain.some((name) => costsByName.get(name)?.key === "pack_price"))
    return table;
  const header = table.header.map((name, index) =>
    index === gross ? `price ${/[([].*$/.exec(name)?.[0] ?? ""}`.trim() : ofTax.test(plain[index]!) ? "" : name,
  );
  return { ...table, header };
}

/** A cost sheet with a column of prices for each use, "cost per tray" and "cost per month", of which each line has one. */
export function withPricesByUse(table: RawTable): RawTable {
  const uses = table.header.flatMap((name, index) => {
    const { price, what } = priceAndUse(name);
    return what !== undefined && isPrice(price) && baseNamed(what) !== undefined ? [{ index, what }] : [];
  });
  const filled = (cells: ReadonlyArray<string>) => uses.filter(({ index }) => cells[index]!.trim() !== "");
  let most = 0;
  table.forEachRow((cells) => {
    most = Math.max(most, filled(cells).length);
  });
  if (uses.length < 2 || most !== 1 || table.header.some((name) => costsByName.get(plainName(name))?.key === "per"))
    return table;
  const [first] = uses;
  const sign = signIn(table.header[first!.index]!);
  const isUse = (index: number): boolean => uses.some((use) => use.index === index);
  const nameOf = (index: number): string => (index === first!.index ? (sign === "" ? "cost" : `cost (${sign})`) : "");
  return withRows(
    table,
    [...table.header.map((name, index) => (isUse(index) ? nameOf(index) : name)), "per"],
    (cells) => {
      const [use] = filled(cells);
      const moved = cells.map((cell, index) =>
        use === undefined || !isUse(index) ? cell : index === first!.index ? cells[use.index]! : "",
      );
      return [...moved, use?.what ?? ""];
    },
  );
}

// In the eight languages, from memory.
const nothing = /^(?:|-|0|0[.,]0+|free|none|incl\w*|gratis|kostenlos|gratuite?|offerte?|darmo\w*)$/i;

/** A cost sheet with what bringing a thing cost, in a column beside its price, added to that. */
export function withCarriageAdded(table: RawTable): RawTable {
  const at = table.header.findIndex(namesCarriage);
  const keys = table.header.map((name) => costsByName.get(plainName(name))?.key);
  const isOfPack = (name: string): boolean =>
    isPrice(priceAndUse(name).price) && priceAndUse(name).what === undefined && !ofOne.test(plainName(name));
  const price = table.header.findIndex(isOfPack);
  let isPlain = at >= 0 && price >= 0 && (keys.includes("pack_size") || !keys.includes("pack_unit"));
  table.forEachRow((cells) => {
    isPlain &&= nothing.test(cells[at]!.trim()) || (isMoney(cells[at]!) && isMoney(cells[price]!));
  });
  if (!isPlain) return table;
  const whole = (cells: ReadonlyArray<string>): string =>
    nothing.test(cells[at]!.trim()) ? cells[price]! : `${cells[price]} + ${cells[at]}`;
  return withRows(
    table,
    table.header.map((name, index) => (index === at ? "" : name)),
    (cells) => cells.map((cell, index) => (index === price ? whole(cells) : cell)),
  );
}
