import { expect, test } from "vitest";
import type { Tray } from "../../../src/records/tray.ts";
import { harvestOf, trayOf } from "../book-of.ts";

// a column of each field with one plain cell: what its record says is that cell in the field's own unit (docs/columns.md)
test.each<[string, string, Partial<Tray>]>([
  ["batch", "B7", { batch: "B7" }],
  ["load", "L2", { load: "L2" }],
  ["load_position", "top", { loadPosition: "top" }],
  ["jar", "J3", { jar: "J3" }],
  ["culture_generation", "2", { cultureGeneration: 2 }],
  ["culture_age_days", "21", { cultureAgeDays: 21 }],
  ["strain", "pearl", { strain: "pearl" }],
  ["shelf", "S1", { shelf: "S1" }],
  ["chamber", "tent", { chamber: "tent" }],
  ["operator", "An", { operator: "An" }],
  ["container", "tub", { container: "tub" }],
  ["substrate_wet_g", "900", { substrateWetGrams: 900 }],
  ["grain_dry_g", "300", { grainDryGrams: 300 }],
  ["supplement", "bran", { supplement: "bran" }],
  ["supplement_grade", "fine", { supplementGrade: "fine" }],
  ["supplement_g", "20", { supplementGrams: 20 }],
  ["spawn_g", "60", { spawnGrams: 60 }],
  ["spawn_pct", "5", { spawnShare: 0.05 }],
  ["added_liquid_ml", "8", { addedLiquidMillilitres: 8 }],
  ["incubation_c", "24", { incubationCelsius: 24 }],
  ["fruiting_c", "18", { fruitingCelsius: 18 }],
  ["light_hours", "12", { lightHours: 12 }],
  ["inoculated_on", "2026-01-05", { inoculatedOn: "2026-01-05" }],
  ["colonised_on", "2026-01-17", { colonisedOn: "2026-01-17" }],
  ["days_to_colonise", "12", { daysToColonise: 12 }],
  ["fruiting_on", "2026-01-20", { fruitingOn: "2026-01-20" }],
  ["harvested_on", "2026-02-10", { harvestedOn: "2026-02-10" }],
  ["days_to_harvest", "36", { daysToHarvest: 36 }],
  ["dried_on", "2026-02-12", { driedOn: "2026-02-12" }],
  ["dry_g", "21", { dryGrams: 21 }],
  ["final_moisture_pct", "9", { finalMoisture: 0.09 }],
  ["trays_in_pool", "3", { traysInPool: 3 }],
  ["note", "left of the door", { note: "left of the door" }],
])("%s: %s", async (field, cell, expected) => {
  const book = await harvestOf(`tray_id,inoculum_ml,fresh_g,outcome,${field}\nA,10,200,good,${cell}\nB,15,210,good,\n`);
  expect(trayOf(book, "A")).toMatchObject({ inoculumMillilitres: 10, freshGrams: 200, outcome: "good", ...expected });
  const [property] = Object.keys(expected) as [keyof Tray];
  if (property !== "traysInPool") expect(trayOf(book, "B")[property]).toBeUndefined();
});
