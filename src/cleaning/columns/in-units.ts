import { type FieldKind, type HarvestFieldKey, harvestField } from "../../records/harvest-field.ts";
import type { ColumnMeaning } from "./column-plan.ts";
import type { headerParts } from "./header-unit.ts";

/**
 * The unit of a header that a field of such a kind can have; "" where the header has none. An outcome may be a share:
 * "Contam %".
 */
export const withUnit = (kind: FieldKind, units: ReturnType<typeof headerParts>["units"]): string | undefined =>
  units.length === 0 || (kind === "outcome" && units.every((unit) => unit.kind === "percent"))
    ? ""
    : units.find((unit) => unit.kind === kind)?.name;

/** What grain spawn and liquid culture are called in the other's unit, and the supplement in grams. */
const inOtherUnit: Readonly<Partial<Record<HarvestFieldKey, ReadonlyArray<HarvestFieldKey>>>> = {
  spawn_g: ["inoculum_ml", "spawn_pct"],
  inoculum_ml: ["spawn_g", "spawn_pct"],
  supplement: ["supplement_g"],
};

/** A meaning with the unit of the header; "Spawn (ml)" and "Inoculum (g)" are what has such a unit. */
export function inUnits(
  { field, weak }: { field: HarvestFieldKey; weak: boolean },
  units: ReturnType<typeof headerParts>["units"],
  because: string,
): ColumnMeaning[] {
  const own = withUnit(harvestField(field).kind, units);
  if (own !== undefined) return [{ field, because, rank: weak ? 1 : 2, unit: own }];
  return (inOtherUnit[field] ?? []).flatMap((other): ColumnMeaning[] => {
    const unit = withUnit(harvestField(other).kind, units);
    return unit === undefined ? [] : [{ field: other, because, rank: 1, unit }];
  });
}
