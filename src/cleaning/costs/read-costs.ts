import { appendAll } from "../../records/append-all.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { nameKey } from "../../records/name-key.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { fold } from "../../records/words/fold.ts";
import { placesOf } from "../../records/words/languages.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import { datesOf } from "../side-sheets/dates-of.ts";
import { type DoubtfulRow, readSideTable } from "../side-sheets/read-side-table.ts";
import { saidTwice } from "../side-sheets/said-twice.ts";
import { unreadColumns } from "../side-sheets/unread-columns.ts";
import { costMeasure } from "./cost-amount.ts";
import { costMoneyColumns, textColumns } from "./cost-columns.ts";
import { costColumnsOf } from "./cost-headers.ts";
import { isPrice, priceAndUse } from "./cost-prices.ts";
import { guessCostLine } from "./guess-cost-line.ts";
import { baseNamed } from "./read-cost-base.ts";
import { type CostDraft, readCostRow } from "./read-cost-row.ts";

// In the eight languages, from memory.
const ofBefore = /\s*\((?:old|previous|former|alt|ancien|viejo|antiguo|vecchi|oud|star|antig)[^)]*\)/i;

/** An item without the month or year of a bill: "Rent Jan" and "Rent Feb 2026" are rent. */
function withoutMonth(item: string): string {
  const months = placesOf((words) => words.months);
  const isTime = (word: string): boolean => months.has(fold(word)) || /^(?:(?:19|20)\d\d|q[1-4])$/i.test(word);
  const words = item.split(/[\s()/,-]+/).filter((word) => word !== "");
  const rest = words.filter((word) => !isTime(word));
  return rest.length === 0 ? item : rest.join(" ");
}

const itemsTwice = (lines: ReadonlyArray<CostLine>) =>
  saidTwice(lines, {
    sheet: "costs",
    nameOf: ({ item }) => item,
    keyOf: ({ item, per, stage, onlyWhereColumn, onlyWhereValue, fromDate }) => [
      nameKey(withoutMonth(item.replace(ofBefore, ""))),
      per,
      stage,
      onlyWhereColumn,
      onlyWhereValue,
      fromDate,
    ],
    per: ({ per }) => per,
    rule: "item-twice",
    reason: "for the same use",
    expected: "one line for each thing used, or a date from which a new price holds",
    action: "Take one of them out, or type the day from which its price holds under from_date",
  });

/** A draft without the money in it, where that is in another currency. */
function withoutMoney({ packPrice, salvage, packPriceLow, packPriceHigh, ...rest }: CostDraft): CostDraft {
  return rest;
}

/** how far a price worked out by the sheet may lie from ours: rounded to hundredths, or by 1 %. Common practice, no source */
const roundedBy = { money: 0.0051, share: 0.01 };

/** Whether a column of prices that is not read, "cost per tray" or "price per kg", is what the lines that are read come to. */
function isWorkedOut(
  table: RawTable,
  header: string,
  read: { records: ReadonlyArray<CostLine>; leftOut: ReadonlyArray<LeftOutRow> },
): boolean {
  const { price, what = "" } = priceAndUse(header);
  const index = table.header.indexOf(header);
  const [base, measure] = [baseNamed(what), costMeasure(what, 1)];
  if (index < 0 || !isPrice(price) || (base === undefined && measure === undefined)) return false;
  const sums = new Set(read.leftOut.flatMap(({ rule, row }) => (rule === "totals-row" ? [row] : [])));
  let [filled, alike] = [0, 0];
  table.forEachRow((cells, row) => {
    const cell = cells[index]!.trim();
    if (cell === "" || sums.has(row)) return;
    filled++;
    const line = read.records.find(({ source }) => source.row === row);
    if (line === undefined) return;
    const ofOne = line.packPrice / line.packSize;
    const isUse = base !== undefined && base.per === line.per;
    const worked = isUse
      ? ofOne * line.amount * base.share
      : measure?.unit === line.packUnit
        ? ofOne * measure.factor
        : NaN;
    const typed = Number(currencyMark(cell).amount.replace(",", "."));
    if (Math.abs(typed - worked) <= Math.max(roundedBy.money, roundedBy.share * worked)) alike++;
  });
  return filled > 0 && alike === filled;
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
    const { table, found, issues: ofHeader } = costColumnsOf(typed);
    const isTorn = ofHeader.some(
      ({ rule, expected }) => rule === "two-columns-for-one" && /amount|pack_/.test(expected),
    );
    const dates = datesOf(table, found.get("from_date")?.index, settings);
    const read = readSideTable(table, found, settings, {
      // the owner's time may have its price in the settings
      needed: found.has("owner_labour") ? ["item"] : ["item", "pack_price"],
      enough: "; columns item, cost and per are enough, with what one use costs: bag, 0.32, tray",
      money: costMoneyColumns,
      text: textColumns,
      name: "item",
      readRow: (row) => readCostRow(row, settings, dates, isTorn),
    });
    const headerIssues = ofHeader.filter(({ rule, raw }) => rule !== "unread-column" || !isWorkedOut(table, raw, read));
    appendAll(issues, headerIssues);
    appendAll(costLines, read.records);
    appendAll(doubtful, read.doubtful);
    // a sheet of which nothing is read is said once
    if (!read.doubtful.some(({ name }) => name === table.file)) appendAll(unread, unreadColumns("costs", headerIssues));
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
