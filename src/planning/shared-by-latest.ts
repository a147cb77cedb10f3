import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Tray } from "../records/tray.ts";

/** What a trial keeps the same from tray to tray, where to read it, and how it is typed. */
const keptSame: ReadonlyArray<readonly [HarvestFieldKey, (tray: Tray) => string | number | undefined]> = [
  ["strain", (tray) => tray.strain],
  ["container", (tray) => tray.container],
  ["substrate_wet_g", (tray) => tray.substrateWetGrams],
  ["grain_dry_g", (tray) => tray.grainDryGrams],
  ["supplement", (tray) => tray.supplement],
  ["supplement_grade", (tray) => tray.supplementGrade],
  ["supplement_g", (tray) => tray.supplementGrams],
  ["inoculum_ml", (tray) => tray.inoculumMillilitres],
  ["added_liquid_ml", (tray) => tray.addedLiquidMillilitres],
  ["spawn_g", (tray) => tray.spawnGrams],
  ["light_hours", (tray) => tray.lightHours],
  ["incubation_c", (tray) => tray.incubationCelsius],
  ["fruiting_c", (tray) => tray.fruitingCelsius],
];

/** What all trays of the latest cook had alike, as cells of a sheet: what the next trial keeps unless said otherwise. */
export function sharedByLatest(trays: ReadonlyArray<Tray>): Record<string, string> {
  const last = trays.reduce<Tray | undefined>(
    (latest, tray) =>
      latest === undefined || (tray.inoculatedOn ?? "") >= (latest.inoculatedOn ?? "") ? tray : latest,
    undefined,
  );
  if (last === undefined) return {};
  const cook = trays.filter((tray) =>
    last.batch === undefined ? tray.inoculatedOn === last.inoculatedOn : tray.batch === last.batch,
  );
  const shared: Record<string, string> = {};
  for (const [key, read] of keptSame) {
    const value = read(last);
    if (value !== undefined && cook.every((tray) => read(tray) === value)) shared[key] = String(value);
  }
  return shared;
}
