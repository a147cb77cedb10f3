import type { Issue } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import { isLoss } from "../../records/tray.ts";
import { trayProperty } from "../../records/tray-property.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import { onlyMarkedCount } from "../columns/use-columns.ts";
import { completeYear, countedOn, type DateSpan, stageFields } from "../dates/complete-year.ts";
import { doubtBeside } from "../doubt-remarks.ts";
import { saysEach } from "../rules/per-tray.ts";
import { rowOutcome } from "../trays/row-outcome.ts";
import type { TrayDraft } from "../trays/tray-draft.ts";
import type { EvidenceByDraft } from "../trays/tray-evidence.ts";
import { levelKey } from "../trays/unify-spellings.ts";
import type { CellFact, CellRemark } from "./cell-fact.ts";
import { type ColumnReader, columnReader, type NamesDecided, plainValue } from "./column-reader.ts";
import { ownText } from "./own-text.ts";
import { dropEmptyTotals, lostOfRow, lostPart, takeOfEach } from "./pool-of-row.ts";
import { leftOutRemark } from "./read-use-cell.ts";
import { recordTemplate } from "./record-template.ts";
import { RowRemarks } from "./row-remarks.ts";
import { RowState, type YearlessCell } from "./row-state.ts";
import { isOneTray } from "./several-trays.ts";

/** What reading a table needs besides its columns. */
export interface RowsOptions {
  /** the full dates of each column, by its place */
  spans: ReadonlyMap<number, DateSpan> | undefined;
  /** the stated year of each column's first date that has none; 0 when not stated */
  firstYear: number;
  /** what the names of trays stand for; nothing before that is decided */
  names?: NamesDecided;
  /** give up at the first cell whose reading depends on what the rest of the sheet says */
  stopWhenOpen: boolean;
  onRows?: (rows: number) => void;
}

/** The trays of one table, one draft per row, and its part of the log. */
export interface RowsRead {
  drafts: TrayDraft[];
  issues: Issue[];
  rows: number;
  evidence: EvidenceByDraft;
  /** the first filled cell of each column, where one of the first rows has any */
  examples: string[];
  /** the different texts of each column of names, by field or free header; not for columns with very many */
  levels(): Map<string, string[]>;
}

class OpenCell extends Error {}

type Loose = Record<string, unknown>;

const [rowsPerReport, rowsForExamples] = [20_000, 200];

/** Reads every row of a table by the plan of its columns. */
class RowsReading {
  readonly drafts: TrayDraft[] = [];
  readonly issues: Issue[] = [];
  readonly evidence: EvidenceByDraft = new Map();
  readonly examples: string[] = [];
  rows = 0;
  private readonly readers: ColumnReader[];
  private readonly template: Loose;
  private readonly hasTrayColumn: boolean;
  /** the column whose marks say which trays count */
  private readonly marks: ColumnReader | undefined;
  /** weights whose header says that they are of each tray */
  private readonly ofEach: ("fresh" | "dry")[];
  private readonly remarks: RowRemarks;
  private readonly state = new RowState();
  /** the last date of each column whose year follows from the one above */
  private readonly dateAbove = new Map<number, string>();

  constructor(
    private readonly file: string,
    /** what a line beside the rows says of each */
    private readonly doubt: CellRemark | undefined,
    plans: ReadonlyArray<ColumnPlan>,
    private readonly options: RowsOptions,
  ) {
    this.remarks = new RowRemarks(file);
    const ofSeveral = plans.some(({ field }) => field === "trays_in_pool");
    this.readers = plans
      .filter(({ field }) => field !== "unread")
      .map((plan) => columnReader(plan, options.names, ofSeveral));
    this.marks = this.readers.find(({ plan }) => plan.because === onlyMarkedCount);
    this.template = recordTemplate(plans);
    this.state.hasFlushes = plans.some(({ flush, kind }) => flush !== undefined && kind === "mass");
    this.hasTrayColumn = plans.some(({ field }) => field === "tray_id");
    this.state.isPoolAsked =
      !this.hasTrayColumn && plans.some(({ mayBe }) => mayBe?.includes("trays_in_pool") === true);
    const says = (field: ColumnPlan["field"]): boolean =>
      plans.some((plan) => plan.field === field && saysEach(plan.header));
    this.ofEach = [...(says("fresh_g") ? ["fresh" as const] : []), ...(says("dry_g") ? ["dry" as const] : [])];
  }

