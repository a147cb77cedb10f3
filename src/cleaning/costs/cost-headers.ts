import { costColumns } from "../../records/cost-line.ts";
import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { perWords } from "../../records/words/per-words.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import {
  columnsByName,
  matchColumns,
  plainName,
  type SideColumn,
  sideColumns,
} from "../side-sheets/match-side-columns.ts";
import { costMeasure } from "./cost-amount.ts";
import { withBasesSaid, withMonthsAdded, withTimeBehind, withTitleAsPrice } from "./cost-titles.ts";
import { ownTimeNames, taxIn } from "./cost-words.ts";
import { baseNamed } from "./read-cost-base.ts";
import type { CostColumn } from "./read-measured.ts";

const names: Readonly<Record<CostColumn, string>> = {
  item: "name|what|task|job|cost|cost line|cost item|description|product|article|thing|ingredient|material|expense",
  kind: "type|category|cost kind|cost type|class|group",
  pack_price:
    "price|cost per pack|pack cost|price per pack|price paid|unit price|unit cost|cost per unit|price per unit|price per piece|price each|cost each|cost price|how much paid|price of a pack|rate|wage|tariff|spend|spent|bought for|paid for it",
  pack_size:
    "size|pack|quantity per pack|qty per pack|contents|pack quantity|pack qty|units per pack|package size|how much|how many|amount bought|quantity bought|qty bought|items per pack|pieces per pack|number per pack|pcs per pack",
  pack_unit: "unit|units|size unit|unit of pack|pack size unit|uom",
  amount: "used|amount used|quantity|qty|usage|use|quantity used|qty used|amount per use|helping|time|duration",
  amount_unit: "used unit|unit used|usage unit|unit of amount|quantity unit|qty unit",
  per: "how often|frequency|per what|for|what for|base|basis|each|used per|amount per|for each|goes to",
  watts: "watt|w|kw|kilowatts|power|power w|power kw|wattage|rated power|rated watts",
  hours: "hours used|run time|runtime|running hours|hours on|hours per use",
  duty_pct: "duty|duty cycle|share of time on|duty percent|duty cycle pct|load factor",
  uses: "number of uses|life uses|uses before replacement|reuses|times used|life in uses",
  life_years:
    "life|years|yields|makes|enough for|lifetime|lifetime years|life in years|useful life|service life|lasts|lasts for|how long it lasts",
  uses_per_year: "uses a year|uses year|runs per year|annual uses|yearly uses|runs a year",
  salvage: "salvage value|residual value|resale|resale value|recovery value|scrap value|recovered",
  breakage_pct: "breakage|broken|breakage rate|share broken|breakage percent|loss per use",
  expands_to_jars: "jars|makes jars|jars made|expands to|jars per pack|jars from it",
  owner_labour: ownTimeNames,
  only_where_column: "only where|where column|only for column|applies to column|condition column|if column",
  only_where_value: "where value|only for value|only for|applies to|condition value|equals|if value",
  stage: "phase|step|when spent|spent at",
  from_date:
    "from|date|bought on|date bought|purchase date|bought|since|valid from|price date|start date|effective from|effective",
  pack_price_low: "price low|low price|lowest price|min price|minimum price|price min",
  pack_price_high: "price high|high price|highest price|max price|maximum price|price max",
  normal_trays_per_month: "normal trays|trays per month|normal capacity|capacity|normal trays a month",
  note: "notes|comment|comments|remark|remarks|info|supplier",
};
/** The columns of costs.csv with the other names people give them. */
export const costSheetColumns: ReadonlyArray<SideColumn<CostColumn>> = sideColumns(
  costColumns,
  withMoneyWords("costs", names),
);

/** Columns of costs.csv that hold money. */
export const costMoneyColumns: ReadonlyArray<CostColumn> = [
  "pack_price",
  "salvage",
  "pack_price_low",
  "pack_price_high",
];

export const textColumns: ReadonlyArray<CostColumn> = [
  "item",
  "kind",
  "pack_unit",
  "amount_unit",
  "per",
  "owner_labour",
  "only_where_column",
  "only_where_value",
  "stage",
  "from_date",
  "note",
];

const byName = columnsByName(costSheetColumns);

/** "per tray", "used per cook": a column of amounts whose name says what one use goes to. */
const baseInName = new RegExp(
  `^(?:(?:amount|used|units?|number|count|pieces|pcs|usage|use|quantity|qty|menge|verbrauch|verwendet|quantit[éà]|utilisée?|cantidad|usad[oa]|usat[oa]|hoeveelheid|verbruik|gebruikt|ilość|zużycie|quantidade|g|kg|ml|l|oz|lbs?|min|minutes|hours|kwh)\\s+)?(?:for each|each|for(?= \\d)|${perWords})\\s+(.+)$`,
  "iu",
);

