import { sheetIssue } from "../../csv/sheet-issue.ts";
import { appendAll } from "../../records/append-all.ts";
import { type CostLine, costColumns } from "../../records/cost-line.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { perWords } from "../../records/words/per-words.ts";
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
import { costBase } from "./cost-words.ts";
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
  per: "how often|per what|for|base|basis|each|used per|amount per|for each|goes to",
  watts: "watt|w|power|power w|wattage|rated power|rated watts",
  hours: "hours used|run time|runtime|running hours|hours on|hours per use",
  duty_pct: "duty|duty cycle|share of time on|duty percent|duty cycle pct|load factor",
  uses: "number of uses|life uses|uses before replacement|reuses|times used|life in uses",
  life_years: "life|years|lifetime|lifetime years|life in years|useful life|service life",
  uses_per_year: "uses a year|uses year|runs per year|annual uses|yearly uses|runs a year",
  salvage: "salvage value|residual value|resale|resale value|recovery value|scrap value|recovered",
  breakage_pct: "breakage|broken|breakage rate|share broken|breakage percent|loss per use",
  expands_to_jars: "jars|makes jars|jars made|expands to|jars per pack|jars from it",
  owner_labour: "owner labor|owner|own time|own work|own labour|own labor|owner s time|my time",
  only_where_column: "only where|where column|only for column|applies to column|condition column|if column",
  only_where_value: "where value|only for value|only for|applies to|condition value|equals|if value",
  stage: "phase|step|when spent|spent at",
  from_date: "from|date|since|valid from|price date|start date|effective from|effective",
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

/** "price per kg", "cost per month": the name of a column of prices, and what a price in it is for. */
const priceFor = new RegExp(`^(.+?)\\s*(?:/|(?<!\\p{L})(?:${perWords})(?!\\p{L}))\\s*(\\p{L}.{0,18})$`, "iu");

/** A cost sheet with "cost" beside a column of items as its price, and what a price is for set apart in brackets. */
function withPriceNamed(table: RawTable): RawTable {
  const keys = table.header.map((name) => byName.get(plainName(name))?.key);
  if (keys.includes("pack_price")) return table;
  const isPrice = (name: string): boolean => {
    const plain = plainName(name.replace(/[([{].*$/, ""));
    return plain === "cost" || plain === "costs" || byName.get(plain)?.key === "pack_price";
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
  const renamed = only.what === undefined ? `price ${bracket}`.trim() : `price (per ${only.what})`;
  return { ...table, header: table.header.map((name, index) => (index === only.index ? renamed : name)) };
}

/** Lines of one item for the same thing, none of which says from when: both are counted, which is pointed out. */
function itemsTwice(lines: ReadonlyArray<CostLine>): Issue[] {
  const met = new Map<string, CostLine>();
  return lines.flatMap((line) => {
    const { item, per, stage = "", onlyWhereColumn = "", onlyWhereValue = "", fromDate, source } = line;
    if (fromDate !== undefined) return [];
    const key = [item.toLowerCase(), per, stage, onlyWhereColumn, onlyWhereValue].join("\t");
    const before = met.get(key);
    met.set(key, line);
    if (before === undefined) return [];
    return [
      sheetIssue({
        ...source,
        rule: "item-twice",
        severity: "warning",
        raw: item,
        reason: `the item stands in row ${before.source.row} as well, for the same use: both are counted`,
        expected: "one line for each thing used, or a date from which a new price holds",
        action: "Take one of them out, or type the day from which its price holds under from_date",
      }),
    ];
  });
}

/** Lines that stand in an earlier row with the very same facts: typed twice, or used twice. */
function linesAgain(lines: ReadonlyArray<CostLine>): UnreadMoney[] {
  const met = new Map<string, RowSource>();
  return lines.flatMap(({ source, ...facts }): UnreadMoney[] => {
    const key = JSON.stringify(facts);
    const before = met.get(key);
    if (before === undefined) {
      met.set(key, source);
      return [];
    }
    const reason = `row ${before.row} says the very same, and both are counted`;
    return [{ sheet: "costs", name: facts.item, reason, source, inUse: true, per: facts.per }];
  });
}

/** A draft without the money in it, where that is in another currency. */
function withoutMoney({ packPrice, salvage, packPriceLow, packPriceHigh, ...rest }: CostDraft): CostDraft {
  return rest;
}

/** What the costed book gets to know of a row that is left out, or doubtful. */
function unreadLine(row: DoubtfulRow<CostDraft>, costLines: ReadonlyArray<CostLine>): UnreadMoney {
  const { name, reason, source, inUse, isForeign } = row;
  const draft = isForeign ? withoutMoney(row.draft!) : row.draft;
  const guess = inUse || draft === undefined ? undefined : guessCostLine(draft, costLines);
  return {
    sheet: "costs",
    name,
    reason,
    source,
    inUse,
    ...guess,
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
    const table = withPriceNamed(withBaseOfHeader(typed));
    const { found, issues: headerIssues } = matchColumns(table, costSheetColumns);
    appendAll(issues, headerIssues);
    appendAll(unread, unreadColumns("costs", headerIssues));
    const dates = datesOf(table, found.get("from_date")?.index, settings);
    const read = readSideTable(table, found, settings, {
      needed: ["item", "pack_price"],
      money: costMoneyColumns,
      text: textColumns,
      name: "item",
      readRow: (row) => readCostRow(row, settings, dates),
    });
    appendAll(costLines, read.records);
    appendAll(doubtful, read.doubtful);
    appendAll(issues, read.issues);
    appendAll(leftOut, read.leftOut);
  }
  appendAll(issues, itemsTwice(costLines));
  appendAll(
    unread,
    doubtful.map((row) => unreadLine(row, costLines)),
  );
  appendAll(unread, linesAgain(costLines));
  return { costLines, unread, issues, leftOut };
}
