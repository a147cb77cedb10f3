import { isDitto } from "../../csv/shape/fill-down.ts";
import { namesSummary } from "../../csv/shape/summary-words.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { known } from "../../records/known.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { perWords } from "../../records/words/per-words.ts";
import { missingWord } from "../rules/missing-word.ts";
import { plainConventions } from "../values/quantity-reading.ts";
import { checkCurrency } from "./check-currency.ts";
import { decimalMarkOf } from "./decimal-mark-of.ts";
import type { MatchedColumn } from "./match-side-columns.ts";
import { moneyLine } from "./money-remark.ts";
import { RowCells } from "./row-cells.ts";

/** The rules that leave out money that came back, or may have: without it things look dearer, not cheaper. */
export const moneyBackRules = { sure: "money-back", perhaps: "price-below-0" } as const;

/** How the rows of a side sheet are read. */
export interface SideReading<K extends string, T, D> {
  /** columns without which no row can be read */
  needed: ReadonlyArray<K>;
  /** what a sheet without them is told besides */
  enough?: string;
  /** columns of money, which must be in one currency */
  money: ReadonlyArray<K>;
  /** its prices are without tax, unless a column says otherwise */
  taxAside?: boolean;
  /** columns of text, which say nothing about the decimal mark */
  text: ReadonlyArray<K>;
  /** the column that names a row */
  name: K;
  /** no record where the row cannot be used; the reader has then said why. The draft is what could be read of it */
  readRow(row: RowCells<K>): { record: T | undefined; draft?: D };
}

/** A row that is left out, or used although something in it is doubtful. */
export interface DoubtfulRow<D> {
  name: string;
  reason: string;
  source: RowSource;
  inUse: boolean;
  /** absent where the sheet lacks a column without which no row can be read */
  draft?: D | undefined;
  /** its money is in another currency */
  isForeign: boolean;
  /** it is money that came back, or may be */
  cameBack?: UnreadMoney["cameBack"];
}

/** The records of a side sheet and every row that is not among them, or doubtful. */
export interface SideTable<T, D> {
  records: T[];
  doubtful: DoubtfulRow<D>[];
  issues: Issue[];
  leftOut: LeftOutRow[];
}

/** A sheet without a column it needs: every row is left out; one without names is so as a whole, its header in doubt, too. */
function withoutColumns<K extends string, T, D>(
  table: RawTable,
  found: ReadonlyMap<K, MatchedColumn>,
  { needed, name, enough = "" }: SideReading<K, T, D>,
  missing: ReadonlyArray<K>,
): SideTable<T, D> {
  const reason = "a column the sheet needs is missing";
  const issue = logEntry({
    file: table.file,
    row: table.headerRow,
    rule: "missing-column",
    severity: "error",
    raw: table.header.filter((one) => one !== "").join(", "),
    reason: `the sheet has no column ${missing.join(", ")}; none of its rows can be used`,
    expected: `columns named ${needed.join(", ")}`,
    action: `Add the column, or rename the one that was meant${enough}`,
  });
  const read: SideTable<T, D> = { records: [], doubtful: [], issues: [issue], leftOut: [] };
  const { file } = table;
  const nameAt = found.get(name)?.index;
  const doubt = { reason, inUse: false, isForeign: false };
  if (nameAt === undefined) read.doubtful.push({ name: file, source: { file, row: 0 }, ...doubt });
  table.forEachRow((cells, row) => {
    read.leftOut.push({ file, row, cells, rule: "missing-column", reason });
    if (nameAt === undefined) return;
    const typed = cells[nameAt]!.trim();
    read.doubtful.push({ name: typed === "" ? `row ${row}` : typed, source: { file, row }, ...doubt });
  });
  return read;
}

/** Whether a row is a remark behind a "#", or says of all money what it is in. */
function isComment(cells: ReadonlyArray<string>): boolean {
  const [first = "", ...others] = cells;
  return moneyLine(cells) !== undefined || (first.trim().startsWith("#") && others.every((cell) => cell.trim() === ""));
}

// In the eight languages, from memory.
const groups =
  /^(?:materials?|ingredients?|consumables?|supplies|equipment|reusables?|overheads?|(?:fixed|variable|running) ?(?:costs?)?|energy|labou?r|time|utilities|misc(?:ellaneous)?|sundries|verbrauchsmaterial|fixkosten|consommables|frais fixes|consumibles|costes fijos|materiali|costi fissi|verbruik|vaste kosten|koszty stałe|consumíveis|custos fixos)$/i;

/** "Per tray", "Costs per month". */
const forEachOf = new RegExp(`^(?:costs? )?(?:${perWords}|each) \\p{L}+$`, "iu");

/** Whether a row is a name alone that groups the rows below it: "Energy:", "Fixed costs", "Per tray". */
const isTitle = (cells: ReadonlyArray<string>): boolean => {
  const [name = "", other] = cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
  return other === undefined && (/\p{L}:$/u.test(name) || groups.test(name) || forEachOf.test(name));
};

