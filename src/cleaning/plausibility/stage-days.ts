import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Tray } from "../../records/tray.ts";
import { dayNumber } from "../dates/calendar.ts";

/** The stages of a tray in their order. */
export const stages = [
  { field: "inoculated_on", property: "inoculatedOn", label: "inoculated" },
  { field: "colonised_on", property: "colonisedOn", label: "colonised" },
  { field: "fruiting_on", property: "fruitingOn", label: "moved to fruiting" },
  { field: "harvested_on", property: "harvestedOn", label: "harvested" },
  { field: "dried_on", property: "driedOn", label: "dried" },
] as const satisfies ReadonlyArray<{ field: HarvestFieldKey; property: keyof Tray & `${string}On`; label: string }>;

/** The day of every stage of every tray, in days since 1970 (whole numbers, which 32 bits hold exactly); NaN where not known. */
export type StageDays = ReadonlyArray<Float32Array>;

const dayOf = (iso: string | undefined): number => (iso === undefined ? Number.NaN : dayNumber(iso));

/** Counts the days of the stages of trays: one array for each stage, in the trays' order. */
export function stageDays(trays: ReadonlyArray<Tray>): StageDays {
  const days = stages.map(() => new Float32Array(trays.length));
  const [inoculated, colonised, fruiting, harvested, dried] = days;
  for (let at = 0; at < trays.length; at++) {
    const tray = trays[at]!;
    inoculated![at] = dayOf(tray.inoculatedOn);
    colonised![at] = dayOf(tray.colonisedOn);
    fruiting![at] = dayOf(tray.fruitingOn);
    harvested![at] = dayOf(tray.harvestedOn);
    dried![at] = dayOf(tray.driedOn);
  }
  return days;
}

/** Days from a tray's inoculation to when it was colonised, or harvested; NaN where one of them is not known. */
export const daysTo = (stage: "colonised" | "harvested", days: StageDays, at: number): number =>
  days[stage === "colonised" ? 1 : 3]![at]! - days[0]![at]!;

/** The same by the two dates, or else as typed; NaN where neither is known. */
export function daysOfTray(stage: "colonised" | "harvested", tray: Tray, days: StageDays, at: number): number {
  const counted = daysTo(stage, days, at);
  if (!Number.isNaN(counted)) return counted;
  return (stage === "colonised" ? tray.daysToColonise : tray.daysToHarvest) ?? Number.NaN;
}
