import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { saysWithoutTax } from "../../records/words/money-words.ts";
import { unitNamed } from "../../records/words/units.ts";
import { splitUnit } from "../costs/cost-amount.ts";
import { withTitleAsPrice } from "../costs/cost-titles.ts";
import { taxIn } from "../costs/cost-words.ts";
import { contentsOf } from "../costs/read-measured.ts";
import { addsNothing, matchColumns, plainName } from "../side-sheets/match-side-columns.ts";
import { productSheetColumns } from "./product-columns.ts";
import { ofWeight } from "./read-product-row.ts";

/** A sheet whose one column of prices says what weight they are of, with that in brackets: "price per 100 g". */
function withPriceOfWeight(table: RawTable): RawTable {
  const { found } = matchColumns(table, productSheetColumns);
  const priced = table.header.filter((name) => ofWeight.test(name));
  if (found.has("current_price") || priced.length !== 1) return table;
  return {
    ...table,
    header: table.header.map((name) => (name === priced[0] ? `price (${name.replace(ofWeight, "per $1")})` : name)),
  };
}

/** A sheet whose name of prices, or a line beside its rows, says that tax is in them or on top, with that in a column of its own. */
function withTaxSaid(table: RawTable): RawTable {
  const isIn =
    table.header.some((name) => taxIn.test(name)) ||
    (table.remarks ?? []).some(({ cells }) => taxIn.test(cells.join(" ").trim()));
  const { found } = matchColumns(table, productSheetColumns);
  const aside = found.has("current_price") ? [] : table.header.filter(saysWithoutTax);
  if ((!isIn && aside.length !== 1) || found.has("tax_included")) return table;
  return withRows(
    table,
    [...table.header.map((name) => (name === aside[0] ? "price" : name.replace(taxIn, ""))), "tax_included"],
    (cells) => [...cells, isIn ? "yes" : "no"],
  );
}

/** "Price incl. postage": what the buyer pays for sending is in it. */
const postageIn =
  /(?<=\p{L})\s*[([]?(?:incl\w*|inc|inkl\w*|with|mit)\.? (?:postage|shipping|delivery|p ?& ?p|versand|porto)[)\]]?$/iu;

const isMass = (text: string): boolean => unitNamed(text.trim(), "mass") !== undefined;
const isWeight = (text: string): boolean => {
  const { number, unit } = splitUnit(contentsOf(text));
  return /^\d/.test(number) && isMass(unit);
};

/** A list with several columns of prices as a row for each price, what its column is called under a name of its own. */
function rowForEach(table: RawTable, at: ReadonlyArray<number>, named: string): RawTable {
  const own = (index: number): string => table.header[index]!.replace(/^price\s+|\s+price$/gi, "");
  return {
    ...table,
    header: [...table.header.map((name, index) => (at.includes(index) ? "" : name)), named, "price"],
    forEachRow: (visit) =>
      table.forEachRow((cells, row) => {
        const sold = at.filter((index) => cells[index]!.trim() !== "");
        for (const index of sold) visit([...cells, own(index), cells[index]!], row);
        if (sold.length === 0) visit([...cells, "", ""], row);
      }),
  };
}

/** A price list with a column of prices for each weight, "30 g" and "50 g", as a row for each. */
function withWeightsAcross(table: RawTable): RawTable {
  const { found } = matchColumns(table, productSheetColumns);
  const at = [...table.header.keys()].filter((index) => isWeight(table.header[index]!.replace(/^price\s+/i, "")));
  return at.length < 2 || found.has("grams") || found.has("current_price") ? table : rowForEach(table, at, "pack");
}

// In the eight languages, from memory.
const place =
  /^(?:online|web ?(?:shop|site|store)?|shop|farm ?(?:gate|shop)|market(?: stall)?|stall|hofladen|markt|laden|marché|boutique|mercado|tienda|mercato|negozio|winkel|targ|sklep|loja)(?: price)?$/iu;

/** A price list with a column of prices for each place, "Online" and "Market", as a row for each; with a fee it is asked whose. */
function withPlacesAcross(table: RawTable): RawTable {
  const { found } = matchColumns(table, productSheetColumns);
  const at = [...table.header.keys()].filter((index) => place.test(table.header[index]!.trim()));
  let isMoney = at.length > 1;
  table.forEachRow((cells) => {
    isMoney &&= at.every((index) => /^(?:\p{Sc}?\s?\d[\d.,]*\s?\p{Sc}?)?$/u.test(cells[index]!.trim()));
  });
  const isOther = (["fee_pct", "fee_fixed", "shipping_cost"] as const).some((key) => found.has(key));
  const price = found.get("current_price")?.index;
  return !isMoney || isOther || (price !== undefined && !at.includes(price)) ? table : rowForEach(table, at, "channel");
}

/** A sheet without a column of weights that has one all the same, by its cells: "30 g", or 30 beside "g". */
function withWeights(table: RawTable): RawTable {
  const { found } = matchColumns(table, productSheetColumns);
  if (found.has("grams")) return table;
  const known = new Set([...found.values()].map(({ index }) => index));
  const cells = table.header.map((): string[] => []);
  table.forEachRow((row) => {
    for (const [index, cell] of row.entries()) if (cell.trim() !== "") cells[index]?.push(cell);
  });
  const holds = (index: number, test: (text: string) => boolean): boolean =>
    (cells[index]?.length ?? 0) > 0 && cells[index]!.every(test);
  const free = [...table.header.keys()].filter(
    (index) => !known.has(index) && !addsNothing.test(plainName(table.header[index]!)),
  );
  const weights = free.filter(
    (index) => holds(index, (cell) => isMass(cell) || isWeight(cell)) && !free.includes(index - 1),
  );
  const numbers = free.filter((index) => free.includes(index + 1) && holds(index + 1, isMass));
  const [at, second] = [...weights, ...numbers];
  if (at === undefined || second !== undefined) return table;
  const isParted = numbers.length > 0;
  return {
    ...table,
    header: table.header.map((name, index) => (index === at ? "pack" : isParted && index === at + 1 ? "" : name)),
    forEachRow: (visit) =>
      table.forEachRow((row, number) => {
        const whole = (cell: string): string => (isParted ? `${cell} ${row[at + 1]}`.trim() : cell);
        visit(
          row.map((cell, index) => (index === at ? whole(cell) : cell)),
          number,
        );
      }),
  };
}

/** A sheet whose "Market" or "Shop" holds prices and no places: they are prices there. */
function withPlacesOnly(table: RawTable): RawTable {
  const { found } = matchColumns(table, productSheetColumns);
  const at = found.get("channel")?.index;
  let [filled, priced] = [0, 0];
  table.forEachRow((cells) => {
    const text = at === undefined ? "" : cells[at]!.trim();
    if (text !== "") filled++;
    if (/^\p{Sc}?\s?\d[\d.,]*\s?\p{Sc}?$/u.test(text)) priced++;
  });
  if (filled === 0 || priced < filled) return table;
  const isOnly = !found.has("current_price");
  return {
    ...table,
    header: table.header.map((name, index) => (index !== at ? name : isOnly ? `price (${name})` : `${name} price`)),
  };
}

/** A product sheet with what its names and cells say of it in columns of their own. */
export function productTableOf(typed: RawTable): RawTable {
  const titled = withTitleAsPrice({ ...typed, typedHeader: typed.header }, "product", "price");
  const named = { ...titled, header: titled.header.map((name) => name.replace(postageIn, "")) };
  return withWeights(withWeightsAcross(withPriceOfWeight(withTaxSaid(withPlacesOnly(withPlacesAcross(named))))));
}
