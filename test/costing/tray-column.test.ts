import { expect, test } from "vitest";
import { isWhere, trayColumn } from "../../src/costing/lines/tray-column.ts";
import { harvestFields } from "../../src/records/harvest-field.ts";
import type { Tray } from "../../src/records/tray.ts";
import { tray } from "./sample-records.ts";

// each canonical column with a fact of a tray and what a reader of the sheet finds under it, per cent as typed
const columns: [string, Partial<Tray>, string | number][] = [
  ["tray_id", { trayId: "T-9" }, "T-9"],
  ["batch", { batch: "C1" }, "C1"],
  ["load", { load: "L1" }, "L1"],
  ["load_position", { loadPosition: "3" }, "3"],
  ["jar", { jar: "J1" }, "J1"],
  ["culture_generation", { cultureGeneration: 2 }, 2],
  ["culture_age_days", { cultureAgeDays: 14 }, 14],
  ["strain", { strain: "Pearl" }, "Pearl"],
  ["shelf", { shelf: "top" }, "top"],
  ["chamber", { chamber: "tent" }, "tent"],
  ["operator", { operator: "An" }, "An"],
  ["container", { container: "bag" }, "bag"],
  ["substrate_wet_g", { substrateWetGrams: 900 }, 900],
  ["grain_dry_g", { grainDryGrams: 300 }, 300],
  ["supplement", { supplement: "bran" }, "bran"],
  ["supplement_grade", { supplementGrade: "fine" }, "fine"],
  ["supplement_g", { supplementGrams: 20 }, 20],
  ["inoculum_ml", { inoculumMillilitres: 7.5 }, 7.5],
  ["spawn_g", { spawnGrams: 60 }, 60],
  ["spawn_pct", { spawnShare: 0.25 }, 25],
  ["added_liquid_ml", { addedLiquidMillilitres: 5 }, 5],
  ["incubation_c", { incubationCelsius: 24.5 }, 24.5],
  ["fruiting_c", { fruitingCelsius: 18 }, 18],
  ["light_hours", { lightHours: 12 }, 12],
  ["inoculated_on", { inoculatedOn: "2026-03-04" }, "2026-03-04"],
  ["colonised_on", { colonisedOn: "2026-03-18" }, "2026-03-18"],
  ["days_to_colonise", { daysToColonise: 14 }, 14],
  ["fruiting_on", { fruitingOn: "2026-03-20" }, "2026-03-20"],
  ["harvested_on", { harvestedOn: "2026-04-15" }, "2026-04-15"],
  ["days_to_harvest", { daysToHarvest: 42 }, 42],
  ["dried_on", { driedOn: "2026-04-17" }, "2026-04-17"],
  ["flush", { flushes: [{ number: 1 }, { number: 2 }, { number: 3 }] }, 3],
  ["outcome", { outcome: "failed" }, "failed"],
  ["fresh_g", { freshGrams: 410 }, 410],
  ["dry_g", { dryGrams: 38 }, 38],
  ["final_moisture_pct", { finalMoisture: 0.125 }, 12.5],
  ["trays_in_pool", { traysInPool: 4 }, 4],
  ["note", { note: "odd smell" }, "odd smell"],
];

test.each(columns)("a cost line can be limited by %s", (column, facts, value) => {
  const one = tray(facts);
  expect(trayColumn(one, column)).toBe(value);
  expect(isWhere(one, column, ` ${String(value).toUpperCase()} `)).toBe(true);
  expect(isWhere(one, column, `${value}9`)).toBe(false);
  expect(isWhere(one, column, "")).toBe(false);
});

test("every column of a harvest sheet is above; one that is not filled is found by a blank only", () => {
  expect(columns.map(([column]) => column)).toEqual(harvestFields.map(({ key }) => key));
  const always = ["tray_id", "outcome", "trays_in_pool"];
  for (const [column, , value] of columns.filter(([key]) => !always.includes(key))) {
    expect([column, trayColumn(tray(), column)]).toEqual([column, undefined]);
    expect([column, isWhere(tray(), column, "")]).toEqual([column, true]);
    expect([column, isWhere(tray(), column, undefined)]).toEqual([column, true]);
    expect([column, isWhere(tray(), column, String(value))]).toEqual([column, false]);
  }
});

test("a free column is read by its own header; a line that is limited by none is for every tray", () => {
  const one = tray({ factors: { Rack: "B" } });
  expect(trayColumn(one, "Rack")).toBe("B");
  expect(trayColumn(one, "rack")).toBeUndefined();
  expect(trayColumn(one, "constructor")).toBeUndefined();
  expect(isWhere(one, undefined, undefined)).toBe(true);
  expect(isWhere(one, undefined, "B")).toBe(true);
});

test("numbers are compared as numbers, to one part in a thousand million; words and numbers never", () => {
  const rack = (typed: string, wanted: string) => isWhere(tray({ factors: { Rack: typed } }), "Rack", wanted);
  expect(rack("10", "10.0")).toBe(true);
  expect(rack("0", "-0")).toBe(true);
  expect(rack("0", "1e-10")).toBe(true);
  expect(rack("0", "1e-8")).toBe(false);
  expect(rack("1000", "1000.0000009")).toBe(true);
  expect(rack("1000", "1000.0000011")).toBe(false);
  expect(rack("-1000", "-1000.0000009")).toBe(true);
  expect(rack("10 a", "10")).toBe(false);
  expect(rack("ten", "10")).toBe(false);
  expect(rack("10", "ten")).toBe(false);
  expect(rack("0", "")).toBe(false);
  expect(rack("Infinity", "infinity")).toBe(true);
});
