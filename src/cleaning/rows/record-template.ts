import { trayProperty } from "../../records/tray-property.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";

/** What every record has, whatever columns its sheet has; a note only where there is a column of them. */
const alwaysThere = [
  "trayId",
  "outcome",
  "freshGrams",
  "dryGrams",
  "harvestedOn",
  "traysInPool",
  "note",
  "flushes",
  "factors",
  "bounds",
  "file",
  "row",
  "flags",
];

/**
 * A record with a place for every fact its sheet can tell, to be copied for each row. Records that are copies of one
 * object share its layout in memory; added to one by one, a million of them would be kept as slow look-up tables.
 * Reading it from JSON lays all places out side by side.
 */
export function recordTemplate(plans: ReadonlyArray<ColumnPlan>): Record<string, unknown> {
  const properties = plans.flatMap(({ field }) =>
    field in trayProperty ? [trayProperty[field as keyof typeof trayProperty]] : [],
  );
  const hasNotes = plans.some(({ field }) => field === "note");
  const places = [...new Set<string>([...properties, ...alwaysThere])].filter((one) => one !== "note" || hasNotes);
  const template = JSON.parse(JSON.stringify(Object.fromEntries(places.map((place) => [place, null])))) as Record<
    string,
    unknown
  >;
  for (const place of places) template[place] = undefined;
  return template;
}
