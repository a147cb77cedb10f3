import type { HarvestFieldKey } from "./harvest-field.ts";
import type { Flush, Tray } from "./tray.ts";

/** Where a field's value is kept in a tray; the outcome, flush fields and the tray's own name have places of their own. */
export const trayProperty = {
  batch: "batch",
  load: "load",
  load_position: "loadPosition",
  jar: "jar",
  culture_generation: "cultureGeneration",
  culture_age_days: "cultureAgeDays",
  strain: "strain",
  shelf: "shelf",
  chamber: "chamber",
  operator: "operator",
  container: "container",
  substrate_wet_g: "substrateWetGrams",
  grain_dry_g: "grainDryGrams",
  supplement: "supplement",
  supplement_grade: "supplementGrade",
  supplement_g: "supplementGrams",
  inoculum_ml: "inoculumMillilitres",
  spawn_g: "spawnGrams",
  spawn_pct: "spawnShare",
  added_liquid_ml: "addedLiquidMillilitres",
  incubation_c: "incubationCelsius",
  fruiting_c: "fruitingCelsius",
  light_hours: "lightHours",
  inoculated_on: "inoculatedOn",
  colonised_on: "colonisedOn",
  days_to_colonise: "daysToColonise",
  fruiting_on: "fruitingOn",
  days_to_harvest: "daysToHarvest",
  dried_on: "driedOn",
  final_moisture_pct: "finalMoisture",
} as const satisfies Partial<Record<HarvestFieldKey, keyof Tray>>;

/** A field that is one property of a tray. */
export type PlainField = keyof typeof trayProperty;

/** The fields that are one property of a tray, in canonical order. */
export const plainFields = Object.keys(trayProperty) as PlainField[];

/** Fields that belong to one picking rather than to the tray. */
export const flushProperty = {
  fresh_g: "freshGrams",
  dry_g: "dryGrams",
  harvested_on: "harvestedOn",
} as const satisfies Partial<Record<HarvestFieldKey, keyof Flush>>;

export type FlushField = keyof typeof flushProperty;

export const flushFields = Object.keys(flushProperty) as FlushField[];

/** Where the value of every field is kept in a tray; how many flushes it had is what its pickings tell. */
export const fieldProperty = {
  tray_id: "trayId",
  ...trayProperty,
  ...flushProperty,
  outcome: "outcome",
  trays_in_pool: "traysInPool",
  note: "note",
} as const satisfies Record<Exclude<HarvestFieldKey, "flush">, keyof Tray>;

/** The weights of a tray or a flush: property, field, what it is called. */
export const weights = [
  ["freshGrams", "fresh_g", "fresh"],
  ["dryGrams", "dry_g", "dry"],
] as const;
