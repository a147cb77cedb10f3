import { appendAll } from "../../records/append-all.ts";
import type { ColumnReading } from "../../records/book.ts";
import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { type ColumnPin, type ColumnPlan, quantityKindOf } from "../columns/column-plan.ts";
import { planColumns } from "../columns/plan-columns.ts";
import { profileColumns } from "../columns/profile-columns.ts";
import type { DateSpan } from "../dates/complete-year.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { agreeOnDates } from "../evidence/agree-on-dates.ts";
import { agreeOnMarks } from "../evidence/agree-on-marks.ts";
import { agreeOnUnits } from "../evidence/agree-on-units.ts";
import { allSmall } from "../evidence/all-small.ts";
import { applySettings } from "../evidence/apply-settings.ts";
import { type TableEvidence, tableEvidence } from "../evidence/table-evidence.ts";
import type { TrayDraft } from "../trays/tray-draft.ts";
import type { EvidenceByDraft } from "../trays/tray-evidence.ts";
import type { NamesDecided } from "./column-reader.ts";
import { flushNames } from "./flush-in-names.ts";
import { settingAction } from "./read-quantity-cell.ts";
import { readRows } from "./read-rows.ts";
import { pooledNames } from "./several-trays.ts";

/** One harvest sheet, read: a draft of a tray for every row, how its columns were taken, and its part of the log. */
export interface HarvestTable {
  file: string;
  /** whether any of its columns is known */
  isHarvest: boolean;
  drafts: TrayDraft[];
  plans: ColumnPlan[];
  columns: ColumnReading[];
  issues: Issue[];
  rows: number;
  evidence: EvidenceByDraft;
  /** the different texts of each column of names, by field or free header; not for columns with very many */
  levels: Map<string, string[]>;
}

/** The full dates of each stage over all sheets of a book. */
export type BookSpans = ReadonlyMap<HarvestFieldKey, DateSpan>;

/** What the rest of a book tells of a table's dates. */
export interface DatesBesides {
  spans: BookSpans;
  /** the order of day and month that the sheet's other tables agree on */
  order: DateConventions["order"];
}

/** The full dates of each column; those of the whole book where a column has none of its own. */
function spansOf({ dates }: TableEvidence, plans: ReadonlyArray<ColumnPlan>, book: BookSpans): Map<number, DateSpan> {
  return new Map(
    plans.flatMap(({ index, field }) => {
      const { first = "", last = "" } = dates.get(index) ?? {};
      const span = first === "" ? book.get(field as HarvestFieldKey) : { first, last };
      return span === undefined || !dates.has(index) ? [] : [[index, span] as const];
    }),
  );
}

/** The first and the last full date of each stage, over tables that were read. */
export function bookSpans(tables: ReadonlyArray<{ table: RawTable; plans: ReadonlyArray<ColumnPlan> }>): BookSpans {
  const spans = new Map<HarvestFieldKey, DateSpan>();
  for (const { table, plans } of tables) {
    const dated = plans.filter(({ kind }) => kind === "date");
    const { dates } = tableEvidence(table, dated);
    for (const { index, field } of dated) {
      const { first, last } = dates.get(index)!;
      if (first === "") continue;
      const known = spans.get(field as HarvestFieldKey);
      const ends = [first, last, ...(known === undefined ? [] : [known.first, known.last])].sort();
      spans.set(field as HarvestFieldKey, { first: ends[0]!, last: ends.at(-1)! });
    }
  }
  return spans;
}

/** The one order of day and month that dates of some tables show by a number above 12; "" where none do, or both. */
export function orderOfTables(
  tables: ReadonlyArray<{ table: RawTable; plans: ReadonlyArray<ColumnPlan> }>,
): DateConventions["order"] {
  const columns = tables.flatMap(({ table, plans }) => {
    const { dates, besideDates } = tableEvidence(
      table,
      plans.filter(({ kind, field }) => kind === "date" || field === "factor"),
    );
    return [...dates.values(), besideDates];
  });
  const [day, month] = [columns.some(({ dayFirst }) => dayFirst > 0), columns.some(({ monthFirst }) => monthFirst > 0)];
  return day === month ? "" : day ? "day first" : "month first";
}

/** Lets the cells decide what headers and settings left open; says what was concluded. */
function agree(
  table: RawTable,
  plans: ColumnPlan[],
  settings: Settings,
  issues: Issue[],
  order: DateConventions["order"],
): TableEvidence {
  const { file } = table;
  const evidence = tableEvidence(table, plans);
  agreeOnMarks(plans, evidence);
  for (const { plan, unit, reason, setting } of agreeOnUnits(plans, evidence)) {
    issues.push(
      logEntry({
        file,
        column: plan.header,
        result: unit,
        rule: "unit-by-evidence",
        severity: "note",
        reason: `numbers without a unit are read as ${unit}: ${reason}`,
        action: `State ${setting} in settings.csv if that is wrong`,
        setting,
      }),
    );
  }
  for (const { setting, result, reason, columns, assumed } of agreeOnDates(plans, evidence, settings, order)) {
    for (const column of columns) {
      issues.push(
        logEntry({
          file,
          column,
          result,
          rule: setting === "date_order" ? "date-order-by-evidence" : "serial-dates-by-evidence",
          severity: "note",
          reason:
            setting === "date_order"
              ? `dates that could be either are read ${result}: ${reason}`
              : `day counts are read in the ${result} system: ${reason}`,
          action: assumed ? settingAction(setting) : `State ${setting} in settings.csv if that is wrong`,
          setting,
        }),
      );
    }
  }
  return evidence;
}

