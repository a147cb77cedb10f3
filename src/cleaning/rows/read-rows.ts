import type { Issue } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { Bounds, Flush, Outcome } from "../../records/tray.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import { completeYear, stageFields } from "../dates/complete-year.ts";
import { joinNotes } from "../trays/join-notes.ts";
import { rowOutcome } from "../trays/row-outcome.ts";
import { newFactors, noBounds, noFactors, noFlushes, type TrayDraft, trayProperty } from "../trays/tray-draft.ts";
import { levelKey } from "../trays/unify-spellings.ts";
import type { CellFact } from "./cell-fact.ts";
import { type ColumnReader, columnReader, plainValue } from "./column-reader.ts";
import { recordTemplate } from "./record-template.ts";
import { RowRemarks } from "./row-remarks.ts";

/** What reading a table needs besides its columns. */
export interface RowsOptions {
  /** first and last year of the sheet's full dates */
  sheetYears: Readonly<{ first: number; last: number }> | undefined;
  /** give up at the first cell whose reading hangs on what the rest of the sheet says */
  stopWhenOpen: boolean;
  onRows?: (rows: number) => void;
}

/** The trays of one table, one draft per row, and its part of the log. */
export interface RowsRead {
  drafts: TrayDraft[];
  issues: Issue[];
  rows: number;
  /** the different texts of each column of names, by field or free header; not for columns with very many */
  levels(): Map<string, string[]>;
}

class OpenCell extends Error {}

type Loose = Record<string, unknown>;

const rowsPerReport = 20_000;

/** Reads every row of a table by the plan of its columns. */
class RowsReading {
  readonly drafts: TrayDraft[] = [];
  readonly issues: Issue[] = [];
  rows = 0;
  private readonly readers: ColumnReader[];
  private readonly template: Loose;
  private readonly hasTrayColumn: boolean;
  private readonly remarks: RowRemarks;

  constructor(
    private readonly file: string,
    plans: ReadonlyArray<ColumnPlan>,
    private readonly options: RowsOptions,
  ) {
    this.remarks = new RowRemarks(file);
    this.readers = plans.filter(({ field }) => field !== "unread").map(columnReader);
    this.template = recordTemplate(plans);
    this.hasTrayColumn = plans.some(({ field }) => field === "tray_id");
  }

