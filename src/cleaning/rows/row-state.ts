import { type Bounds, type Flush, isLoss, pickingOf } from "../../records/tray.ts";
import { aCheck } from "../columns/losses-and-notes.ts";
import { joinNotes, newFactors, noBounds, noFactors, noFlushes, type TrayDraft } from "../trays/tray-draft.ts";
import type { TrayEvidence } from "../trays/tray-evidence.ts";
import { readOutcome, type TraySaid } from "../values/outcome-words.ts";
import type { CellFact, CellRemark } from "./cell-fact.ts";
import type { ColumnReader } from "./column-reader.ts";

/** A date of the row that still needs its year. */
export interface YearlessCell {
  reader: ColumnReader;
  fact: CellFact;
  raw: string;
}

/** What the cells of one row have said so far. Used again for every row. */
export class RowState {
  name = "";
  typed: TraySaid | "asked" | undefined;
  words: TraySaid[] | undefined;
  fresh: number | undefined;
  dry: number | undefined;
  harvested: string | undefined;
  flush = 0;
  pool = 0;
  cellPool = 0;
  namePool = 0;
  note: string | undefined;
  /** what the last look at the tray found, of several side by side */
  check: string | undefined;
  factors = noFactors;
  bounds = noBounds;
  sideFlushes: Flush[] | undefined;
  yearless: YearlessCell[] | undefined;
  evidence: TrayEvidence | undefined;
  /** weights said to be of each tray of a pool */
  each: ("fresh" | "dry")[] | undefined;
  /** of several trays, how many were lost */
  lost: CellFact["lost"];
  /** a count of trays was typed that cannot be read: of how many the weights are is not known */
  private isPoolUnknown = false;
  /** there are columns for the weights of flushes */
  hasFlushes = false;
  /** it is asked which column counts the trays of each row */
  isPoolAsked = false;
  /** the grower's mark that leaves the tray out */
  leftOut: { column: string; raw: string; remark: CellRemark } | undefined;

  reset(): void {
    this.name = "";
    this.typed = undefined;
    this.words = undefined;
    this.fresh = undefined;
    this.dry = undefined;
    this.harvested = undefined;
    this.flush = 0;
    this.pool = 0;
    this.cellPool = 0;
    this.namePool = 0;
    this.note = undefined;
    this.check = undefined;
    this.factors = noFactors;
    this.bounds = noBounds;
    this.sideFlushes = undefined;
    this.yearless = undefined;
    this.evidence = undefined;
    this.each = undefined;
    this.lost = undefined;
    this.isPoolUnknown = this.isPoolAsked;
    this.leftOut = undefined;
  }

  /** Takes what a cell says besides its value. */
  takeFact(reader: ColumnReader, fact: CellFact): void {
    const { slot, plan } = reader;
    if (fact.pool !== undefined) {
      if (slot === "tray") this.namePool = fact.pool;
      else this.cellPool = fact.pool;
    }
    if (fact.flush !== undefined) this.flush = fact.flush;
    if (fact.lost !== undefined) this.lost = fact.lost;
    if (fact.bounds !== undefined) {
      const kept: Partial<Record<string, Bounds>> = this.bounds === noBounds ? {} : this.bounds;
      kept[plan.field] = fact.bounds;
      this.bounds = kept;
    }
    if (fact.says !== undefined) {
      if (slot === "outcome") this.typed = fact.says;
      else if (fact.says !== "asked") {
        // "in progress" under the dry weight of what was picked: it is drying
        const dries = slot === "dry" && fact.says === "growing" && ((this.fresh ?? 0) > 0 || this.sideFlushes);
        this.words = [...(this.words ?? []), dries ? "drying" : fact.says];
      }
      if (fact.queried === true) this.evidence = { ...this.evidence, queried: true };
    }
    const isWeight = slot === "fresh" || slot === "dry";
    if ((slot === "pool" || slot === "tray") && (fact.unread === true || fact.open === true)) this.isPoolUnknown = true;
    if (fact.each === true && isWeight) this.each = [...(this.each ?? []), slot];
    if (fact.unread === true && isWeight) this.evidence = { ...this.evidence, unread: true };
    else if ((fact.unread === true || fact.open === true) && (slot === "harvested" || plan.field === "dried_on"))
      this.evidence = { ...this.evidence, ...(fact.open === true ? { dated: true } : { unread: true }) };
  }

