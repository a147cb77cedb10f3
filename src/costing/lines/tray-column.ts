import { type HarvestFieldKey, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { pickingsOf, type Tray } from "../../records/tray.ts";

const readers: Record<HarvestFieldKey, (tray: Tray) => string | number | undefined> = {
  tray_id: (tray) => tray.trayId,
  batch: (tray) => tray.batch,
  load: (tray) => tray.load,
  load_position: (tray) => tray.loadPosition,
  jar: (tray) => tray.jar,
  culture_generation: (tray) => tray.cultureGeneration,
  culture_age_days: (tray) => tray.cultureAgeDays,
  strain: (tray) => tray.strain,
  shelf: (tray) => tray.shelf,
  chamber: (tray) => tray.chamber,
  operator: (tray) => tray.operator,
  container: (tray) => tray.container,
  substrate_wet_g: (tray) => tray.substrateWetGrams,
  grain_dry_g: (tray) => tray.grainDryGrams,
  supplement: (tray) => tray.supplement,
  supplement_grade: (tray) => tray.supplementGrade,
  supplement_g: (tray) => tray.supplementGrams,
  inoculum_ml: (tray) => tray.inoculumMillilitres,
  spawn_g: (tray) => tray.spawnGrams,
  spawn_pct: (tray) => (tray.spawnShare === undefined ? undefined : tray.spawnShare * 100),
  added_liquid_ml: (tray) => tray.addedLiquidMillilitres,
  incubation_c: (tray) => tray.incubationCelsius,
  fruiting_c: (tray) => tray.fruitingCelsius,
  light_hours: (tray) => tray.lightHours,
  inoculated_on: (tray) => tray.inoculatedOn,
  colonised_on: (tray) => tray.colonisedOn,
  days_to_colonise: (tray) => tray.daysToColonise,
  fruiting_on: (tray) => tray.fruitingOn,
  harvested_on: (tray) => tray.harvestedOn,
  days_to_harvest: (tray) => tray.daysToHarvest,
  dried_on: (tray) => tray.driedOn,
  flush: (tray) => pickingsOf(tray).length || undefined,
  outcome: (tray) => tray.outcome,
  fresh_g: (tray) => tray.freshGrams,
  dry_g: (tray) => tray.dryGrams,
  final_moisture_pct: (tray) => (tray.finalMoisture === undefined ? undefined : tray.finalMoisture * 100),
  trays_in_pool: (tray) => tray.traysInPool,
  note: (tray) => tray.note,
};

/**
 * What a tray's record says in a column: a canonical column by its key, any other by its own header.
 * @returns undefined when not recorded
 * @example trayColumn(tray, "supplement_grade") // "fine"
 */
export function trayColumn(tray: Tray, column: string): string | number | undefined {
  if (isHarvestFieldKey(column)) return readers[column](tray);
  return Object.hasOwn(tray.factors, column) ? tray.factors[column] : undefined;
}

const folded = (text: string): string => text.trim().toLowerCase();

/**
 * Whether a tray is one of those a cost line is for. Text is compared without regard to case and outer blanks, numbers as numbers.
 * @param column absent: every tray is
 */
export function isWhere(tray: Tray, column: string | undefined, value: string | undefined): boolean {
  if (column === undefined) return true;
  const found = trayColumn(tray, column);
  const wanted = folded(value ?? "");
  if (found === undefined) return wanted === "";
  if (wanted !== "" && Number.isFinite(Number(wanted)) && Number.isFinite(Number(found))) {
    return Math.abs(Number(found) - Number(wanted)) <= 1e-9 * Math.max(1, Math.abs(Number(wanted)));
  }
  return folded(String(found)) === wanted;
}
