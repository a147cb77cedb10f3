import { type HarvestFieldKey, harvestField } from "../../records/harvest-field.ts";
import { type Bounds, type RowSource, sourceOf, sourcesOf } from "../../records/tray.ts";
import { flushProperty, plainFields, trayProperty } from "../../records/tray-property.ts";
import { canonicalNumber } from "../rows/canonical-text.ts";
import { addFlag } from "./add-flag.ts";
import { logEmptyFlush, mergeFlushes, narrower } from "./merge-flushes.ts";
import { mergeOutcomes } from "./merge-outcomes.ts";
import { joinNotes, newFactors, noBounds, noFactors, type TrayDraft } from "./tray-draft.ts";
import { type EvidenceByDraft, jointEvidence } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

type Said = { source: RowSource; value: number | string };

const folded = (value: number | string): number | string =>
  typeof value === "string" ? value.toLowerCase().replace(/\s+/g, " ") : value;

const shown = (field: HarvestFieldKey | "", value: number | string): string =>
  typeof value === "string" || field === "" ? String(value) : canonicalNumber(value, harvestField(field).kind);

const bySource = (a: RowSource, b: RowSource): number => (a.file === b.file ? a.row - b.row : a.file < b.file ? -1 : 1);

/** The value on which all rows agree (of spellings that differ in case, the first in the alphabet); "conflict" when they do not. */
function agreed(said: ReadonlyArray<Said>): { value: number | string } | "conflict" | undefined {
  const [first] = said;
  if (first === undefined) return undefined;
  if (said.some(({ value }) => folded(value) !== folded(first.value))) return "conflict";
  const values = said.map(({ value }) => value).sort((a, b) => (a < b ? -1 : 1));
  return { value: values[0]! };
}

const flushNumber = ({ flushes }: TrayDraft): number => flushes[0]?.number ?? 0;

/** Limits on a weight that another row about the same flush gives as a number: not needed, or a conflict. */
function settleWeightLimits(merged: TrayDraft, rows: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  for (const field of ["fresh_g", "dry_g"] as const) {
    const property = flushProperty[field];
    for (const row of rows) {
      const limits = row.bounds[field];
      if (limits === undefined) continue;
      const weights = rows.flatMap((other) =>
        flushNumber(other) === flushNumber(row) ? other.flushes.flatMap((flush) => flush[property] ?? []) : [],
      );
      if (weights.length === 0) continue;
      const { [field]: _limits, ...bounds } = row.bounds;
      row.bounds = bounds;
      if (weights.every((weight) => weight >= (limits.low ?? weight) && weight <= (limits.high ?? weight))) continue;
      addFlag(merged, "conflict");
      logAtRow(log, merged.trayId, sourceOf(row), field, {
        rule: "conflict",
        severity: "warning",
        reason: "limits that leave out the weight another row gives; the weight is kept",
        expected: "the same fact in every row of a tray",
        action: "Correct one of the rows",
      });
    }
  }
}

function mergeBounds(merged: TrayDraft, drafts: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  const fields = new Set(drafts.flatMap(({ bounds }) => Object.keys(bounds)));
  if (fields.size === 0) return;
  const kept: Partial<Record<string, Bounds>> = {};
  for (const field of [...fields].sort()) {
    const said = drafts.flatMap((draft) =>
      draft.bounds[field] === undefined ? [] : [{ bounds: draft.bounds[field], source: sourceOf(draft) }],
    );
    const together = said
      .map(({ bounds }) => bounds)
      .reduce<Bounds | undefined>((all, one) => all && narrower(all, one), {});
    const property = trayProperty[field as keyof typeof trayProperty];
    const value = property === undefined ? undefined : merged[property];
    const fits =
      typeof value !== "number" ||
      (together !== undefined && value >= (together.low ?? value) && value <= (together.high ?? value));
    if (together !== undefined && fits) {
      if (value === undefined) kept[field] = together;
      continue;
    }
    addFlag(merged, "conflict");
    for (const { source } of said) {
      logAtRow(log, merged.trayId, source, field as HarvestFieldKey, {
        rule: "conflict",
        severity: "warning",
        reason: "limits that leave no value in common with the tray's other rows are left out",
        expected: "the same fact in every row of a tray",
        action: "Correct one of the rows",
      });
    }
  }
  merged.bounds = kept;
}

/** Facts of one tray from all its rows, and the log of those that they do not agree on. */
class Merging {
  readonly merged: TrayDraft;
  conflicts = 0;

  constructor(
    readonly rows: ReadonlyArray<TrayDraft>,
    readonly log: TrayLog,
  ) {
    this.merged = {
      trayId: rows[0]!.trayId,
      outcome: undefined,
      traysInPool: 1,
      flushes: [],
      factors: noFactors,
      bounds: noBounds,
      sources: rows.flatMap(sourcesOf),
      flags: [...new Set(rows.flatMap(({ flags }) => flags))].sort(),
    };
  }

  private tell(pick: (row: TrayDraft) => number | string | undefined): Said[] {
    return this.rows.flatMap((row) => {
      const value = pick(row);
      return value === undefined ? [] : [{ source: sourceOf(row), value }];
    });
  }