  readonly visit = (cells: string[], row: number): void => {
    const draft = { ...this.template } as unknown as TrayDraft;
    const { state, remarks } = this;
    state.reset();
    remarks.startRow(row);
    if (this.rows < rowsForExamples) this.noteExamples(cells);
    for (const reader of this.readers) {
      const text = cells[reader.index]!;
      if (text === "") continue;
      const value = plainValue(reader, text);
      if (value >= 0) state.takeValue(reader, value, draft);
      else if (reader.slot === "tray" && isOneTray(text)) state.name = ownText(text);
      else this.readCell(reader, text, draft);
    }
    if (state.yearless !== undefined) this.completeYears(state.yearless, draft);
    state.dropUnknownPool();
    dropEmptyTotals(state, remarks);
    const lost = lostOfRow(state, remarks);
    if (this.doubt !== undefined && state.isWeighed()) remarks.add("", "", this.doubt);
    draft.outcome = this.outcome();
    this.leaveOut(cells, draft);
    draft.traysInPool = this.pool(lost);
    draft.trayId = state.name === "" ? this.madeUpName(row) : state.name;
    const note = state.notes();
    if (note !== undefined) draft.note = note;
    state.putPickings(draft);
    draft.factors = state.factors;
    draft.bounds = state.bounds;
    draft.file = this.file;
    draft.row = row;
    draft.flags = remarks.flags;
    remarks.endRow(draft.trayId, this.issues);
    if (state.evidence !== undefined) this.evidence.set(draft, state.evidence);
    this.drafts.push(draft);
    if (lost > 0) this.drafts.push(lostPart(draft, lost, state.lost!.outcome));
    this.rows++;
    if (this.rows % rowsPerReport === 0) this.options.onRows?.(this.rows);
  };

  private noteExamples(cells: ReadonlyArray<string>): void {
    for (let column = 0; column < cells.length; column++) this.examples[column] ||= cells[column]!.trim();
  }

  /** A cell that is no plain number, and no plain name of a tray. */
  private readCell(reader: ColumnReader, text: string, draft: TrayDraft): void {
    const { value, more } = reader.read(text);
    if (more !== undefined) this.takeMore(reader, text, more);
    if (value === undefined) return;
    if (reader.plan.kind === "date") this.takeDate(reader, value as string, draft);
    else this.state.takeValue(reader, value, draft);
  }

  /** Leaves the weight of a tray out that bears the mark for it, or none of those of trays that count, and was not lost anyway. */
  private leaveOut(cells: ReadonlyArray<string>, { outcome }: TrayDraft): void {
    const { marks, state } = this;
    if (marks !== undefined && cells[marks.index]!.trim() === "" && state.isWeighed())
      state.leftOut = { column: marks.plan.header, raw: "", remark: leftOutRemark("yes") };
    if (state.leftOut === undefined || isLoss(outcome)) return;
    const { column, raw, remark } = state.leftOut;
    // an outcome that is stated settles what the mark leaves open
    this.remarks.add(column, raw, outcome === undefined ? remark : { ...remark, severity: "note" });
    state.leaveOut();
  }

  /** Takes what a cell says besides its value. */
  private takeMore(reader: ColumnReader, raw: string, fact: CellFact): void {
    const { state, remarks } = this;
    if (fact.open === true && this.options.stopWhenOpen) throw new OpenCell();
    if (fact.yearless !== undefined) {
      state.yearless = [...(state.yearless ?? []), { reader, fact, raw }];
      return;
    }
    if (fact.leftOut !== undefined) state.leftOut = { column: reader.plan.header, raw, remark: fact.leftOut };
    if (fact.remark !== undefined) remarks.add(reader.plan.header, raw, fact.remark);
    state.takeFact(reader, fact);
  }

