import type { FieldKind, HarvestFieldKey } from "../../records/harvest-field.ts";

/** What no single tray can hold, in g and mL. Common practice, no source. Weights of harvests are judged with their pool. */
const most: Partial<Record<HarvestFieldKey, number>> = {
  substrate_wet_g: 30_000,
  grain_dry_g: 15_000,
  supplement_g: 5_000,
  spawn_g: 15_000,
  inoculum_ml: 1_000,
  added_liquid_ml: 10_000,
  flush: 30,
  trays_in_pool: 500,
  culture_generation: 200,
};

/** Less than the smallest jar holds, in g. Common practice, no source. */
const least: Partial<Record<HarvestFieldKey, number>> = { substrate_wet_g: 15, grain_dry_g: 5 };

/** Grain spawn is mixed in at some per cent; a share typed under a % is a hundredth of that. Common practice, no source. */
const leastSpawn = 0.005;

/** The most a field's plain number may be to be taken as it stands; undefined where there is no such limit. */
export const mostOf = (field: string): number | undefined => most[field as HarvestFieldKey];

/**
 * Why a number can be no value of a field at all; "" when it can. Such a cell is left out, never corrected.
 * @param value in the field's canonical unit; percentages as shares 0 to 1
 */
export function whyImpossible(field: HarvestFieldKey, kind: FieldKind, value: number): string {
  if (kind === "temperature") {
    return value < -10 || value > 60 ? "no grow room has been that cold or hot" : "";
  }
  if (value < 0) return "it cannot be below 0";
  if (kind === "hours" && value > 24) return "a day has 24 hours";
  if (kind === "percent" && value > 1) return "it cannot be above 100 %";
  if (field === "spawn_pct" && value > 0 && value < leastSpawn)
    return "less than half a per cent of the substrate: is 0.05 meant as 5 %?";
  if ((field === "flush" || field === "trays_in_pool") && value < 1) return "counting starts at 1";
  if (kind === "days" && value > 3650) return "that is more than ten years";
  if (value > 0 && value < (least[field] ?? 0))
    return "less than any tray holds: another unit, or a slip of the decimal point?";
  const limit = most[field];
  if (limit !== undefined && value > limit) {
    if (kind === "count") return `more than ${limit} is no such count`;
    return "more than one tray can hold: another unit, a slip of ten, or the sum of several trays?";
  }
  if (kind === "mass" && value > 1e6) return "that is more than a tonne in one tray";
  if (kind === "volume" && value > 1e6) return "that is more than a cubic metre in one tray";
  return "";
}