  readonly visit = (cells: string[], row: number): void => {
    const draft = { ...this.template } as Loose;
    let name = "";
    let typedOutcome: Outcome | undefined;
    let wordOutcome: Outcome[] | undefined;
    let fresh: number | undefined;
    let dry: number | undefined;
    let harvested: string | undefined;
    let flushNumber = 0;
    let pool = 0;
    let cellPool = 0;
    let note: string | undefined;
    let factors = noFactors;
    let bounds = noBounds;
    let sideFlushes: Flush[] | undefined;
    let yearless: { reader: ColumnReader; fact: CellFact; raw: string }[] | undefined;
    this.remarks.startRow(row);
    for (const reader of this.readers) {
      const text = cells[reader.index]!;
      if (text === "") continue;
      let value: number | string | undefined = plainValue(reader, text);
      if (value < 0) {
        const fact = reader.read(text);
        if (fact.open === true && this.options.stopWhenOpen) throw new OpenCell();
        if (fact.yearless !== undefined) {
          yearless = [...(yearless ?? []), { reader, fact, raw: text }];
          continue;
        }
        if (fact.remark !== undefined) this.remarks.add(reader.plan.header, text, fact.remark);
        if (fact.pool !== undefined) cellPool = fact.pool;
        if (fact.bounds !== undefined) {
          const kept: Partial<Record<string, Bounds>> = bounds === noBounds ? {} : bounds;
          kept[reader.plan.field] = fact.bounds;
          bounds = kept;
        }
        if (fact.outcome !== undefined) {
          if (reader.slot === "outcome") typedOutcome = fact.outcome;
          else wordOutcome = [...(wordOutcome ?? []), fact.outcome];
        }
        value = fact.value;
        if (value === undefined) continue;
      }
      const { flush } = reader.plan;
      if (flush !== undefined) {
        sideFlushes ??= [];
        let side = sideFlushes.find(({ number }) => number === flush);
        if (side === undefined) {
          side = { number: flush };
          sideFlushes.push(side);
        }
        if (reader.slot === "fresh") side.freshGrams = value as number;
        else if (reader.slot === "dry") side.dryGrams = value as number;
        else side.harvestedOn = value as string;
        continue;
      }
      switch (reader.slot) {
        case "property":
          reader.set(draft as unknown as TrayDraft, value);
          break;
        case "tray":
          name = value as string;
          break;
        case "fresh":
          fresh = value as number;
          break;
        case "dry":
          dry = value as number;
          break;
        case "harvested":
          harvested = value as string;
          break;
        case "flush":
          flushNumber = value as number;
          break;
        case "pool":
          pool = value as number;
          break;
        case "note":
          note = note === undefined ? (value as string) : joinNotes([note, value as string]);
          break;
        case "factor": {
          const kept = factors === noFactors ? newFactors() : factors;
          kept[reader.property] = value as string;
          factors = kept;
          break;
        }
      }
    }
    if (yearless !== undefined) {
      for (const { reader, fact, raw } of yearless) {
        const iso = this.yearOf(reader, fact, draft, harvested);
        if (iso === undefined) {
          this.remarks.add(reader.plan.header, raw, fact.remark!);
          continue;
        }
        const reason = "a date without its year, which the tray's other dates leave only one of";
        this.remarks.add(reader.plan.header, raw, {
          rule: "no-year",
          severity: "change",
          reason,
          result: iso,
          expected: "",
          action: "",
        });
        if (reader.slot === "harvested") harvested = iso;
        else reader.set(draft as unknown as TrayDraft, iso);
      }
    }
    const outcome = wordOutcome === undefined ? typedOutcome : this.settle(typedOutcome, wordOutcome);
    if (cellPool > 0 && pool > 0 && cellPool !== pool) {
      const action = "Correct the count of trays in one of the cells";
      const reason =
        "two cells of the row give different counts of trays weighed together; the one beside the weight is kept";
      this.remarks.add("", "", {
        rule: "pool-contradiction",
        severity: "warning",
        reason,
        result: String(cellPool),
        expected: "",
        action,
      });
    }
    let flushes = sideFlushes ?? noFlushes;
    if (fresh !== undefined || dry !== undefined || harvested !== undefined || flushNumber > 0) {
      const flush: Flush = { number: flushNumber };
      if (fresh !== undefined) flush.freshGrams = fresh;
      if (dry !== undefined) flush.dryGrams = dry;
      if (harvested !== undefined) flush.harvestedOn = harvested;
      const beside = sideFlushes?.find(({ number }) => number === flushNumber);
      // a numbered row may tell of a flush that has columns of its own: those come first
      if (beside !== undefined) Object.assign(beside, { ...flush, ...beside });
      else flushes = sideFlushes === undefined ? [flush] : [...sideFlushes, flush];
    }
    if (name === "") {
      name = `row ${row} of ${this.file}`;
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
    }
    draft.trayId = name;
    draft.outcome = outcome;
    draft.traysInPool = cellPool || pool || 1;
    draft.note = note;
    draft.flushes = flushes;
    draft.factors = factors;
    draft.bounds = bounds;
    draft.sources = [{ file: this.file, row }];
    draft.flags = this.remarks.flags;
    this.remarks.endRow(name, this.issues);
    this.drafts.push(draft as unknown as TrayDraft);
    this.rows++;
    if (this.rows % rowsPerReport === 0) this.options.onRows?.(this.rows);
  };

  levels(): Map<string, string[]> {
    const levels = new Map<string, string[]>();
    for (const { plan, slot, property, texts } of this.readers) {
      if (plan.kind !== "text" || slot === "tray" || slot === "note") continue;
      const found = texts();
      if (found !== undefined)
        levels.set(levelKey(slot === "factor" ? plan.header : property, slot === "factor"), found);
    }
    return levels;
  }

  private yearOf(
    reader: ColumnReader,
    { yearless }: CellFact,
    draft: Loose,
    harvested: string | undefined,
  ): string | undefined {
    const stage = (stageFields as ReadonlyArray<string>).indexOf(reader.plan.field);
    const others = stageFields.flatMap((field, index) => {
      const iso = field === "harvested_on" ? harvested : (draft[trayProperty[field]] as string | undefined);
      return iso === undefined || index === stage ? [] : [{ stage: index, iso }];
    });
    return completeYear(yearless!, stage, others, this.options.sheetYears);
  }

  private settle(typed: Outcome | undefined, words: ReadonlyArray<Outcome>): Outcome {
    const { outcome, contradicts } = rowOutcome(typed, words);
    if (contradicts) {
      this.remarks.add("", "", {
        rule: "outcome-contradiction",
        severity: "warning",
        reason: "cells of the row say different things of what became of the tray; the worse one is taken",
        result: outcome,
        expected: "one outcome in the outcome column",
        action: "Correct the outcome, or the cell with the word in it",
      });
    }
    return outcome;
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
  const reading = new RowsReading(table.file, plans, options);
  try {
    table.forEachRow(reading.visit);
  } catch (error) {
    if (error instanceof OpenCell) return undefined;
    throw error;
  }
  return reading;
}