/** "(g)" or "g" behind a name. */
const inUnit = /\s*(?:[([{][^)\]}]*[)\]}]|(?<=\s)(?:g|kg|ml|oz|lbs?|min|h|pcs))\s*$/i;

/** "g per tray" */
const unitBefore = /^(?:g|kg|ml|l|oz|lbs?|min|minutes|hours|kwh)(?= )/i;

/** "(g/tray)", "(min per cook)" behind a name of amounts. */
const unitForUse = new RegExp(
  `\\s*[([]\\s*(\\p{L}+)\\s*(?:/|(?:${perWords})(?!\\p{L}))\\s*([^)\\]]+)[)\\]]\\s*$`,
  "iu",
);

/** "Used (g/tray)" as "Used per tray (g)", "Pack size (kg/bag)" as "Pack size (kg)". */
const withUseInName = (name: string): string => {
  const [whole = "", unit = "", use = ""] = unitForUse.exec(name) ?? [];
  if (costMeasure(unit, 1) === undefined) return name;
  const what = name.slice(0, -whole.length);
  if (byName.get(plainName(what))?.key === "pack_size") return `${what} (${unit})`;
  return baseNamed(use) === undefined ? name : `${what} per ${use} (${unit})`;
};

const priceOfPack = /^(?:price|cost)s? (?:per|a) (bag|sack|box|pack|bottle|roll|case|tub|bucket)s?\b/i;

/** The names of a sheet, "kg per bag" beside "price per bag" as what a pack holds. */
function withPackInName(header: ReadonlyArray<string>): string[] {
  const pack = header.flatMap((name) => priceOfPack.exec(name.trim())?.[1] ?? [])[0];
  const held = new RegExp(`^(.*?)\\s*per ${pack ?? "-"}$`, "i");
  return header.map((name) => (priceOfPack.test(name.trim()) ? name : name.trim().replace(held, "pack_size ($1)")));
}

/** A cost sheet whose column of amounts names what they go to, with that in a column of its own. */
function withBaseOfHeader(typed: RawTable): RawTable {
  const table = { ...typed, header: withPackInName(typed.header).map(withUseInName) };
  const baseOf = (name: string): string => baseInName.exec(name.replace(inUnit, "").trim())?.[1] ?? "";
  const at = table.header.findIndex((name) => baseNamed(baseOf(name)) !== undefined);
  const base = at < 0 ? undefined : baseOf(table.header[at]!);
  const keys = table.header.map((name, index) => (index === at ? undefined : byName.get(plainName(name))?.key));
  // beside what a tray takes, "per kg" is what the price is for
  const ofPrice = keys.includes("pack_size") || keys.includes("pack_unit") ? -1 : keys.indexOf("per");
  if (ofPrice >= 0 && base !== undefined)
    return withBaseOfHeader({
      ...table,
      header: table.header.map((name, index) => (index === ofPrice ? "pack_size" : name)),
    });
  const named = table.header.map((name, index) => (index === at ? "" : plainName(name)));
  if (base === undefined || ["per", "amount", "used"].some((name) => named.includes(name))) return table;
  // beside the amount of one use, a bare quantity is what a pack holds
  const hasSize = named.some((name) => byName.get(name)?.key === "pack_size");
  return {
    ...table,
    header: [
      ...table.header.map((name, index) =>
        index === at
          ? `amount${inUnit.exec(name)?.[0] ?? unitBefore.exec(name)?.[0].replace(/.+/, " ($&)") ?? ""}`
          : !hasSize && byName.get(named[index]!)?.key === "amount"
            ? "pack_size"
            : name,
      ),
      "per",
    ],
    // a rent per month has no amount per tray
    forEachRow: (visit) =>
      table.forEachRow((cells, row) => visit([...cells, cells[at]!.trim() === "" ? "" : base], row)),
  };
}

// In the eight languages, from memory.
const bareQuantity = /^(?:quantity|qty|amount|menge|anzahl|quantit[ea]|cantidad|hoeveelheid|aantal|ilosc|quantidade)$/;

/** A cost sheet with what is used beside a bare quantity, which is then what a pack holds. */
function withPackOfQuantity(table: RawTable): RawTable {
  const names = table.header.map((name) => plainName(name.replace(inUnit, "")));
  const of = (key: string): string[] => names.filter((name) => byName.get(name)?.key === key);
  const bare = of("amount").filter((name) => bareQuantity.test(name));
  if (of("amount").length !== 2 || bare.length !== 1 || of("pack_size").length > 0) return table;
  const packed = (name: string) => `pack_size${inUnit.exec(name)?.[0] ?? ""}`;
  return { ...table, header: table.header.map((name, index) => (names[index] === bare[0] ? packed(name) : name)) };
}

