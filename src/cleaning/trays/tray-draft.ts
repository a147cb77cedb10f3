import type { Bounds, Flush, Outcome, Tray } from "../../records/tray.ts";
import type { PlainField } from "../../records/tray-property.ts";

/** A tray as one or more rows have it so far: its outcome may still be open, and a flush without a number is 0. */
export interface TrayDraft extends Omit<Tray, "outcome" | "flushes"> {
  outcome: Outcome | undefined;
  flushes: Flush[];
}

/** A set of free columns to fill. It inherits nothing, so that a column headed "__proto__" is a column like any other. */
export const newFactors = (): Record<string, string> => Object.create(null) as Record<string, string>;

/** Shared by every tray with nothing to hold, so that a million clean trays stay small. */
export const noFlags: string[] = Object.freeze([]) as unknown as string[];
export const noFactors: Record<string, string> = Object.freeze(newFactors());
export const noBounds: Partial<Record<string, Bounds>> = Object.freeze({});
export const noFlushes: Flush[] = Object.freeze([]) as unknown as Flush[];

/** Sets one property of a draft. A setter for each, so that every one of them always writes to the same place. */
export type SetProperty = (draft: TrayDraft, value: number | string) => void;

/** The setters of the fields that are one property of a tray. */
export const setProperty: Readonly<Record<PlainField, SetProperty>> = {
  batch: (draft, value) => {
    draft.batch = value as string;
  },
  load: (draft, value) => {
    draft.load = value as string;
  },
  load_position: (draft, value) => {
    draft.loadPosition = value as string;
  },
  jar: (draft, value) => {
    draft.jar = value as string;
  },
  culture_generation: (draft, value) => {
    draft.cultureGeneration = value as number;
  },
  culture_age_days: (draft, value) => {
    draft.cultureAgeDays = value as number;
  },
  strain: (draft, value) => {
    draft.strain = value as string;
  },
  shelf: (draft, value) => {
    draft.shelf = value as string;
  },
  chamber: (draft, value) => {
    draft.chamber = value as string;
  },
  operator: (draft, value) => {
    draft.operator = value as string;
  },
  container: (draft, value) => {
    draft.container = value as string;
  },
  substrate_wet_g: (draft, value) => {
    draft.substrateWetGrams = value as number;
  },
  grain_dry_g: (draft, value) => {
    draft.grainDryGrams = value as number;
  },
  supplement: (draft, value) => {
    draft.supplement = value as string;
  },
  supplement_grade: (draft, value) => {
    draft.supplementGrade = value as string;
  },
  supplement_g: (draft, value) => {
    draft.supplementGrams = value as number;
  },
  inoculum_ml: (draft, value) => {
    draft.inoculumMillilitres = value as number;
  },
  spawn_g: (draft, value) => {
    draft.spawnGrams = value as number;
  },
  spawn_pct: (draft, value) => {
    draft.spawnShare = value as number;
  },
  added_liquid_ml: (draft, value) => {
    draft.addedLiquidMillilitres = value as number;
  },
  incubation_c: (draft, value) => {
    draft.incubationCelsius = value as number;
  },
  fruiting_c: (draft, value) => {
    draft.fruitingCelsius = value as number;
  },
  light_hours: (draft, value) => {
    draft.lightHours = value as number;
  },
  inoculated_on: (draft, value) => {
    draft.inoculatedOn = value as string;
  },
  colonised_on: (draft, value) => {
    draft.colonisedOn = value as string;
  },
  days_to_colonise: (draft, value) => {
    draft.daysToColonise = value as number;
  },
  fruiting_on: (draft, value) => {
    draft.fruitingOn = value as string;
  },
  days_to_harvest: (draft, value) => {
    draft.daysToHarvest = value as number;
  },
  dried_on: (draft, value) => {
    draft.driedOn = value as string;
  },
  final_moisture_pct: (draft, value) => {
    draft.finalMoisture = value as number;
  },
};

/** Several remarks about one tray as one, each once, in alphabetical order; remarks that are all the same stay as they are. */
export function joinNotes(notes: ReadonlyArray<string>): string {
  const different = new Set(notes);
  if (different.size === 1) return notes[0]!;
  return [...new Set([...different].flatMap((note) => note.split(" | ")))].sort().join(" | ");
}
