import { fileStem } from "../records/file-stem.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { RawTable, SheetSource } from "../records/sheet.ts";
import { listTitled } from "../records/words/money-words.ts";
import { looksLikeHarvestHeader } from "./columns/looks-like-header.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { costSheetColumns } from "./costs/cost-columns.ts";
import { productSheetColumns } from "./products/product-columns.ts";
import { columnsByName, plainName } from "./side-sheets/match-side-columns.ts";

/** What a sheet of a book is for. */
export type SheetRole = "settings" | "costs" | "products" | "columns" | "cells" | "temperature log" | "harvest";

const byName: ReadonlyArray<readonly [SheetRole, RegExp]> = [
  // in the eight languages growers' words are known in
  [
    "settings",
    /^(?:.+\.)?(?:settings?|einstellung(?:en)?|r[eé]glages|param[eè]tres|ajustes|impostazioni|instellingen|ustawienia|defini[cç][oõ]es)$/i,
  ],
  ["costs", /^(?:costs?|kosten|co[uû]ts?|cost[eo]s?|costi|koszty|custos)$/i],
  ["products", /^(?:products?|produkte|produits?|productos|prodotti|producten|produkty|produtos)$/i],
  ["columns", /^(?:.+\.)?columns?$/i],
  ["cells", /^(?:.+\.)?cells?$/i],
  ["temperature log", /temperature|\btemps?\b|thermo|logger|sensor|climate/i],
];

/** The role that a sheet's place and name give it; undefined where its contents have to tell. */
export function roleByName({ path }: Pick<SheetSource, "path">): SheetRole | undefined {
  const parts = path.split("/");
  if (parts.length > 1 && /^harvests?$/i.test(parts.at(-2)!)) return "harvest";
  return byName.find(([, pattern]) => pattern.test(fileStem(path).replaceAll("_", " ")))?.[0];
}

/** The role of a sheet that is named as a list of money is titled, or its folder is, unless its header tells another: "expenses 2026". */
export const listNamed = ({ path }: Pick<SheetSource, "path">): SheetRole | undefined =>
  [fileStem(path), path.split("/").at(-2) ?? ""].map((name) => listTitled(name.replaceAll("_", " "))).find(Boolean);

const words = (header: ReadonlyArray<string>): string[] => header.map((name) => name.trim().toLowerCase());

const timeHeader =
  /^(?:date|time|timestamp|date ?time|when|at|logged|recorded|datum|zeit\p{L}*|uhrzeit|heure|horodatage|fecha|hora|tijd\p{L}*|czas|data)(?!\p{L})/iu;
/** Whether a header names the days of its rows. */
export const hasDays = (header: ReadonlyArray<string>): boolean => header.some((name) => timeHeader.test(name));
const temperatureHeader = /temp|°\s?[cf]|celsius|fahrenheit|^[cf]$/i;

/** Fields that only a sheet of trays has. */
const decisive: ReadonlyArray<HarvestFieldKey> = ["tray_id", "fresh_g", "dry_g", "inoculum_ml", "spawn_g", "spawn_pct"];

/** Whether a header names trays, weights or doses beyond doubt, as a harvest sheet does and hardly any other. */
export const namesTrays = (header: ReadonlyArray<string>, meaningsOf: MeaningsOf = meaningsOfHeader): boolean =>
  header.some((name) => meaningsOf(name).some(({ field, rank }) => rank > 1 && decisive.includes(field)));

/** Names of packs and their prices, which lists of costs and of products have alike. */
const ofPacks = new Set(
  "pack|pack size|package|pack price|price per pack|unit price|price per unit|price each".split("|"),
);

const moneySheets = [
  { role: "costs", name: "item", price: "pack_price", names: columnsByName<string>(costSheetColumns) },
  {
    role: "products",
    name: "product",
    price: "current_price",
    names: new Map([...columnsByName<string>(productSheetColumns)].filter(([name]) => !ofPacks.has(name))),
  },
] as const;

/**
 * Whether a header is that of a list of costs or of products: what a thing is, its price, and as much else of such a list as
 * of no other. A header that names two things of a tray is of trays, whatever stands beside them.
 */
function moneyRole(header: ReadonlyArray<string>, meaningsOf: MeaningsOf): "costs" | "products" | undefined {
  const ofTrays = new Set(
    header.flatMap((name) =>
      meaningsOf(name)
        .filter(({ field, rank }) => rank > 1 && (decisive.includes(field) || field === "outcome"))
        .map(({ field }) => field),
    ),
  );
  if (ofTrays.size > 1) return undefined;
  const names = words(header);
  const has = (name: string): boolean => names.includes(name);
  if (has("item") && (has("pack_price") || has("per"))) return "costs";
  if (has("product") && (has("form") || has("channel"))) return "products";
  const [most, next] = moneySheets
    .map(({ role, name, price, names }) => {
      const matches = header.flatMap((text) => names.get(plainName(text.replace(/[([{].*$/, ""))) ?? []);
      const found = new Set(matches.map(({ key }) => key));
      // of two lists a header fits alike, it is of the one whose own name for the thing stands in it
      const isOwn = matches.some(({ key, rank }) => key === name && rank === 0);
      return { role, count: found.has(name) && found.has(price) ? found.size + (isOwn ? 0.5 : 0) : 0 };
    })
    .sort((a, b) => b.count - a.count);
  return most!.count >= 3 && most!.count > next!.count ? most!.role : undefined;
}

/** The role that a sheet's header gives it; undefined where it is nothing a book knows. */
export function roleByHeader(
  { header }: Pick<RawTable, "header">,
  meaningsOf: MeaningsOf = meaningsOfHeader,
): SheetRole | undefined {
  const names = words(header);
  const has = (...wanted: string[]): boolean => wanted.every((name) => names.includes(name));
  if (has("key", "value")) return "settings";
  const money = moneyRole(header, meaningsOf);
  if (money !== undefined) return money;
  if (has("header", "field")) return "columns";
  if (has("row", "column", "value")) return "cells";
  const fields = new Set(
    header.flatMap((name) =>
      meaningsOf(name)
        .filter(({ rank }) => rank > 1)
        .map(({ field }) => field),
    ),
  );
  const isLog = header.some((name) => timeHeader.test(name)) && header.some((name) => temperatureHeader.test(name));
  if (isLog && header.length <= 6 && !fields.has("tray_id") && !fields.has("fresh_g") && !fields.has("dry_g"))
    return "temperature log";
  if (decisive.some((field) => fields.has(field))) return "harvest";
  return looksLikeHarvestHeader(header, (name) => meaningsOf(name).length > 0) >= 0.3 ? "harvest" : undefined;
}
