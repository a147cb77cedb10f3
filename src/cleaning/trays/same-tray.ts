import { sourceOf } from "../../records/tray.ts";
import type { PartingFact } from "./parting-facts.ts";
import { plainFields, type TrayDraft, trayProperty } from "./tray-draft.ts";

/** How two rows of one name stand to each other. */
export type Kinship = "one tray" | "two trays" | "unclear";

const folded = (value: unknown): unknown =>
  typeof value === "string" ? value.toLowerCase().replace(/\s+/g, " ") : value;

const differ = (a: unknown, b: unknown): boolean => a !== undefined && b !== undefined && folded(a) !== folded(b);

/** Facts of the tray, its cook apart, that both rows state and state differently. */
function factsDiffer(a: TrayDraft, b: TrayDraft): boolean {
  for (const field of plainFields) {
    if (field === "batch") continue;
    const property = trayProperty[field];
    if (differ(a[property], b[property])) return true;
  }
  return Object.keys(a.factors).some((header) => differ(a.factors[header], b.factors[header]));
}

/** Whether both rows tell of one picking (or of pickings without a number) what cannot both be so. */
function resultsClash(a: TrayDraft, b: TrayDraft): boolean {
  return a.flushes.some((flush) =>
    b.flushes.some(
      (other) =>
        other.number === flush.number &&
        (differ(flush.freshGrams, other.freshGrams) || differ(flush.dryGrams, other.dryGrams)),
    ),
  );
}

const harvestDays = ({ flushes }: TrayDraft): string[] =>
  flushes.flatMap(({ harvestedOn }) => (harvestedOn === undefined ? [] : [harvestedOn]));

/** Whether two rows without flush numbers were picked on different days. */
const pickedApart = (a: TrayDraft, b: TrayDraft): boolean => {
  const [mine, theirs] = [harvestDays(a), harvestDays(b)];
  return mine.length > 0 && theirs.length > 0 && !mine.some((day) => theirs.includes(day));
};

const bothHaveResults = (a: TrayDraft, b: TrayDraft): boolean => a.flushes.length > 0 && b.flushes.length > 0;

/**
 * Whether two rows of one name are one tray: they are where they agree or complete each other, and two where their cook,
 * their file or their dates tell them apart. Where both can be, it is unclear.
 * @param parting what parts the trays of their sheet
 */
export function kinship(a: TrayDraft, b: TrayDraft, parting?: PartingFact): Kinship {
  if (parting !== undefined && sourceOf(a).file === sourceOf(b).file && parting(a) !== parting(b)) return "two trays";
  if (differ(a.inoculatedOn, b.inoculatedOn)) return "two trays";
  const facts = factsDiffer(a, b);
  if (differ(a.batch, b.batch)) return facts || bothHaveResults(a, b) ? "two trays" : "unclear";
  const results = resultsClash(a, b);
  if (sourceOf(a).file !== sourceOf(b).file) {
    if (!facts && !results) return "one tray";
    // the same day of inoculation, or the same cook, holds two sheets together
    const isHeld =
      (a.inoculatedOn !== undefined && b.inoculatedOn !== undefined) ||
      (a.batch !== undefined && b.batch !== undefined);
    if (results && facts) return "two trays";
    if (results) return isHeld && pickedApart(a, b) ? "one tray" : "unclear";
    return bothHaveResults(a, b) ? "two trays" : "unclear";
  }
  if (results) return !facts && pickedApart(a, b) ? "one tray" : "unclear";
  return facts ? "unclear" : "one tray";
}