/** What a row is that stands for nothing of its own; undefined where it does. */
function noRowOf(cells: ReadonlyArray<string>, name: string): Pick<LeftOutRow, "rule" | "reason"> | undefined {
  if (isComment(cells)) return { rule: "comment-line", reason: "a remark between the rows" };
  if (namesSummary(name)) return { rule: "totals-row", reason: "it sums up other rows" };
  return isTitle(cells) ? { rule: "section-title", reason: "it is a title over the rows below it" } : undefined;
}

function notKnown<K extends string>(
  { file }: RawTable,
  row: number,
  cells: ReadonlyArray<string>,
  found: ReadonlyMap<K, MatchedColumn>,
): Issue {
  const unknown = [...found.values()].find(
    ({ index }) => cells[index]!.trim() !== "" && missingWord(cells[index]!) !== undefined,
  );
  return logEntry({
    file,
    row,
    column: unknown?.header ?? "",
    rule: "not-known",
    severity: "error",
    raw: unknown === undefined ? cells.filter((cell) => cell !== "").join(" | ") : cells[unknown.index]!,
    reason: "a cell the row needs says that it is not known, so the row is not used",
    expected: "a value in each cell that the row needs",
    action: "Type the value, or take the row out if there is nothing to count",
  });
}

/** Has a row hold what stands above its marks of that, "ditto"; its cells with those. */
function takeAbove<K extends string>(
  row: RowCells<K>,
  above: ReadonlyArray<string>,
  found: ReadonlyMap<K, MatchedColumn>,
): string[] {
  const same = row.cells.map((cell, index) => (isDitto(cell) ? (above[index] ?? "") : cell));
  for (const [key, { index }] of found) {
    if (same[index] === row.cells[index]) continue;
    row.take({ [key]: same[index]! } as Partial<Record<K, string>>);
    row.say(key, { rule: "as-above", reason: "as in the row above", expected: "", severity: "change" }, same[index]);
  }
  return same;
}

/** Reads every row of a side sheet; rows that cannot be used are left out with the reason said of them. */
export function readSideTable<K extends string, T, D>(
  table: RawTable,
  found: ReadonlyMap<K, MatchedColumn>,
  settings: Settings,
  reading: SideReading<K, T, D>,
): SideTable<T, D> {
  const { needed, money, text, name, taxAside = false, readRow } = reading;
  const missing = needed.filter((key) => !found.has(key));
  if (missing.length > 0) return withoutColumns(table, found, reading, missing);
  const numeric = [...found].filter(([key]) => !text.includes(key)).map(([, { index }]) => index);
  const conventions = {
    ...plainConventions,
    decimalMark: decimalMarkOf(table, numeric, settings),
    percentStyle: settings.percentStyle,
    cupMillilitres: settings.cupMillilitres,
    syringeMillilitres: settings.syringeMillilitres,
  };
  const moneyColumns = money.flatMap((key) => found.get(key) ?? []);
  const { issues: currencyIssues, foreignRows } = checkCurrency(table, moneyColumns, settings.currency, taxAside);
  const nameAt = found.get(name)!.index;
  const read: SideTable<T, D> = { records: [], doubtful: [], issues: [], leftOut: [] };
  let above: ReadonlyArray<string> = [];
  table.forEachRow((cells, number) => {
    const noRow = noRowOf(cells, cells[nameAt] ?? "");
    if (noRow !== undefined) {
      read.leftOut.push({ file: table.file, row: number, cells, ...noRow });
      return;
    }
    const rowIssues: Issue[] = currencyIssues.filter(({ row }) => row === number);
    const row = new RowCells(table.file, number, cells, found, conventions, rowIssues);
    row.failed = foreignRows.has(number);
    above = takeAbove(row, above, found);
    const { record, draft } = readRow(row);
    const inUse = record !== undefined && !row.failed;
    if (inUse) read.records.push(record);
    else read.leftOut.push(row.leftOut());
    if (!inUse && !rowIssues.some(({ severity }) => severity === "error"))
      rowIssues.push(notKnown(table, number, cells, found));
    const doubt = rowIssues.find(({ severity }) => severity === (inUse ? "warning" : "error"));
    if (doubt !== undefined) {
      const typed = row.text(name);
      read.doubtful.push({
        name: typed === "" ? `row ${number}` : typed,
        reason:
          doubt.column === ""
            ? "a cell it needs says that it is not known"
            : `${doubt.column}${doubt.raw === "" ? "" : ` “${doubt.raw}”`}: ${doubt.reason}`,
        source: { file: table.file, row: number },
        inUse,
        draft,
        isForeign: foreignRows.has(number),
        ...known({ cameBack: (["sure", "perhaps"] as const).find((one) => moneyBackRules[one] === doubt.rule) }),
      });
    }
    for (const issue of rowIssues) read.issues.push(issue);
  });
  return read;
}