  /** Completes dates without a year: by the row's full dates, else by the column's, else counted on from a stated year. */
  private completeYears(cells: ReadonlyArray<YearlessCell>, draft: TrayDraft): void {
    for (const { reader, fact, raw } of cells) {
      const days = fact.yearless!;
      const stage = (stageFields as ReadonlyArray<string>).indexOf(reader.plan.field);
      const others = this.stagesOf(draft).filter((other) => other.stage !== stage);
      const own = others.at(-1)?.iso;
      const span = own === undefined ? this.options.spans?.get(reader.index) : { first: own, last: own };
      const byDates = span === undefined ? undefined : completeYear(days, stage, others, span);
      const above = this.dateAbove.get(reader.index) ?? this.options.firstYear;
      const iso = byDates ?? (above === 0 || own !== undefined ? undefined : countedOn(days, above));
      if (iso === undefined) {
        this.remarks.add(reader.plan.header, raw, fact.remark!);
        this.state.takeFact(reader, fact);
        continue;
      }
      this.remarks.add(reader.plan.header, raw, {
        rule: "no-year",
        severity: "change",
        reason:
          byDates === undefined
            ? "a date without its year: counted on from first_year in the settings"
            : "a date without its year: the only one within a crop of the other dates of its row or column",
        result: iso,
        expected: "",
        action: "",
      });
      this.takeDate(reader, iso, draft);
    }
  }

  private takeDate(reader: ColumnReader, iso: string, draft: TrayDraft): void {
    if (this.options.firstYear > 0) this.dateAbove.set(reader.index, iso);
    this.state.takeValue(reader, iso, draft);
  }

  /** The row's full dates by stage. */
  private stagesOf(draft: TrayDraft): { stage: number; iso: string }[] {
    return stageFields.flatMap((field, stage) => {
      const iso = field === "harvested_on" ? this.state.harvested : (draft[trayProperty[field]] as string | undefined);
      return iso === undefined ? [] : [{ stage, iso }];
    });
  }

  private outcome(): TrayDraft["outcome"] {
    const { state } = this;
    if (state.typed === undefined && state.words === undefined) return undefined;
    const { outcome, says, contradicts } = rowOutcome(state.typed, state.words ?? []);
    if (says !== undefined) state.evidence = { ...state.evidence, says };
    if (contradicts) {
      this.remarks.add("", "", {
        rule: "outcome-contradiction",
        severity: "warning",
        reason: "cells of the row say different things of what became of the tray; neither is taken",
        result: "asked",
        expected: "one outcome in the outcome column",
        action: "Correct the outcome, or the cell with the word in it",
      });
    }
    return outcome;
  }

  /** How many trays the row stands for: by its weight's cell, its count, or its name; and what is of each of them. */
  private pool(lost: number): number {
    const said = this.state.counts();
    if (said.length === 0) return 1;
    if (said.some((count) => count !== said[0])) {
      this.remarks.add("", "", {
        rule: "pool-contradiction",
        severity: "warning",
        reason: "cells of the row give different counts of trays weighed together; the one nearest the weight is kept",
        result: String(said[0]),
        expected: "",
        action: "Correct the count of trays in one of the cells",
      });
    }
    const picked = said[0]! - lost;
    if (picked > 1) takeOfEach(this.state, this.remarks, this.ofEach, picked);
    return picked;
  }

  private madeUpName(row: number): string {
    const name = `row ${row} of ${this.file}`;
    if (this.hasTrayColumn) {
      this.remarks.add("", "", {
        rule: "made-up-name",
        severity: "note",
        reason: "the tray has no name of its own, so it is called by its row and file",
        result: name,
        expected: "a name or number of its own for every tray",
        action: "Name the tray if other rows or files speak of it too",
      });
    }
    return name;
  }

  levels(): Map<string, string[]> {
    const levels = new Map<string, string[]>();
    for (const { plan, slot, property, texts } of this.readers) {
      if (plan.kind !== "text" || slot === "note") continue;
      const found = texts();
      if (found !== undefined)
        levels.set(levelKey(slot === "factor" ? plan.header : property, slot === "factor"), found);
    }
    return levels;
  }
}

/**
 * Reads every row of a table by the plan of its columns.
 * @returns undefined when it was to stop at an open cell and met one
 */
export function readRows(
  table: RawTable,
  plans: ReadonlyArray<ColumnPlan>,
  options: RowsOptions,
): RowsRead | undefined {
  const doubt = table.remarksSay?.doubt;
  const reading = new RowsReading(table.file, doubt === undefined ? undefined : doubtBeside(doubt), plans, options);
  try {
    table.forEachRow(reading.visit);
  } catch (error) {
    if (error instanceof OpenCell) return undefined;
    throw error;
  }
  return reading;
}
