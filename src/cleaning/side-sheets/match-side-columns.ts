import { writeCsv } from "../../csv/write-csv.ts";
import { addTo } from "../../records/grouped.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RawTable } from "../../records/sheet.ts";
import { closestAmong } from "../../records/words/closest-word.ts";
import { speaksOfMoney } from "../../records/words/money-words.ts";
import { isCurrencyCode } from "./currency-mark.ts";

/** One column a side sheet may have. */
export interface SideColumn<K extends string> {
  /** the canonical header */
  key: K;
  /** other names for it, lower case, separated by | */
  names: string;
}

/** The columns of a side sheet with the names each goes by. */
export const sideColumns = <K extends string>(
  keys: ReadonlyArray<K>,
  names: Readonly<Record<K, string>>,
): SideColumn<K>[] => keys.map((key) => ({ key, names: names[key] }));

/** Where a column was found. */
export interface MatchedColumn {
  index: number;
  /** as typed */
  header: string;
  /** what stands in brackets or after a comma in the header: "g", "€"; "" when nothing does */
  unit: string;
}

/** A name without case, accents, underscores and points. */
export const plainName = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/%/g, " pct ")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

const unitInHeader = /[([{]\s*([^()[\]{}]{1,30}?)\s*[)\]}]|,\s*([^\s,]{1,8})\s*$|\s([€$£¥°]\p{L}?)\s*$/u;

/** "Pack kg", "used g": a unit behind a name. */
const unitBehind =
  /^(.*?[^\s_])[\s_]+(?:in[\s_]+)?(g|gr|kg|mg|lbs?|oz|ml|cl|dl|l|min|mins|h|hrs?|pcs|stk|kwh|w|kw|(?<=in[\s_]+)(?:grams?|minutes|hours|days|weeks|months|years))\.?\s*$/i;

// In the eight languages, from memory.
const changesPrices =
  /(?:^| )(?:vat|tax|mwst|ust|tva|iva|btw|discount|rabatt?|remise|descuento|sconto|korting|desconto|postage|shipping|delivery|porto|versand|envio|spedizione|verzending|wysylka|gross|brutto|ttc|deposit|pfand|surcharge|offers?|deals?|promo|promotion|angebot|oferta|offerta|aanbieding|packs?|pack size|shares?|anteil|quota|aandeel|udzial|pct|paid|retail|wholesale|trade|rrp)(?: |$)/;

/** What comes of prices and costs, or names and counts things, and adds nothing to them; in the eight languages, from memory. */
export const addsNothing =
  /(?:^| )(?:totals?|subtotals?|sum|summe|gesamt|suma|totale|totaal|revenue|turnover|takings|income|profit|earns?|earned|earnings|margin|gain|left|stock|worth|sold|sales|no|nr|num|id|sku|ean|code|ref|reference|invoice|receipt|order|rechnung|beleg|facture|factura|fattura|factuur|faktura|fatura|phone|rating|stars|reviews|rank|priority|page|line|row)(?: |$)/;
/** A number that is no 0, or words with a share, money or a time among them: "2", "€4", "6.5% + 0.30", "2 € per order", "4 min". */
const anyNumber =
  /^\s*(?=[\d.,\s+]*[1-9])\d[\d.,]*(?:\s*\+\s*\d[\d.,]*)*\s*$|(?:\p{Sc}\s?(?=[\d.,]*[1-9])\d|[1-9][\d.,]*\s?(?:[%\p{Sc}]|(?:min\p{L}*|h|hrs?|hours?|std)(?!\p{L})))/iu;

/**
 * Whether a column that is not read makes what things cost other than it stands there: its money, what comes on top, or
 * how many of them. Numbers that only count the rows do not.
 */
const isOfMoney = (table: RawTable, header: string, index: number): boolean => {
  if (addsNothing.test(plainName(header))) return false;
  if (speaksOfMoney(header)) return true;
  const maySay = changesPrices.test(plainName(header));
  const texts: string[] = [];
  table.forEachRow((cells) => texts.push(cells[index]!.trim()));
  if (texts.every((text, at) => text === String(at + 1))) return false;
  return texts.some(
    (text) => anyNumber.test(text) || (maySay && /[1-9\p{L}]/u.test(text) && !/^(?:no|none|nein|non)$/i.test(text)),
  );
};

/** How near a name is to a column: its own name, another one it goes by, or one of them misspelt. */
type Rank = 0 | 1 | 2;

/** The columns of a side sheet by every plain name they go by, their own before the others. */
export function columnsByName<K extends string>(
  columns: ReadonlyArray<SideColumn<K>>,
): ReadonlyMap<string, { key: K; rank: Rank }> {
  const byName = new Map<string, { key: K; rank: Rank }>();
  for (const { key, names } of columns) {
    for (const name of names.split("|")) {
      const plain = plainName(name);
      if (plain !== "" && !byName.has(plain)) byName.set(plain, { key, rank: 1 });
    }
  }
  for (const { key } of columns) byName.set(plainName(key), { key, rank: 0 });
  return byName;
}