  /** Takes a cell's value to its place. */
  takeValue(reader: ColumnReader, value: number | string, draft: TrayDraft): void {
    const { flush } = reader.plan;
    if (flush !== undefined) {
      this.takeSide(reader, flush, value);
      return;
    }
    switch (reader.slot) {
      case "property":
        reader.set(draft, value);
        break;
      case "tray":
        this.name = value as string;
        break;
      case "fresh":
        this.fresh = value as number;
        break;
      case "dry":
        this.dry = value as number;
        break;
      case "harvested":
        this.harvested = value as string;
        break;
      case "flush":
        this.flush = value as number;
        break;
      case "pool":
        this.pool = value as number;
        break;
      case "note":
        if (reader.plan.because === aCheck) this.takeCheck(value as string);
        else this.note = this.note === undefined ? (value as string) : joinNotes([this.note, value as string]);
        break;
      case "factor": {
        const kept = this.factors === noFactors ? newFactors() : this.factors;
        kept[reader.property] = value as string;
        this.factors = kept;
        break;
      }
    }
  }

  /** A later look says more than the ones before it; a loss that was seen stays said. */
  private takeCheck(found: string): void {
    const before = this.check;
    const isLost = before !== undefined && isLoss(readOutcome(before)?.says);
    this.check = isLost ? joinNotes([before, found]) : found;
  }

  /** How many trays the row stands for, by the cell nearest its weight first. */
  counts(): number[] {
    return [this.cellPool, this.pool, this.namePool].filter((count) => count > 0);
  }

  /** Everything noted of the tray. */
  notes(): string | undefined {
    const { check, note } = this;
    return check === undefined || note === undefined ? (check ?? note) : joinNotes([check, note]);
  }

  /** Whether any weight was read. */
  isWeighed(): boolean {
    const { fresh, dry, sideFlushes: sides = [], bounds } = this;
    const isBounded = bounds.fresh_g !== undefined || bounds.dry_g !== undefined;
    return fresh !== undefined || dry !== undefined || sides.length > 0 || isBounded;
  }

  /** Takes the weights away where it is not known of how many trays they are. */
  dropUnknownPool(): void {
    if (!this.isPoolUnknown || this.namePool > 0 || this.cellPool > 0 || !this.isWeighed()) return;
    this.dropWeights();
    this.evidence = { ...this.evidence, unread: true };
  }

  /** Takes the weights away of a tray that is left out. */
  leaveOut(): void {
    this.dropWeights();
    if (this.bounds !== noBounds) this.bounds = { ...this.bounds, fresh_g: undefined, dry_g: undefined };
    this.evidence = { ...this.evidence, leftOut: true };
  }

  private dropWeights(): void {
    this.fresh = undefined;
    this.dry = undefined;
    for (const side of this.sideFlushes ?? []) {
      delete side.freshGrams;
      delete side.dryGrams;
    }
  }

  private takeSide(reader: ColumnReader, flush: number, value: number | string): void {
    this.sideFlushes ??= [];
    let side = this.sideFlushes.find(({ number }) => number === flush);
    if (side === undefined) {
      side = { number: flush };
      this.sideFlushes.push(side);
    }
    if (reader.slot === "fresh") side.freshGrams = value as number;
    else if (reader.slot === "dry") side.dryGrams = value as number;
    else side.harvestedOn = value as string;
  }

  /** Gives a draft the row's weights: as its own where it is picked once, without a number; else as numbered pickings. */
  putPickings(draft: TrayDraft): void {
    const { fresh: freshGrams, dry: dryGrams, harvested: harvestedOn, flush: number, sideFlushes, bounds } = this;
    const isNumbered = number > 0 || sideFlushes !== undefined || bounds !== noBounds;
    const isNone = number === 0 && freshGrams === undefined && dryGrams === undefined && harvestedOn === undefined;
    if (!isNumbered || isNone) {
      draft.freshGrams = freshGrams;
      draft.dryGrams = dryGrams;
      draft.harvestedOn = harvestedOn;
      draft.flushes = sideFlushes ?? noFlushes;
      return;
    }
    const flush = pickingOf(number, { freshGrams, dryGrams, harvestedOn });
    const beside = sideFlushes?.find((side) => side.number === number);
    // a numbered row may tell of a flush that has columns of its own: those come first
    if (beside !== undefined) Object.assign(beside, { ...flush, ...beside });
    draft.flushes = beside === undefined ? [...(sideFlushes ?? []), flush] : sideFlushes!;
  }
}
