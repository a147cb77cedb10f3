import { expect, test } from "vitest";
import * as factors from "../../src/design/factor.ts";
import type { Tray } from "../../src/records/tray.ts";
import { trayRecord } from "../analyses/demo-records.ts";

// each column by its key, the fact that belongs to it, and the level a reader of the sheet would name

const columns: [string, Partial<Tray>, string][] = [
  ["inoculum_ml", { inoculumMillilitres: 7.5 }, "7.5"],
  ["supplement_grade", { supplementGrade: "fine" }, "fine"],
  ["supplement", { supplement: "bran" }, "bran"],
  ["supplement_g", { supplementGrams: 0 }, "0"],
  ["spawn_g", { spawnGrams: 60 }, "60"],
  ["spawn_pct", { spawnShare: 0.07 }, "7"],
  ["fruiting_c", { fruitingCelsius: 18 }, "18"],
  ["incubation_c", { incubationCelsius: 24.5 }, "24.5"],
  ["culture_age_days", { cultureAgeDays: 14 }, "14"],
  ["culture_generation", { cultureGeneration: 2 }, "2"],
  ["batch", { batch: "C1" }, "C1"],
  ["load", { load: "L1" }, "L1"],
  ["jar", { jar: "J1" }, "J1"],
  ["chamber", { chamber: "tent" }, "tent"],
  ["shelf", { shelf: "top" }, "top"],
  ["operator", { operator: "An" }, "An"],
  ["load_position", { loadPosition: "3" }, "3"],
  ["strain", { strain: "Pearl" }, "Pearl"],
  ["container", { container: "bag" }, "bag"],
  ["light_hours", { lightHours: 12 }, "12"],
  ["added_liquid_ml", { addedLiquidMillilitres: 5 }, "5"],
  ["substrate_wet_g", { substrateWetGrams: 900 }, "900"],
  ["grain_dry_g", { grainDryGrams: 300 }, "300"],
  ["inoculated_on", { inoculatedOn: "2026-03-04" }, "2026-03-04"],
  ["season", { inoculatedOn: "2026-03-04" }, "2026 Mar to May"],
  ["year", { inoculatedOn: "2026-03-04" }, "2026"],
  ["factor:lamp", { factors: { lamp: "on" } }, "on"],
];
const { freeFactor, companionFactors, ...named } = factors;
const all = [...Object.values(named), freeFactor("lamp"), freeFactor("constructor")];

test.each(columns)("%s reads its own fact of a tray, and nothing where that is not recorded", (key, facts, level) => {
  const factor = all.find((one) => one.key === key)!;
  const tray = trayRecord({ trayId: "T1", ...facts });
  expect(factor.level(tray)).toBe(level);
  if (factor.value !== undefined) expect(factor.value(tray)).toBe(Number(level));
  for (const other of all) {
    if (other.key === key || ["inoculated_on", "season", "year"].includes(key)) continue;
    expect([other.key, other.level(tray), other.value?.(tray)]).toEqual([other.key, undefined, undefined]);
  }
});

test("every factor has a row above, and amounts alone have a unit and a value", () => {
  expect(new Set(all.map(({ key }) => key))).toEqual(new Set([...columns.map(([key]) => key), "factor:constructor"]));
  const amounts = columns.filter(([, facts]) => typeof Object.values(facts)[0] === "number").map(([key]) => key);
  expect(all.filter(({ value }) => value !== undefined).map(({ key }) => key)).toEqual(amounts);
  for (const { unit, value } of all) if (value === undefined) expect(unit).toBe("");
});

// a quarter's first month here is a quarter's first month everywhere: what is spring in the north is autumn in the south
test.each([
  ["2025-11-30", "2025 Sep to Nov"],
  ["2025-12-01", "2026 Dec to Feb"],
  ["2026-01-15", "2026 Dec to Feb"],
  ["2026-02-28", "2026 Dec to Feb"],
  ["2026-03-01", "2026 Mar to May"],
  ["2026-05-31", "2026 Mar to May"],
  ["2026-06-01", "2026 Jun to Aug"],
  ["2026-08-31", "2026 Jun to Aug"],
  ["2026-09-01", "2026 Sep to Nov"],
  ["2026-10-10", "2026 Sep to Nov"],
])("%s lies in %s", (inoculatedOn, season) => {
  expect(factors.seasonFactor.level(trayRecord({ trayId: "T1", inoculatedOn }))).toBe(season);
});