/** "price per kg", "cost per month": the name of a column of prices, and what a price in it is for. */
const priceFor = new RegExp(
  `^(.+?)\\s*(?:/|(?<!\\p{L})(?:${perWords}|for(?= \\d))(?!\\p{L}))\\s*([\\p{L}\\d].{0,18})$`,
  "iu",
);

/** A cost sheet whose lines are called by what they are, "Category", or stand under no name at all. */
function withItemsNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => byName.get(plainName(name))?.key);
  if (keys.includes("item")) return table;
  const unnamed = table.header[0] === "" ? 0 : -1;
  const at = keys.includes("kind") ? keys.indexOf("kind") : unnamed;
  return { ...table, header: table.header.map((name, index) => (index === at ? "item" : name)) };
}

/** Whether a name is that of a price or a cost: "cost", "€", "unit price". */
function isPrice(name: string): boolean {
  const plain = plainName(name.replace(/[([{].*$/, ""));
  return (
    /^\p{Sc}$/u.test(name) ||
    ["cost", "costs", "paid", "kosten", "koszty"].includes(plain) ||
    byName.get(plain)?.key === "pack_price"
  );
}

/** The name of a column of prices without tax that is in them, and what a price in it is for. */
function priceAndUse(header: string): { price: string; what: string | undefined } {
  const whole = header.trim().replace(taxIn, "");
  const [, price = whole, what] = priceFor.exec(whole) ?? [];
  return { price, what: what?.replace(/\s*[([{].*$/, "") };
}

/** The currency's sign or code in the name of a column. */
const signIn = (header: string): string =>
  currencyMark(/[([{].*$/.exec(header)?.[0] ?? "").mark || (/\p{Sc}/u.exec(header)?.[0] ?? "");

/** A cost sheet with "cost" beside a column of items as its price, and what a price is for set apart in brackets. */
function withPriceNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => byName.get(plainName(name))?.key);
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
function withGrossAsPrice(table: RawTable): RawTable {
  const plain = table.header.map(plainName);
  const [gross, second] = [...plain.keys()].filter((index) => withAllTax.test(plain[index]!));
  if (gross === undefined || second !== undefined || plain.some((name) => byName.get(name)?.key === "pack_price"))
    return table;
  const header = table.header.map((name, index) =>
    index === gross ? `price ${/[([].*$/.exec(name)?.[0] ?? ""}`.trim() : ofTax.test(plain[index]!) ? "" : name,
  );
  return { ...table, header };
}

/** A cost sheet with a column of prices for each use, "cost per tray" and "cost per month", of which each line has one. */
function withPricesByUse(table: RawTable): RawTable {
  const uses = table.header.flatMap((name, index) => {
    const { price, what } = priceAndUse(name);
    return what !== undefined && isPrice(price) && baseNamed(what) !== undefined ? [{ index, what }] : [];
  });
  const filled = (cells: ReadonlyArray<string>) => uses.filter(({ index }) => cells[index]!.trim() !== "");
  let most = 0;
  table.forEachRow((cells) => {
    most = Math.max(most, filled(cells).length);
  });
  if (uses.length < 2 || most !== 1 || table.header.some((name) => byName.get(plainName(name))?.key === "per"))
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

/** What names and cells say, each put into columns of its own before the next looks at them. */
const shapes = [
  ...[withMonthsAdded, withGrossAsPrice, withItemsNamed, withBasesSaid],
  ...[withPricesByUse, withBaseOfHeader, withPackOfQuantity, withPriceNamed],
];

/** A cost sheet with its columns found; as it was typed where no name of them makes a price of one. */
export function costColumnsOf(typed: RawTable) {
  const hasAmount = typed.header.some((name) => ["amount", "watts"].includes(byName.get(plainName(name))?.key ?? ""));
  const named = withTitleAsPrice(
    { ...typed, header: typed.header.map((name) => withTimeBehind(name, hasAmount)) },
    "item",
    "cost",
  );
  const table = shapes.reduce((made, shape) => shape(made), named);
  const matched = matchColumns(table, costSheetColumns);
  return matched.found.has("pack_price") || matched.found.has("owner_labour")
    ? { table, ...matched }
    : { table: typed, ...matchColumns(typed, costSheetColumns) };
}
