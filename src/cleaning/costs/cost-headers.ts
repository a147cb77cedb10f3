import type { RawTable } from "../../records/sheet.ts";
import { perWords } from "../../records/words/per-words.ts";
import { matchColumns, plainName } from "../side-sheets/match-side-columns.ts";
import { costMeasure } from "./cost-amount.ts";
import { costSheetColumns, costsByName } from "./cost-columns.ts";
import {
  isPrice,
  priceAndUse,
  withCarriageAdded,
  withGrossAsPrice,
  withItemsNamed,
  withMoneyAsPrice,
  withPriceNamed,
  withPricesByUse,
} from "./cost-prices.ts";
import { withBasesSaid, withMonthsAdded, withTimeBehind, withTitleAsPrice } from "./cost-titles.ts";
import { baseNamed } from "./read-cost-base.ts";

/** "per tray", "used per cook": a column of amounts whose name says what one use goes to. */
const baseInName = new RegExp(
  `^(?:(\\p{L}[\\p{L} ]*?)(?:\\s+|(?=/)))??(?:(?:for each|each|for(?= \\d)|${perWords})\\s+|/ ?)(.+)$`,
  "iu",
);

/** Behind "per", what a pack may be called as well as a tray. */
const container =
  /^(?:bag|sack|box|pack|case|container|beutel|karton|kiste|sac|bolsa|caja|sacco|zak|doos|worek|saco)s?$/i;

/** "(g)" or "g" behind a name. */
const inUnit = /\s*(?:[([{][^)\]}]*[)\]}]|(?<=\s)(?:g|kg|ml|oz|lbs?|min|h|pcs))\s*$/i;

/** "g per tray" */
const unitBefore = /^(?:g|kg|ml|l|oz|lbs?|min|minutes|hours|kwh)(?=[ /])/i;

/** "(g/tray)", "(min per cook)" behind a name of amounts. */
const unitForUse = new RegExp(
  `\\s*[([]\\s*(\\p{L}+)\\s*(?:/|(?:${perWords})(?!\\p{L}))\\s*([^)\\]]+)[)\\]]\\s*$`,
  "iu",
);

/** What a column of amounts says that they go to; "" for any other name. */
function baseOf(header: string): string {
  const [, amounts = "", base = ""] = baseInName.exec(header.replace(inUnit, "").trim()) ?? [];
  const key = costsByName.get(plainName(amounts))?.key ?? "";
  const isAmount = amounts === "" || /^(?:amount|hours|pack_unit)$/.test(key) || costMeasure(amounts, 1) !== undefined;
  return isAmount && baseNamed(base) !== undefined ? base : "";
}

/** A name for what is used or what a pack holds, with the unit that the typed one has before or behind it. */
const withUnitOf = (key: "amount" | "pack_size", name: string): string =>
  `${key}${inUnit.exec(name)?.[0] ?? unitBefore.exec(name)?.[0].replace(/.+/, " ($&)") ?? ""}`;

/** "Used (g/tray)" as "Used per tray (g)", "Pack size (kg/bag)" as "Pack size (kg)". */
const withUseInName = (name: string): string => {
  const [whole = "", unit = "", use = ""] = unitForUse.exec(name) ?? [];
  if (costMeasure(unit, 1) === undefined) return name;
  const what = name.slice(0, -whole.length);
  if (costsByName.get(plainName(what))?.key === "pack_size") return `${what} (${unit})`;
  return baseNamed(use) === undefined ? name : `${what} per ${use} (${unit})`;
};

const priceOfPack = /^(?:price|cost)s? (?:per|a) (bag|sack|box|pack|bottle|roll|case|tub|bucket)s?\b/i;

