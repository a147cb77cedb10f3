import type { Settings } from "../../records/setting.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";

const reason = "settings.csv says so";

/** Gives columns what the settings alone decide, before any cell is looked at; a unit in a header stays. */
export function applySettings(plans: ReadonlyArray<ColumnPlan>, settings: Settings): void {
  const units: Partial<Record<ColumnPlan["kind"], string>> = {
    mass: settings.massUnit,
    volume: settings.volumeUnit,
    temperature: settings.temperatureUnit === "" ? "" : `°${settings.temperatureUnit}`,
  };
  for (const plan of plans) {
    const { conventions, kind } = plan;
    if (settings.decimalMark !== "") conventions.decimalMark = settings.decimalMark === "point" ? "." : ",";
    conventions.percentStyle = settings.percentStyle;
    if (conventions.bareUnit === "") {
      conventions.bareUnit = units[kind] ?? "";
      conventions.bareUnitReason = reason;
    }
    plan.dates = { order: settings.dateOrder, epoch: settings.serialDates };
  }
}
