import { isLoss, sourceOf } from "../../records/tray.ts";
import { plainFields, trayProperty } from "../../records/tray-property.ts";
import type { PartingFact } from "./parting-facts.ts";
import type { TrayDraft } from "./tray-draft.ts";

/** How two rows of one name stand to each other. */
export type Kinship = "one tray" | "two trays" | "unclear";

const folded = (value: string | number | undefined): string | number | undefined =>
  typeof value === "string" ? value.toLowerCase().replace(/\s+/g, " ") : value;

const differ = (a: unknown, b: unknown): boolean => a !== undefined && b !== undefined && a !== b;

const both = (a: unknown, b: unknown): boolean => a !== undefined && b !== undefined;

const properties = plainFields.filter((field) => field !== "batch").map((field) => trayProperty[field]);

/** What of a row says whose it is, texts without case and spacing. */
export interface RowFacts {
  readonly row: TrayDraft;
  readonly file: string;
  /** what parts the trays of its sheet */
  readonly parting: string | undefined;
  readonly batch: string | number | undefined;
  /** the cook from which names begin again in the next */
  readonly apart: string | undefined;
  readonly inoculatedOn: string | number | undefined;
  /** of the tray, its cook apart */
  readonly plain: ReadonlyArray<string | number | undefined>;
  readonly factors: ReadonlyMap<string, string | number | undefined>;
  readonly harvestDays: ReadonlyArray<string>;
  readonly hasResults: boolean;
  /** rows that have it in common stand to every other row alike */
  readonly all: string;
}

/** @param parting reads off what parts the trays of the row's sheet; @param cooks what parts those of several sheets */
export function rowFacts(row: TrayDraft, parting: PartingFact | undefined, cooks?: PartingFact): RowFacts {
  const facts = {
    file: sourceOf(row).file,
    parting: parting?.(row),
    batch: folded(row.batch),
    apart: cooks?.(row),
    inoculatedOn: folded(row.inoculatedOn),
    plain: properties.map((property) => folded(row[property])),
    factors: new Map(Object.entries(row.factors).map(([header, value]) => [header, folded(value)])),
  };
  const results = row.flushes.map(({ number, freshGrams, dryGrams, harvestedOn }) => [
    ...[number, freshGrams, dryGrams, harvestedOn],
  ]);
  return {
    ...facts,
    row,
    harvestDays: row.flushes.flatMap(({ harvestedOn }) => (harvestedOn === undefined ? [] : [harvestedOn])),
    hasResults: row.flushes.length > 0,
    all: JSON.stringify([...Object.values({ ...facts, factors: [...facts.factors] }), results]),
  };
}

/** Facts of the tray, its cook apart, that both rows state and state differently. */
function factsDiffer(a: RowFacts, b: RowFacts): boolean {
  for (let at = 0; at < properties.length; at++) if (differ(a.plain[at], b.plain[at])) return true;
  for (const [header, value] of a.factors) if (differ(value, b.factors.get(header))) return true;
  return false;
}

/** Whether both rows tell of one picking (or of pickings without a number) what cannot both be so. */
function resultsClash({ row: a }: RowFacts, { row: b }: RowFacts): boolean {
  return a.flushes.some((flush) =>
    b.flushes.some(
      (other) =>
        other.number === flush.number &&
        (differ(flush.freshGrams, other.freshGrams) || differ(flush.dryGrams, other.dryGrams)),
    ),
  );
}

/** Whether two rows without flush numbers were picked on different days. */
const pickedApart = ({ harvestDays: mine }: RowFacts, { harvestDays: theirs }: RowFacts): boolean =>
  mine.length > 0 && theirs.length > 0 && !mine.some((day) => theirs.includes(day));

/**
 * Whether two rows of one name are one tray: they are where they agree or complete each other, and two where their cook,
 * their file or their dates tell them apart. Where both can be, it is unclear.
 */
export function kinship(a: RowFacts, b: RowFacts): Kinship {
  const ofOneFile = a.file === b.file;
  if (ofOneFile && a.parting !== b.parting) return "two trays";
  if (differ(a.inoculatedOn, b.inoculatedOn)) return "two trays";
  const bothHaveResults = a.hasResults && b.hasResults;
  const facts = factsDiffer(a, b);
  if (differ(a.batch, b.batch)) {
    // what was set of both is no set-up and result of one tray
    const begins = !ofOneFile && differ(a.apart, b.apart) && a.plain.some((value, at) => both(value, b.plain[at]));
    // lost in one cook, and picked or lost in the other
    const bothEnded = [a, b].every(({ hasResults, row }) => hasResults || isLoss(row.outcome));
    return facts || bothEnded || begins ? "two trays" : "unclear";
  }
  const results = resultsClash(a, b);
  if (!ofOneFile) {
    if (!facts && !results) return "one tray";
    // the same day of inoculation, or the same cook, holds two sheets together
    const isHeld =
      (a.inoculatedOn !== undefined && b.inoculatedOn !== undefined) ||
      (a.batch !== undefined && b.batch !== undefined);
    if (results && facts) return "two trays";
    if (results) return isHeld && pickedApart(a, b) ? "one tray" : "unclear";
    return bothHaveResults ? "two trays" : "unclear";
  }
  if (results) return !facts && pickedApart(a, b) ? "one tray" : "unclear";
  return facts ? "unclear" : "one tray";
}

/** Whether rows of one sheet that agree on cook, day and what parts it are never two trays for sure. */
export const standAlike = (a: RowFacts, b: RowFacts): boolean =>
  a.file === b.file && a.parting === b.parting && a.batch === b.batch && a.inoculatedOn === b.inoculatedOn;

/**
 * Rows that tell again in another sheet what was set of a tray, and nothing of what came of it, though that sheet has room
 * for it; neither a day nor a cook holds them together. They may be of another tray that grows.
 */
export const toldAgain = (rows: ReadonlyArray<TrayDraft>, hasWeights: (file: string) => boolean): TrayDraft[] =>
  rows.filter((row) => {
    const { file } = sourceOf(row);
    const isBlank = row.flushes.length === 0 && row.outcome === undefined && row.note === undefined;
    return (
      isBlank &&
      hasWeights(file) &&
      rows.some(
        (other) =>
          sourceOf(other).file !== file &&
          (other.flushes.length > 0 || other.outcome !== undefined) &&
          !both(row.inoculatedOn, other.inoculatedOn) &&
          !both(row.batch, other.batch) &&
          properties.some((property) => both(row[property], other[property])),
      )
    );
  });
