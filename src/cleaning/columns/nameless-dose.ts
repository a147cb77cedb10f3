import { harvestField } from "../../records/harvest-field.ts";
import type { ColumnMeaning, Say } from "./column-plan.ts";
import type { ColumnProfile } from "./column-profile.ts";

/**
 * The one column without a name that holds nothing but volumes is the dose of a sheet that has no other volume. Common
 * practice, no source.
 * @param taken the meanings of columns so far, to which it is added
 */
export function takeNamelessDose(
  header: ReadonlyArray<string>,
  taken: Map<number, ColumnMeaning>,
  profiles: (indexes: ReadonlyArray<number>) => ReadonlyMap<number, ColumnProfile>,
  say: Say,
): void {
  const nameless = header.flatMap((name, index) => (name === "" ? [index] : []));
  if (nameless.length === 0 || [...taken.values()].some(({ field }) => harvestField(field).kind === "volume")) return;
  const looked = profiles(nameless);
  const [dose, second] = nameless.filter((index) => {
    const { volume = 0, empty: _, ...others } = looked.get(index)!.counts;
    return volume > 0 && Object.values(others).every((count) => count === 0);
  });
  if (dose === undefined || second !== undefined) return;
  taken.set(dose, { field: "inoculum_ml", because: "volumes under no name", rank: 2, unit: "" });
  say("", {
    rule: "nameless-dose",
    severity: "note",
    result: "inoculum_ml",
    reason: "a column without a name holds nothing but volumes: read as the dose of culture",
    action: "Name the column if it holds something else",
  });
}
