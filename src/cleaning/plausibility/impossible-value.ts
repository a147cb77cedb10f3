import type { FieldKind, HarvestFieldKey } from "../../records/harvest-field.ts";

/**
 * Why a number can be no value of a field at all; "" when it can. Such a cell is left out, never mended.
 * @param value in the field's canonical unit; percentages as shares 0 to 1
 */
export function whyImpossible(field: HarvestFieldKey, kind: FieldKind, value: number): string {
  if (kind === "temperature") {
    return value < -10 || value > 60 ? "no grow room has been that cold or hot" : "";
  }
  if (value < 0) return "it cannot be below 0";
  if (kind === "hours" && value > 24) return "a day has 24 hours";
  if (kind === "percent" && value > 1) return "it cannot be above 100 %";
  if ((field === "flush" || field === "trays_in_pool") && value < 1) return "counting starts at 1";
  if (kind === "days" && value > 3650) return "that is more than ten years";
  if (kind === "mass" && value > 1e6) return "that is more than a tonne in one tray";
  if (kind === "volume" && value > 1e6) return "that is more than a cubic metre in one tray";
  return "";
}