/** The names of a sheet, "kg per bag" beside "price per bag" as what a pack holds. */
function withPackInName(header: ReadonlyArray<string>): string[] {
  const pack = header.flatMap((name) => priceOfPack.exec(name.trim())?.[1] ?? [])[0];
  const held = new RegExp(`^(.*?)\\s*per ${pack ?? "-"}$`, "i");
  const isPackPrice = (name: string): boolean => priceOfPack.test(name.trim());
  if (!header.some((name) => !isPackPrice(name) && held.test(name.trim()))) return [...header];
  return header.map((name) =>
    isPackPrice(name) ? name.trim().replace(priceOfPack, "price") : name.trim().replace(held, "pack_size ($1)"),
  );
}

/** A cost sheet with a "Unit" behind the pack and another behind what is used, each the unit of what stands before it. */
function withUnitsParted(table: RawTable): RawTable {
  const keys = table.header.map((name) => costsByName.get(plainName(name.replace(/ \(\d\)$/, "")))?.key);
  if (keys.filter((key) => key === "pack_unit").length !== 2) return table;
  const nameOf = (name: string, index: number): string =>
    keys[index] !== "pack_unit" ? name : keys[index - 1] === "amount" ? "amount_unit" : "pack_unit";
  return { ...table, header: table.header.map(nameOf) };
}

/** A cost sheet whose column of amounts names what they go to, with that in a column of its own. */
function withBaseOfHeader(typed: RawTable): RawTable {
  const table = { ...typed, header: withPackInName(typed.header).map(withUseInName) };
  const based = [...table.header.keys()].filter((index) => baseOf(table.header[index]!) !== "");
  // beside what a tray takes, "pieces per box" are what a pack holds
  const [held, other] = based.filter((index) => container.test(baseOf(table.header[index]!)));
  const hasPack = table.header.some((name) => {
    const { price, what } = priceAndUse(name);
    return costsByName.get(plainName(name))?.key === "pack_size" || (what !== undefined && isPrice(price));
  });
  if (based.length === 2 && held !== undefined && other === undefined && !hasPack)
    return withBaseOfHeader({
      ...table,
      header: table.header.map((name, index) => (index === held ? withUnitOf("pack_size", name) : name)),
    });
  const at = based[0] ?? -1;
  const base = at < 0 ? undefined : baseOf(table.header[at]!);
  const keys = table.header.map((name, index) => (index === at ? undefined : costsByName.get(plainName(name))?.key));
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
  const hasSize = named.some((name) => costsByName.get(name)?.key === "pack_size");
  return {
    ...table,
    header: [
      ...table.header.map((name, index) =>
        index === at
          ? withUnitOf("amount", name)
          : !hasSize && costsByName.get(named[index]!)?.key === "amount"
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
  const of = (key: string): string[] => names.filter((name) => costsByName.get(name)?.key === key);
  const bare = of("amount").filter((name) => bareQuantity.test(name));
  if (of("amount").length !== 2 || bare.length !== 1 || of("pack_size").length > 0) return table;
  return {
    ...table,
    header: table.header.map((name, index) => (names[index] === bare[0] ? withUnitOf("pack_size", name) : name)),
  };
}

/** What names and cells say, each put into columns of its own before the next looks at them. */
const shapes = [
  ...[withMonthsAdded, withGrossAsPrice, withItemsNamed, withMoneyAsPrice, withBasesSaid],
  ...[withPricesByUse, withUnitsParted, withBaseOfHeader, withPackOfQuantity, withPriceNamed, withCarriageAdded],
];

/** A cost sheet with its columns found; as it was typed where no name of them makes a price of one. */
export function costColumnsOf(typed: RawTable) {
  const keys = typed.header.map((name) => costsByName.get(plainName(name))?.key ?? "");
  const named = withTitleAsPrice(
    { ...typed, typedHeader: typed.header, header: typed.header.map((name) => withTimeBehind(name, keys)) },
    "item",
    "cost",
  );
  const table = shapes.reduce((made, shape) => shape(made), named);
  const matched = matchColumns(table, costSheetColumns);
  return matched.found.has("pack_price") || matched.found.has("owner_labour")
    ? { table, ...matched }
    : { table: typed, ...matchColumns(typed, costSheetColumns) };
}