/** A header in its parts: the unit or currency set apart, the name with and without it. */
function partsOf(header: string): { unit: string; whole: string; bare: string } {
  const code = /\s([A-Z]{3})\s*$/.exec(header);
  const bracket = code !== null && isCurrencyCode(code[1]!) ? code : unitInHeader.exec(header);
  const unit = (bracket?.[1] ?? bracket?.[2] ?? bracket?.[3] ?? "").trim();
  const whole = plainName(header);
  return { unit, whole, bare: bracket === null ? whole : plainName(header.replace(bracket[0], " ")) };
}

/** The column that a header names: its own name, another one, or one of them misspelt; with the unit set apart. */
function columnMeant<K extends string>(
  header: string,
  byName: ReadonlyMap<string, { key: K; rank: Rank }>,
  closest: (name: string) => string | undefined,
): { key: K; rank: Rank; unit: string } | undefined {
  const { unit, whole, bare } = partsOf(header);
  const share = / pct$/.test(whole) ? byName.get(whole.slice(0, -4)) : undefined;
  const ofShare = share?.key.endsWith("_pct") ? share : undefined;
  const [, name = "", behind = ""] = unitBehind.exec(header) ?? [];
  const ofUnit = byName.get(plainName(name));
  const named = byName.get(whole) ?? byName.get(bare) ?? ofShare ?? ofUnit;
  if (named !== undefined) return { ...named, unit: named === ofUnit && unit === "" ? behind : unit };
  // "old price" is no slip for "low price"; a fee is one whoever takes it
  if (/^(?:old|new|last|previous) /.test(bare)) return undefined;
  const whose = / (fees?|commission)(?: pct)?$/.exec(bare)?.[1] ?? "";
  const near = closest(bare) ?? (byName.has(whose) ? whose : undefined);
  return near === undefined ? undefined : { key: byName.get(near)!.key, rank: 2, unit };
}

/**
 * Finds the columns of a side sheet by their names: the canonical one, then other names, then either misspelt.
 * A unit or currency in the header is set apart. Two columns with an equal claim are both left, with an error.
 */
export function matchColumns<K extends string>(
  table: RawTable,
  columns: ReadonlyArray<SideColumn<K>>,
): { found: Map<K, MatchedColumn>; issues: Issue[] } {
  const byName = columnsByName(columns);
  const closest = closestAmong([...byName.keys()], (name) => byName.get(name)!.key);
  const claims = new Map<K, { rank: Rank; column: MatchedColumn }[]>();
  const issues: Issue[] = [];
  const about = { file: table.file, row: table.headerRow };

  const typedName = (index: number): string => table.typedHeader?.[index] || table.header[index]!;
  const notRead = (index: number, reason: string): Issue => {
    // money that is not read may make things look cheaper than they are
    const isDoubt = columns.some(({ key }) => key.endsWith("price")) && isOfMoney(table, table.header[index]!, index);
    const header = typedName(index);
    const harmless = writeCsv([[table.file, header, "unread"]], { guard: true }).trim();
    const action = `Rename it if it was meant as one of: ${columns.map(({ key }) => key).join(", ")}${isDoubt ? `; else count what it says in the prices and add the line ${harmless} to columns.csv` : ""}`;
    const severity = isDoubt ? "warning" : "note";
    return logEntry({ ...about, column: header, raw: header, rule: "unread-column", severity, reason, action });
  };
  table.header.forEach((header, index) => {
    if (header === "") return;
    const match = columnMeant(header, byName, closest);
    const typed = typedName(index);
    const aboutColumn = { ...about, column: typed, raw: typed };
    if (match === undefined) {
      issues.push(notRead(index, "a sheet of this kind has no such column; it was not read"));
      return;
    }
    const { key, rank, unit } = match;
    if (rank === 2) {
      const reason = "the header is near enough to the name of a column";
      issues.push(logEntry({ ...aboutColumn, result: key, rule: "column-spelling", severity: "change", reason }));
    }
    addTo(claims, key, { rank, column: { index, header: typed, unit } });
  });

  const found = new Map<K, MatchedColumn>();
  for (const [key, list] of claims) {
    list.sort((a, b) => a.rank - b.rank);
    const [first, second] = list;
    if (second?.rank === first!.rank) issues.push(twoForOne(key, list, about));
    else {
      found.set(key, first!.column);
      for (const { column } of list.slice(1))
        issues.push(notRead(column.index, `another column is ${key}, so this one was not read`));
    }
  }
  return { found, issues };
}

const twoForOne = (
  key: string,
  claims: ReadonlyArray<{ column: MatchedColumn }>,
  about: { file: string; row: number },
): Issue =>
  logEntry({
    ...about,
    column: claims[0]!.column.header,
    raw: claims.map(({ column }) => column.header).join(" | "),
    rule: "two-columns-for-one",
    severity: "error",
    reason: `more than one column could be ${key}; none of them was read`,
    expected: `one column named ${key}`,
    action: `Name the right one ${key}, and the other one differently`,
  });
