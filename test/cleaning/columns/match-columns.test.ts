import { describe, expect, test } from "vitest";
import { looksLikeHarvestHeader } from "../../../src/cleaning/columns/looks-like-header.ts";
import { meaningsOfHeader } from "../../../src/cleaning/columns/match-columns.ts";
import { harvestFields } from "../../../src/records/harvest-field.ts";
import { closestAmong, editsBetween } from "../../../src/records/words/closest-word.ts";

const cases: [header: string, fields: string, unit?: string][] = [
  ["Block", "tray_id"],
  ["Tray #", "tray_id"],
  ["Tray No.", "tray_id"],
  ["Cook", "batch"],
  ["Batch ID", "batch"],
  ["Load no.", "load"],
  ["Place in load", "load_position"],
  ["LC jar", "jar"],
  ["Generation", "culture_generation"],
  ["Culture age (days)", "culture_age_days", "days"],
  ["Species", "strain"],
  ["Rack", "shelf"],
  ["Tent", "chamber"],
  ["Inoculated by", "operator"],
  ["Injected by", "operator"],
  ["Done by", "operator"],
  ["Bag type", "container"],
  ["Wet substrate", "substrate_wet_g"],
  ["Sorghum (air dry)", "grain_dry_g"],
  ["Rye (g)", "grain_dry_g", "g"],
  ["Soy hulls", "supplement supplement_g"],
  ["Supp. grade", "supplement_grade"],
  ["Supplement (g)", "supplement_g", "g"],
  ["Inoculum", "inoculum_ml"],
  ["Spawn (ml)", "inoculum_ml", "mL"],
  ["Inoculum (g)", "spawn_g", "g"],
  ["LC (mL per kg)", ""],
  ["Fresh g/kg substrate", ""],
  ["Flüssigkultur ml je Liter", ""],
  ["Actual LC ml", "inoculum_ml", "mL"],
  ["Planned LC ml", ""],
  ["Ilość grzybni (ml)", "inoculum_ml", "mL"],
  ["Entstof (ml)", "inoculum_ml", "mL"],
  ["Kiste Nr.", "tray_id"],
  ["Cassetta", "tray_id"],
  ["Number of mushrooms", ""],
  ["Mushrooms", ""],
  ["Mushrooms (g)", "fresh_g", "g"],
  ["Dried mushrooms g", "dry_g", "g"],
  ["Pilze (g)", "fresh_g", "g"],
  ["LC mL", "inoculum_ml", "mL"],
  ["Inoc (cc)", "inoculum_ml", "mL"],
  ["Dose (ml)", "inoculum_ml", "mL"],
  ["Water added (mL)", "added_liquid_ml", "mL"],
  ["Spawn run temp", "incubation_c"],
  ["fruiting temp °F", "fruiting_c", "°F"],
  ["Temp", "fruiting_c"],
  ["Light h", "light_hours", "hours"],
  ["Inoculation date", "inoculated_on"],
  ["Date inoculated", "inoculated_on"],
  ["Fully colonized", "colonised_on days_to_colonise"],
  ["Days to colonize", "days_to_colonise"],
  ["To fruiting", "fruiting_on"],
  ["Picked", "harvested_on fresh_g flush"],
  ["Harvest date", "harvested_on"],
  ["Days to harvest", "days_to_harvest"],
  ["Dried on", "dried_on dry_g"],
  ["Flush #", "flush"],
  ["How it went", "outcome"],
  ["Contaminated?", "outcome"],
  ["Fresh wt (oz)", "fresh_g", "oz"],
  ["Fresh weight per tray [g]", "fresh_g", "g"],
  ["Wet yield g", "fresh_g", "g"],
  ["DRY WT", "dry_g"],
  ["Dry weight in grams", "dry_g", "g"],
  ["dry_g", "dry_g", "g"],
  ["Moisture %", "final_moisture_pct", "%"],
  ["Trays weighed together", "trays_in_pool"],
  ["Remarks", "note"],
  ["Flush 1 (g)", "fresh_g", "g"],
  ["2nd flush dry wt", "dry_g"],
  // misspelt
  ["Fersh weigth", "fresh_g"],
  ["Innoculum", "inoculum_ml"],
  ["Substarte weight", "substrate_wet_g"],
  ["Outcom", "outcome"],
  ["Supplment grade", "supplement_grade"],
  // not ours, near a word of ours or not
  ["Height cm", ""],
  ["Colour", ""],
  ["Shell", ""],
  ["Rep", ""],
  ["Humidity", ""],
  ["Spore load", ""],
  ["Flesh weight", ""],
  ["Fresh weight (mL)", ""],
  ["", ""],
];

describe("headers by meaning", () => {
  test.each(cases)("%j: %s", (header, fields, unit = "") => {
    const found = meaningsOfHeader(header);
    const wanted = fields.split(" ").filter((field) => field !== "");
    expect(found.map(({ field }) => field).sort()).toEqual(wanted.sort());
    if (unit !== "") expect(found[0]?.unit).toBe(unit);
  });

  test("every canonical header is itself", () => {
    for (const { key, unit } of harvestFields) {
      expect(meaningsOfHeader(key)).toEqual([{ field: key, because: "canonical name", rank: 3, unit }]);
    }
  });

  test("every label of the reference is understood", () => {
    for (const { key, label } of harvestFields) {
      expect(
        meaningsOfHeader(label).map(({ field }) => field),
        label,
      ).toContain(key);
    }
  });

  test("the order of words, case and punctuation do not matter", () => {
    for (const header of ["weight fresh", "FRESH-WEIGHT", "fresh_weight", " Fresh  Wt. "]) {
      expect(meaningsOfHeader(header).map(({ field }) => field)).toEqual(["fresh_g"]);
    }
  });

  test("a misspelling halfway between two words is neither", () => {
    expect(closestAmong(["fresh", "flush"], (word) => word)("flesh")).toBeUndefined();
    expect(closestAmong(["weight", "height"], (word) => word)("wieght")).toBe("weight");
    expect(editsBetween("wieght", "weight", 2)).toBe(1);
    expect(editsBetween("tray", "substrate", 2)).toBe(3);
  });

  test("a header row is recognised among data", () => {
    expect(looksLikeHarvestHeader(["Tray", "Dose (mL)", "Fresh wt", "Whatever"])).toBe(0.75);
    expect(looksLikeHarvestHeader(["T1", "10", "310", ""])).toBe(0);
    expect(looksLikeHarvestHeader([])).toBe(0);
  });
});
