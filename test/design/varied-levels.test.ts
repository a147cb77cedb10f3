import { expect, test } from "vitest";
import { variedLevels } from "../../src/design/varied-levels.ts";
import { harvestOf } from "../cleaning/book-of.ts";

/** What a sheet's trays are told apart by, and the level of each. */
async function levelsOf(text: string) {
  const { trays } = await harvestOf(text);
  const { what, unit, values, names, levelOf } = variedLevels(trays, "");
  return { what, unit, levels: names ?? values, trays: trays.map((tray) => levelOf(tray)) };
}

// what a reader of the sheet would call the groups; common practice, no source
test.each([
  ["doses", "Tray,LC ml,Fresh g\nT1,15,205\nT2,10,198\nT3,10,201\n", "dose", "mL", [10, 15], [1, 0, 0]],
  ["grams of spawn", "Tray,Spawn g,Fresh g\nT1,100,205\nT2,150,198\nT3,100,201\n", "spawn", "g", [100, 150], [0, 1, 0]],
  ["per cent of spawn", "Tray,Spawn %,Fresh g\nT1,5,205\nT2,10,198\nT3,5,201\n", "spawn rate", "%", [5, 10], [0, 1, 0]],
  [
    "strains at one dose",
    "Tray,LC ml,Strain,Fresh g\nT1,10,Pearl,205\nT2,10,Blue,198\nT3,10,Pearl,9\nT4,10,Blue,201\n",
    "strain",
    "",
    ["Blue", "Pearl"],
    [1, 0, 1, 0],
  ],
  [
    "doses beside strains",
    "Tray,LC ml,Strain,Fresh g\nT1,10,Pearl,205\nT2,15,Blue,198\nT3,10,,201\n",
    "dose",
    "mL",
    [10, 15],
    [0, 1, 0],
  ],
  ["nothing that varied", "Tray,LC ml,Fresh g\nT1,10,205\nT2,10,198\nT3,,201\n", "dose", "mL", [10], [0, 0, undefined]],
])("trays are told apart by %s", async (_, text, what, unit, levels, places) => {
  const found = await levelsOf(text);
  expect({ what: found.what, unit: found.unit, levels: found.levels }).toEqual({ what, unit, levels });
  const byName = typeof levels[0] === "string";
  expect(found.trays).toEqual(places.map((place) => (place === undefined || byName ? place : levels[place])));
});
