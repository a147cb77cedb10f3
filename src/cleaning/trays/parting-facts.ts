import { grouped } from "../../records/grouped.ts";
import { harvestField } from "../../records/harvest-field.ts";
import { sourceOf } from "../../records/tray.ts";
import { trayProperty } from "../../records/tray-property.ts";
import { canonicalNumber } from "../rows/canonical-text.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { trayKey } from "./tray-key.ts";

/** What parts rows of one name in a sheet: reads it off a row; undefined where the row does not state it. */
export type PartingFact = (draft: TrayDraft) => string | undefined;

/** A value as it tells trays apart in their names: "Blue", "Jar 2". */
function said(field: SetField, value: string | number | undefined): string | undefined {
  if (value === undefined) return undefined;
  const text = typeof value === "number" ? canonicalNumber(value, harvestField(field).kind) : value;
  return /^\d/.test(text) ? `${harvestField(field).label} ${text}` : text;
}

/** What is set once for a tray. Where it stood, who picked it and when it was dried may differ from flush to flush. */
const setFields = [
  ...([
    "batch",
    "jar",
    "strain",
    "load",
    "culture_generation",
    "supplement",
    "supplement_grade",
    "supplement_g",
  ] as const),
  ...(["inoculum_ml", "spawn_g", "spawn_pct", "substrate_wet_g", "grain_dry_g"] as const),
] as const;
type SetField = (typeof setFields)[number];

const setFacts = setFields.map(
  (field): PartingFact =>
    (draft) =>
      said(field, draft[trayProperty[field]]),
);

/** Whether anything is told of how a tray was set up, its cook apart. */
export const isSetUp = (draft: TrayDraft): boolean =>
  setFields.some((field) => field !== "batch" && draft[trayProperty[field]] !== undefined);

/** Whether a fact lies in blocks of rows, each of another value and with each name once, and names come again in the next. */
function isOfBlocks(rows: ReadonlyArray<TrayDraft>, fact: PartingFact): boolean {
  const blocks = new Map<string, Set<string>>();
  let last: string | undefined;
  let again = 0;
  const all = new Set<string>();
  for (const row of rows) {
    const value = fact(row);
    if (value === undefined) return false;
    if (value !== last) {
      if (blocks.has(value)) return false;
      blocks.set(value, new Set());
    }
    last = value;
    const names = blocks.get(value)!;
    const key = trayKey(row.trayId);
    if (names.has(key)) return false;
    names.add(key);
    if (all.has(key)) again++;
    all.add(key);
  }
  return again >= 2 && blocks.size >= 2 && [...blocks.values()].every(({ size }) => size >= 2);
}

/**
 * The fact that parts the trays of each sheet in which names begin again for each jar, strain, dose or the like: two rows
 * of one name that differ in it are two trays; under "" what parts those of several sheets. A single name that comes again may be a slip and is parted by nothing.
 */
export function partingFacts(drafts: ReadonlyArray<TrayDraft>): Map<string, PartingFact> {
  const byFile = grouped(drafts, (draft) => sourceOf(draft).file);
  const found = new Map<string, PartingFact>();
  for (const [file, rows] of byFile) {
    const fact = setFacts.find((one) => isOfBlocks(rows, one));
    if (fact !== undefined) found.set(file, fact);
  }
  const cooks = byFile.size > 1 ? cooksApart(drafts) : undefined;
  if (cooks !== undefined) found.set("", cooks);
  return found;
}

/** A cook's name without a word before it: "Batch A" may be A. */
const cookOf = ({ batch }: TrayDraft): string | undefined =>
  batch?.toLowerCase().replace(/^\p{L}{3,}[\s#.:_-]+(?=\S)/u, "");

/**
 * The cook that parts trays of different sheets, where names begin again from cook to cook: two names or more of one stand
 * in another. Undefined where they do not, and of a cook of a single name, which may be a slip.
 */
function cooksApart(drafts: ReadonlyArray<TrayDraft>): PartingFact | undefined {
  const names = new Map<string, Set<string>>();
  for (const draft of drafts) {
    const cook = cookOf(draft);
    if (cook === undefined) continue;
    const own = names.get(cook) ?? new Set();
    names.set(cook, own.add(trayKey(draft.trayId)));
  }
  const all = [...names.values()].flatMap((own) => [...own]);
  if (all.length - new Set(all).size < 2) return undefined;
  return (draft) => {
    const cook = cookOf(draft);
    return cook !== undefined && names.get(cook)!.size > 1 ? cook : undefined;
  };
}
