import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Bounds, Flush, Outcome, Tray } from "../../records/tray.ts";

/** A tray as one or more rows have it so far: its outcome may still be open, and a flush without a number is 0. */
export interface TrayDraft extends Omit<Tray, "outcome"> {
  outcome: Outcome | undefined;
}

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

/** Shared by every tray with nothing to hold, so that a million clean trays stay small. */
export const noFlags: string[] = Object.freeze([]) as unknown as string[];
export const noFactors: Record<string, string> = Object.freeze({});
export const noBounds: Partial<Record<string, Bounds>> = Object.freeze({});
export const noFlushes: Flush[] = Object.freeze([]) as unknown as Flush[];
