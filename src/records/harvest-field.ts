/** What a column of a harvest sheet holds. Each kind has one canonical unit. */
export type FieldKind =
  | "text"
  | "mass"
  | "volume"
  | "temperature"
  | "days"
  | "hours"
  | "date"
  | "count"
  | "percent"
  | "outcome";

/** One canonical column of a harvest sheet. */
export interface HarvestField {
  /** the canonical header, with its unit */
  key: HarvestFieldKey;
  kind: FieldKind;
  /** the unit of the stored number: g, mL, °C, days, hours, %, or "" */
  unit: string;
  /** how people call it, for messages and table heads */
  label: string;
  /** what it means, for the sheet reference */
  meaning: string;
}

const define = <K extends string>(fields: ReadonlyArray<readonly [K, FieldKind, string, string, string]>) => fields;

const definitions = define([
  ["tray_id", "text", "", "Tray", "the tray's own name or number, unique in the book"],
  ["batch", "text", "", "Cook", "which cook of substrate the tray was filled from"],
  ["load", "text", "", "Cooker load", "which steriliser run the tray went through"],
  ["load_position", "text", "", "Place in load", "where the tray stood in that run"],
  ["jar", "text", "", "Culture jar", "which jar of liquid culture it was inoculated from"],
  ["culture_generation", "count", "", "Culture generation", "transfers since the culture was bought or isolated"],
  ["culture_age_days", "days", "days", "Culture age", "days from starting the jar to inoculating from it"],
  ["strain", "text", "", "Strain", "species or strain"],
  ["shelf", "text", "", "Shelf", "where it fruited"],
  ["chamber", "text", "", "Chamber", "the room or tent whose temperature is set as one"],
  ["operator", "text", "", "Operator", "who inoculated it"],
  ["container", "text", "", "Container", "tray, bag or jar type"],
  ["substrate_wet_g", "mass", "g", "Wet substrate", "substrate at filling, wet, per tray"],
  ["grain_dry_g", "mass", "g", "Grain", "grain per tray, weighed air-dry before cooking"],
  ["supplement", "text", "", "Supplement", "what was added to the grain"],
  ["supplement_grade", "text", "", "Supplement grade", "which grade or brand class of it"],
  ["supplement_g", "mass", "g", "Supplement amount", "supplement per tray"],
  ["inoculum_ml", "volume", "mL", "Inoculum", "liquid culture injected per tray"],
  ["spawn_g", "mass", "g", "Spawn", "grain spawn mixed in per tray, by weight"],
  [
    "spawn_pct",
    "percent",
    "%",
    "Spawn rate",
    "grain spawn as a share of the wet substrate, unless the sheet says of what else",
  ],
  ["added_liquid_ml", "volume", "mL", "Added liquid", "water added so that every dose has the same moisture"],
  ["incubation_c", "temperature", "°C", "Incubation temperature", "while colonising"],
  ["fruiting_c", "temperature", "°C", "Fruiting temperature", "while fruiting"],
  ["light_hours", "hours", "hours", "Light", "hours of light a day while fruiting"],
  ["inoculated_on", "date", "", "Inoculated", "date"],
  ["colonised_on", "date", "", "Colonised", "first date seen fully colonised"],
  ["days_to_colonise", "days", "days", "Days to colonise", "typed directly when there are no dates"],
  ["fruiting_on", "date", "", "Fruiting", "date moved to fruiting"],
  ["harvested_on", "date", "", "Harvested", "date"],
  ["days_to_harvest", "days", "days", "Days to harvest", "from inoculation, typed directly when there are no dates"],
  ["dried_on", "date", "", "Dried", "date"],
  ["flush", "count", "", "Flush", "1 for the first; one row per flush adds up to the tray"],
  ["outcome", "outcome", "", "Outcome", "good, contaminated, failed, discarded or growing"],
  ["fresh_g", "mass", "g", "Fresh weight", "harvested, fresh"],
  ["dry_g", "mass", "g", "Dry weight", "after drying"],
  ["final_moisture_pct", "percent", "%", "Moisture after drying", "of the dried product, wet basis"],
  ["trays_in_pool", "count", "", "Trays weighed together", "when one weight stands for several trays"],
  ["note", "text", "", "Note", "anything else"],
]);

/** The canonical header of a harvest column. */
export type HarvestFieldKey = (typeof definitions)[number][0];

/** Every canonical harvest column in the order a blank sheet shows them. */
export const harvestFields: ReadonlyArray<HarvestField> = definitions.map(([key, kind, unit, label, meaning]) => ({
  key,
  kind,
  unit,
  label,
  meaning,
}));

const byKey = new Map<string, HarvestField>(harvestFields.map((field) => [field.key, field]));

/**
 * The canonical column of a given key.
 * @throws RangeError if there is no such column
 * @example harvestField("fresh_g").unit // "g"
 */
export function harvestField(key: string): HarvestField {
  const field = byKey.get(key);
  if (field === undefined) throw new RangeError(`harvestField: there is no harvest column ${JSON.stringify(key)}`);
  return field;
}

/** Whether a column holds what was picked of a tray, as picked or dried. */
export const isWeightField = (key: string): key is "fresh_g" | "dry_g" => key === "fresh_g" || key === "dry_g";

/** Whether the text is the key of a canonical harvest column. */
export function isHarvestFieldKey(key: string): key is HarvestFieldKey {
  return byKey.has(key);
}
