import { sheetIssue } from "../../csv/sheet-issue.ts";
import { appendAll } from "../../records/append-all.ts";
import { type CostLine, costColumns } from "../../records/cost-line.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { nameKey } from "../../records/name-key.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { perWords } from "../../records/words/per-words.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import { datesOf } from "../side-sheets/dates-of.ts";
import {
  columnsByName,
  matchColumns,
  plainName,
  type SideColumn,
  sideColumns,
} from "../side-sheets/match-side-columns.ts";
import { type DoubtfulRow, readSideTable } from "../side-sheets/read-side-table.ts";
import { unreadColumns } from "../side-sheets/unread-columns.ts";
import { costBase, ownTimeNames } from "./cost-words.ts";
import { guessCostLine } from "./guess-cost-line.ts";
import { type CostDraft, readCostRow } from "./read-cost-row.ts";
import type { CostColumn } from "./read-measured.ts";

const names: Readonly<Record<CostColumn, string>> = {
  item: "name|what|cost|cost line|cost item|description|product|article|thing",
  kind: "type|category|cost kind|cost type|class|group",
  pack_price:
    "price|cost per pack|pack cost|price per pack|price paid|unit price|price per unit|price per piece|price each|cost price|price of a pack",
  pack_size: "size|pack|quantity per pack|qty per pack|contents|pack quantity|pack qty|units per pack|package size",
  pack_unit: "unit|units|size unit|unit of pack|pack size unit|uom",
  amount: "used|amount used|quantity|qty|usage|use|quantity used|qty used|amount per use|helping",
  amount_unit: "used unit|unit used|usage unit|unit of amount|quantity unit|qty unit",
  per: "how often|frequency|per what|for|base|basis|each|used per|amount per|for each|goes to",
  watts: "watt|w|power|power w|wattage|rated power|rated watts",
  hours: "hours used|run time|runtime|running hours|hours on|hours per use",
  duty_pct: "duty|duty cycle|share of time on|duty percent|duty cycle pct|load factor",
  uses: "number of uses|life uses|uses before replacement|reuses|times used|life in uses",
  life_years: "life|years|lifetime|lifetime years|life in years|useful life|service life",
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

const textColumns: ReadonlyArray<CostColumn> = [
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
  `^(?:(?:amount|used|usage|use|quantity|qty|menge|verbrauch|quantit[éà]|cantidad|hoeveelheid|ilość|quantidade)\\s+)?(?:for each|each|${perWords})\\s+(.+)$`,
  "iu",
);

/** A cost sheet whose column of amounts names what they go to, with that in a column of its own. */
function withBaseOfHeader(table: RawTable): RawTable {
  const at = table.header.findIndex(
    (name) => costBase.find(baseInName.exec(name.trim())?.[1] ?? "")?.misspelt === false,
  );
  const base = baseInName.exec(table.header[at]?.trim() ?? "")?.[1];
  const named = table.header.map((name, index) => (index === at ? "" : plainName(name)));
  if (base === undefined || ["per", "amount", "used"].some((name) => named.includes(name))) return table;
  // beside the amount of one use, a bare quantity is what a pack holds
  const hasSize = named.some((name) => byName.get(name)?.key === "pack_size");
  return {
    ...table,
    header: [
      ...table.header.map((name, index) =>
        index === at ? "amount" : !hasSize && byName.get(named[index]!)?.key === "amount" ? "pack_size" : name,
      ),
      "per",
    ],
    // a rent per month has no amount per tray
    forEachRow: (visit) =>
      table.forEachRow((cells, row) => visit([...cells, cells[at]!.trim() === "" ? "" : base], row)),
  };
}

// In the eight languages, from memory.
const bareQuantity =
  /^(?:quantity|qty|amount|menge|anzahl|quantit[ea]|cantidad|hoeveelheid|aantal|ilosc|quantidade)(?: |$)/;

/** A cost sheet with what is used beside a bare quantity, which is then what a pack holds. */
function withPackOfQuantity(table: RawTable): RawTable {
  const keys = table.header.map((name) => byName.get(plainName(name))?.key);
  const amounts = [...keys.keys()].filter((index) => keys[index] === "amount");
  const bare = amounts.filter((index) => bareQuantity.test(plainName(table.header[index]!)));
  if (amounts.length !== 2 || bare.length !== 1 || keys.includes("pack_size")) return table;
  return { ...table, header: table.header.map((name, index) => (index === bare[0] ? "pack_size" : name)) };
}

/** "price per kg", "cost per month": the name of a column of prices, and what a price in it is for. */
const priceFor = new RegExp(`^(.+?)\\s*(?:/|(?<!\\p{L})(?:${perWords})(?!\\p{L}))\\s*([\\p{L}\\d].{0,18})$`, "iu");

const times = { monthly: "month", yearly: "year", annual: "year", quarterly: "quarter", weekly: "week" } as const;

/** "monthly cost" is a cost per month. */
const withTimeBehind = (name: string): string =>
  name.replace(
    /^(monthly|yearly|annual|quarterly|weekly) (costs?|price)(?= *[([]|$)/i,
    (_, time: string, what: string) => {
      return `${what} per ${times[time.toLowerCase() as keyof typeof times]}`;
    },
  );

/** A cost sheet with "cost" beside a column of items as its price, and what a price is for set apart in brackets. */
function withPriceNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => byName.get(plainName(name))?.key);
  if (keys.includes("pack_price")) return table;
  const isPrice = (name: string): boolean => {
    const plain = plainName(name.replace(/[([{].*$/, ""));
    return /^\p{Sc}$/u.test(name) || plain === "cost" || plain === "costs" || byName.get(plain)?.key === "pack_price";
  };
  const found = table.header.flatMap((name, index) => {
    if (keys[index] !== undefined && keys[index] !== "item") return [];
    const [, price = name, what] = priceFor.exec(name.trim()) ?? [];
    if (!isPrice(price) || (keys[index] === "item" && what !== undefined)) return [];
    return [{ index, what }];
  });
  const [only, second] = found;
  const hasItem = keys.some((key, index) => key === "item" && index !== only?.index);
  if (only === undefined || second !== undefined || !hasItem) return table;
  const bracket = /[([{].*$/.exec(table.header[only.index]!)?.[0] ?? "";
  const what = only.what?.replace(/\s*[([{].*$/, "");
  const sign = currencyMark(bracket).mark || (/\p{Sc}/u.exec(table.header[only.index]!)?.[0] ?? "");
  const inside = what === undefined ? bracket : `(${`${sign} per ${what}`.trim()})`;
  const renamed = `price ${inside === "" && sign !== "" ? `(${sign})` : inside}`.trim();
  return { ...table, header: table.header.map((name, index) => (index === only.index ? renamed : name)) };
}

/** A cost sheet with its columns found; as it was typed where no name of them makes a price of one. */
export function costColumnsOf(typed: RawTable) {
  const table = withPriceNamed(
    withPackOfQuantity(withBaseOfHeader({ ...typed, header: typed.header.map(withTimeBehind) })),
  );
  const matched = matchColumns(table, costSheetColumns);
  return matched.found.has("pack_price") || matched.found.has("owner_labour")
    ? { table, ...matched }
    : { table: typed, ...matchColumns(typed, costSheetColumns) };
}

// In the eight languages, from memory.
const ofBefore = /\s*\((?:old|previous|former|alt|ancien|viejo|antiguo|vecchi|oud|star|antig)[^)]*\)/i;

/** Lines of one item for the same thing from the same day: both are counted, and which of them holds is asked. */
function itemsTwice(lines: ReadonlyArray<CostLine>): { issues: Issue[]; unread: UnreadMoney[] } {
  const met = new Map<string, RowSource>();
  const issues: Issue[] = [];
  const unread: UnreadMoney[] = [];
  for (const { item, per, stage, onlyWhereColumn, onlyWhereValue, fromDate, source } of lines) {
    const key = JSON.stringify([
      nameKey(item.replace(ofBefore, "")),
      per,
      stage,
      onlyWhereColumn,
      onlyWhereValue,
      fromDate,
    ]);
    const before = met.get(key);
    met.set(key, source);
    if (before === undefined) continue;
    const place = before.file === source.file ? "" : ` of ${before.file}`;
    const reason = `the item stands in row ${before.row}${place} as well, for the same use: both are counted`;
    unread.push({ sheet: "costs", name: item, reason, source, inUse: true, per });
    issues.push(
      sheetIssue({
        ...source,
        rule: "item-twice",
        severity: "warning",
        raw: item,
        reason,
        expected: "one line for each thing used, or a date from which a new price holds",
        action: "Take one of them out, or type the day from which its price holds under from_date",
      }),
    );
  }
  return { issues, unread };
}

/** A draft without the money in it, where that is in another currency. */
function withoutMoney({ packPrice, salvage, packPriceLow, packPriceHigh, ...rest }: CostDraft): CostDraft {
  return rest;
}

/** What the costed book gets to know of a row that is left out, or doubtful. */
function unreadLine(row: DoubtfulRow<CostDraft>, costLines: ReadonlyArray<CostLine>): UnreadMoney {
  const { name, reason, source, inUse, isForeign, cameBack } = row;
  const draft = isForeign ? withoutMoney(row.draft!) : row.draft;
  const guess = inUse || draft === undefined ? undefined : guessCostLine(draft, costLines);
  return {
    sheet: "costs",
    name,
    reason,
    source,
    inUse,
    ...(cameBack === undefined ? guess : { cameBack }),
    ...(draft?.per === undefined ? {} : { per: draft.per }),
  };
}

/**
 * Reads cost sheets. A line with anything it cannot do without missing or wrong is left out, with an error that names
 * the row, the column and what to do.
 * @param tables one or more sheets of cost lines
 * @returns lines in the order of the sheets; amounts in the pack's unit (g, mL, each, hour, kWh, month, day); and the rows
 *   left out or doubtful, with the line each could be where the book tells it
 */
export function readCosts(
  tables: ReadonlyArray<RawTable>,
  settings: Settings,
): { costLines: CostLine[]; unread: UnreadMoney[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const costLines: CostLine[] = [];
  const doubtful: DoubtfulRow<CostDraft>[] = [];
  const unread: UnreadMoney[] = [];
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  for (const typed of tables) {
    const { table, found, issues: headerIssues } = costColumnsOf(typed);
    appendAll(issues, headerIssues);
    appendAll(unread, unreadColumns("costs", headerIssues));
    const isTorn = headerIssues.some(
      ({ rule, expected }) => rule === "two-columns-for-one" && /amount|pack_/.test(expected),
    );
    const dates = datesOf(table, found.get("from_date")?.index, settings);
    const read = readSideTable(table, found, settings, {
      // the owner's time may have its price in the settings
      needed: found.has("owner_labour") ? ["item"] : ["item", "pack_price"],
      money: costMoneyColumns,
      text: textColumns,
      name: "item",
      readRow: (row) => readCostRow(row, settings, dates, isTorn),
    });
    appendAll(costLines, read.records);
    appendAll(doubtful, read.doubtful);
    appendAll(issues, read.issues);
    appendAll(leftOut, read.leftOut);
  }
  const twice = itemsTwice(costLines);
  appendAll(issues, twice.issues);
  appendAll(
    unread,
    doubtful.map((row) => unreadLine(row, costLines)),
  );
  appendAll(unread, twice.unread);
  return { costLines, unread, issues, leftOut };
}
