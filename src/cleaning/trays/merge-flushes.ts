import { grouped } from "../../records/grouped.ts";
import { type Bounds, type Flush, type RowSource, sourceOf } from "../../records/tray.ts";
import { type FlushField, flushFields, flushProperty } from "../../records/tray-property.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { TrayEvidence } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** One row's account of one picking. */
interface Account {
  flush: Flush;
  source: RowSource;
}

/** A fact of one picking on which rows disagree. */
export interface FlushConflict {
  field: FlushField;
  accounts: { source: RowSource; value: number | string }[];
}

/** The pickings of a tray from all its rows. */
export interface MergedFlushes {
  flushes: Flush[];
  conflicts: FlushConflict[];
}

function byFlush(drafts: ReadonlyArray<TrayDraft>): Map<number, Account[]> {
  const all = drafts.flatMap((draft) => draft.flushes.map((flush) => ({ flush, source: sourceOf(draft) })));
  return grouped(all, ({ flush }) => flush.number);
}

/** Puts the pickings that several rows of one tray tell of together; a fact on which they disagree is left out. Those without a number stay 0. */
export function mergeFlushes(drafts: ReadonlyArray<TrayDraft>): MergedFlushes {
  const conflicts: FlushConflict[] = [];
  const flushes = [...byFlush(drafts)]
    .sort(([a], [b]) => a - b)
    .map(([number, accounts]): Flush => {
      const merged: Flush = { number };
      for (const field of flushFields) {
        const property = flushProperty[field];
        const said = accounts.flatMap(({ flush, source }) => {
          const value = flush[property];
          return value === undefined ? [] : [{ source, value }];
        });
        const [first] = said;
        if (first === undefined) continue;
        if (said.some(({ value }) => value !== first.value)) conflicts.push({ field, accounts: said });
        else Object.assign(merged, { [property]: first.value });
      }
      return merged;
    });
  return { flushes, conflicts };
}

/** What two bounds leave together; undefined when nothing. */
export function narrower(a: Bounds, b: Bounds): Bounds | undefined {
  const low = a.low === undefined ? b.low : b.low === undefined ? a.low : Math.max(a.low, b.low);
  const high = a.high === undefined ? b.high : b.high === undefined ? a.high : Math.min(a.high, b.high);
  if (low !== undefined && high !== undefined && low > high) return undefined;
  return { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
}

/** Whether anything is told of a picking besides its number. */
export const isPicked = ({ freshGrams, dryGrams, harvestedOn }: Flush): boolean =>
  freshGrams !== undefined || dryGrams !== undefined || harvestedOn !== undefined;

/** Says of a row that it has the number of a flush and nothing else of it, so that it adds nothing to its tray. */
export function logEmptyFlush(row: TrayDraft, evidence: TrayEvidence | undefined, log: TrayLog): void {
  const { flushes, bounds, outcome } = row;
  const [flush] = flushes;
  if (flush === undefined || flushes.some(isPicked) || outcome !== undefined || evidence !== undefined) return;
  if (bounds.fresh_g !== undefined || bounds.dry_g !== undefined) return;
  logAtRow(log, row.trayId, sourceOf(row), "flush", {
    rule: "flush-not-picked",
    severity: "note",
    raw: String(flush.number),
    reason: "the row has the number of a flush, and neither its weight nor its day: not picked yet, it adds nothing",
    action: "Type the weight, or 0 if nothing was picked",
  });
}