  private conflict(
    field: HarvestFieldKey | "",
    column: string,
    said: ReadonlyArray<Said>,
    action: string,
    question = "",
  ): void {
    this.conflicts++;
    addFlag(this.merged, "conflict");
    const places = new Set(said.map(({ source }) => source.file)).size > 1 ? "sheets" : "rows";
    for (const { source, value } of said) {
      logAtRow(this.log, this.merged.trayId, source, field, {
        rule: "conflict",
        severity: "warning",
        raw: shown(field, value),
        reason:
          question === ""
            ? `${places} say different things of the same tray: neither is used until one of them is corrected`
            : `${places} of one name give different values: ${question} Neither is used until that is said`,
        expected: "the same fact in every row of a tray",
        action,
        ...(column === "" ? {} : { column }),
      });
    }
  }

  facts(): void {
    for (const field of plainFields) {
      const property = trayProperty[field];
      const said = this.tell((row) => row[property]);
      const value = agreed(said);
      if (value === "conflict")
        this.conflict(field, "", said, "Correct one of the rows; if they are two trays, give each its own name");
      else if (value !== undefined) Object.assign(this.merged, { [property]: value.value });
    }
  }

  factors(): void {
    const headers = [...new Set(this.rows.flatMap(({ factors }) => Object.keys(factors)))].sort();
    if (headers.length === 0) return;
    this.merged.factors = newFactors();
    for (const header of headers) {
      const said = this.tell(({ factors }) => (Object.hasOwn(factors, header) ? factors[header] : undefined));
      const value = agreed(said);
      if (value === "conflict") this.conflict("", header, said, "Correct one of the rows");
      else if (value !== undefined) this.merged.factors[header] = String(value.value);
    }
  }

  notes(): void {
    const notes = this.rows.flatMap(({ note }) => (note === undefined ? [] : [note]));
    if (notes.length > 0) this.merged.note = joinNotes(notes);
  }

  /** @returns whether rows disagree on a weight */
  flushes(): boolean {
    const picked = mergeFlushes(this.rows);
    this.merged.flushes = picked.flushes;
    for (const { field, accounts } of picked.conflicts) {
      const action =
        "Number the pickings in a flush column if they are two, or give each tray its own name (or its cook in a batch column) if they are two trays";
      this.conflict(field, "", accounts, action, "two pickings of one tray, or two trays?");
    }
    return picked.conflicts.some(({ field }) => field !== "harvested_on");
  }

  pool(): void {
    const pools = this.tell(({ traysInPool }) => (traysInPool === 1 ? undefined : traysInPool));
    const pool = agreed(pools);
    if (pool === "conflict") {
      this.conflict("trays_in_pool", "", pools, "Correct the count of trays in one of the rows");
      this.merged.traysInPool = Math.max(...pools.map(({ value }) => Number(value)));
    } else if (pool !== undefined) this.merged.traysInPool = Number(pool.value);
  }

  outcome(): void {
    const { outcome, contradicts, laterFlushLost } = mergeOutcomes(this.rows);
    this.merged.outcome = outcome;
    if (contradicts) {
      const action = "Correct one of the rows; neither outcome is taken until then";
      this.conflict(
        "outcome",
        "",
        this.tell((row) => row.outcome),
        action,
      );
    }
    if (!laterFlushLost) return;
    logAtRow(this.log, this.merged.trayId, sourcesOf(this.merged).at(-1)!, "outcome", {
      rule: "later-flush-lost",
      severity: "note",
      result: "good",
      reason: "lost after an earlier flush was picked: what was picked counts",
    });
  }
}

/**
 * Puts all rows about one tray together. Facts that agree or complete each other are kept; a fact reported in two ways is
 * left out, with both in the log; flushes are kept apart by their number. The order of the rows does not matter.
 * @param drafts two or more, of one tray
 * @param evidence what rows tell of their trays' ends besides; the merged draft's is added
 */
export function mergeDrafts(drafts: ReadonlyArray<TrayDraft>, log: TrayLog, evidence: EvidenceByDraft): TrayDraft {
  const rows = [...drafts].sort((a, b) => bySource(sourceOf(a), sourceOf(b)));
  const merging = new Merging(rows, log);
  const { merged } = merging;
  merging.facts();
  merging.factors();
  merging.notes();
  settleWeightLimits(merged, rows, log);
  mergeBounds(merged, rows, log);
  for (const row of rows) logEmptyFlush(row, evidence.get(row), log);
  const unread = merging.flushes();
  merging.pool();
  merging.outcome();
  const joint = jointEvidence(rows.flatMap((row) => evidence.get(row) ?? []));
  if (joint !== undefined || unread) evidence.set(merged, { ...joint, ...(unread ? { unread } : {}) });
  const numbers = new Set(rows.flatMap(({ flushes }) => flushes.map(({ number }) => number)));
  if (merging.conflicts === 0 && numbers.size < rows.length) logSameTray(rows, merged, log);
  return merged;
}

const factsOf = ({ file: _file, row: _row, sources: _sources, flags: _flags, ...facts }: TrayDraft): string =>
  JSON.stringify(
    Object.entries(facts)
      .filter(([, value]) => value !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

/** Rows that repeat or complete an earlier one of the same tray are no second tray, and the log says so. */
function logSameTray(rows: ReadonlyArray<TrayDraft>, { trayId }: TrayDraft, log: TrayLog): void {
  const first = factsOf(rows[0]!);
  for (const row of rows.slice(1)) {
    const same = factsOf(row) === first;
    logAtRow(log, trayId, sourceOf(row), "", {
      rule: same ? "repeated-row" : "rows-joined",
      severity: "note",
      reason: same
        ? "an earlier row says exactly the same: one tray"
        : "an earlier row speaks of the same tray, and they agree: one tray",
    });
  }
}