function columnReading(
  file: string,
  { header, field, because, kind, conventions, mayBe }: ColumnPlan,
  example: string,
): ColumnReading {
  const quantity = quantityKindOf(kind);
  const unit = quantity === undefined ? "" : kind === "days" || kind === "hours" ? kind : conventions.bareUnit;
  return { file, header, field, because, unit, example, ...(mayBe === undefined ? {} : { mayBe }) };
}

const noKnownColumn = ({ file, header, headerRow }: RawTable): Issue =>
  logEntry({
    file,
    row: headerRow,
    raw: header
      .filter((name) => name !== "")
      .join(", ")
      .slice(0, 300),
    rule: "no-known-column",
    severity: "error",
    reason: "no column of the sheet is known, so nothing can be said of its trays",
    expected: "columns such as tray_id, inoculum_ml, outcome, fresh_g, dry_g",
    action: "Rename the columns, or say in columns.csv what each of them holds",
  });

/** What is taken for granted where a sheet has no column of names or of outcomes. */
function missingColumns(file: string, plans: ReadonlyArray<ColumnPlan>, isHarvest: boolean): Issue[] {
  const has = (name: ColumnPlan["field"]): boolean => plans.some(({ field }) => field === name);
  const names = logEntry({
    file,
    rule: "no-tray-column",
    severity: "note",
    reason: "the sheet has no column of tray names, so every row is a tray of its own, called by its row",
    action: "Add a column tray_id if several rows or sheets speak of one tray",
  });
  const outcomes = logEntry({
    file,
    rule: "no-outcome-column",
    severity: "note",
    reason:
      "the sheet has no column of outcomes: a tray with a weight or harvest date is good, one weighed at 0 failed, one with neither is lost where its note says so, else still growing",
    action: "Add a column outcome so that lost trays are counted as lost",
  });
  return [...(has("tray_id") ? [] : [names]), ...(has("outcome") || !isHarvest ? [] : [outcomes])];
}

/** The first look at a sheet, before its cells have agreed on anything. */
const nothingKnown = { spans: undefined, stopWhenOpen: true };

/** What the names in the column of trays stand for. */
function namesDecided(table: RawTable, plans: ReadonlyArray<ColumnPlan>): NamesDecided {
  const names = plans.find(({ field }) => field === "tray_id");
  if (names === undefined) return {};
  const hasFlushes = plans.some(({ field, flush }) => field === "flush" || flush !== undefined);
  const isPinned = names.because.startsWith("pinned");
  return {
    pooled: pooledNames(table, names.index, isPinned),
    flushes: flushNames(table, names.index, hasFlushes, isPinned),
  };
}

/**
 * Reads a harvest sheet. When no cell's meaning depends on the others the rows are read once; otherwise they are looked
 * at first, so that a column is read alike from top to bottom.
 * @param besides by which dates without a year, or in an open order, are read in a table that does not tell by itself
 */
export function readHarvestTable(
  table: RawTable,
  settings: Settings,
  pins: ReadonlyArray<ColumnPin>,
  onRows: ((rows: number) => void) | undefined,
  besides: DatesBesides = { spans: new Map(), order: "" },
): HarvestTable {
  const { file, header } = table;
  const profiles = (indexes: ReadonlyArray<number>) => profileColumns(table, indexes);
  const { plans, issues } = planColumns(file, header, settings, pins, profiles, table.remarksSay?.weights);
  const isHarvest = plans.some(({ field }) => field !== "factor" && field !== "unread" && field !== "note");
  if (!isHarvest) issues.push(noKnownColumn(table));
  applySettings(plans, settings);
  let read = readRows(table, plans, { ...nothingKnown, firstYear: settings.firstYear, onRows });
  if (read === undefined) {
    const evidence = agree(table, plans, settings, issues, besides.order);
    read = readRows(table, plans, {
      spans: spansOf(evidence, plans, besides.spans),
      firstYear: settings.firstYear,
      names: namesDecided(table, plans),
      stopWhenOpen: false,
      onRows,
    })!;
  }
  if (read.rows > 0) appendAll(issues, missingColumns(file, plans, isHarvest));
  for (const issue of read.issues) issues.push(issue);
  appendAll(issues, allSmall(file, plans, read.drafts));
  return {
    file,
    isHarvest,
    drafts: read.drafts,
    plans,
    columns: plans.map((column) => columnReading(file, column, read.examples[column.index] ?? "")),
    issues,
    rows: read.rows,
    evidence: read.evidence,
    levels: read.levels(),
  };
}
