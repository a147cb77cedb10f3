import { expect, test } from "vitest";
import { variedLevels } from "../../src/design/varied-levels.ts";
import { trayRecord } from "../analyses/demo-records.ts";
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
  [
    "strains with numbers, one of them not written down",
    "Tray,LC ml,Strain,Fresh g\nT1,10,P10,205\nT2,10,P9,198\nT3,10,P10,9\nT4,10,P9,201\nT5,10,,200\nT6,10,P9,203\n",
    "strain",
    "",
    ["P9", "P10"],
    [1, 0, 1, 0, undefined, 0],
  ],
  ["nothing that varied", "Tray,LC ml,Fresh g\nT1,10,205\nT2,10,198\nT3,,201\n", "dose", "mL", [10], [0, 0, undefined]],
])("trays are told apart by %s", async (_, text, what, unit, levels, places) => {
  const found = await levelsOf(text);
  expect({ what: found.what, unit: found.unit, levels: found.levels }).toEqual({ what, unit, levels });
  const byName = typeof levels[0] === "string";
  expect(found.trays).toEqual(places.map((place) => (place === undefined || byName ? place : levels[place])));
});

test("names are told apart by their places; more than twelve levels, or the seasons, by nothing", () => {
  const told = (count: number, of: (place: number) => Parameters<typeof trayRecord>[0]) =>
    variedLevels(Array.from({ length: count }, (_, place) => of(place)).map(trayRecord), "");
  const strains = told(6, (place) => ({ trayId: `T${place}`, strain: `s${place % 3}` }));
  expect(strains).toMatchObject({ what: "strain", values: [0, 1, 2], names: ["s0", "s1", "s2"] });
  const spawn = (levels: number) =>
    told(2 * levels, (place) => ({ trayId: `T${place}`, spawnGrams: 50 + 10 * (place % levels) }));
  expect(spawn(12)).toMatchObject({ what: "spawn", unit: "g" });
  expect(spawn(12).values).toHaveLength(12);
  expect(spawn(13)).toMatchObject({ what: "dose", values: [] });
  const year = told(8, (place) => ({ trayId: `T${place}`, inoculatedOn: place < 4 ? "2026-01-10" : "2026-07-10" }));
  expect(year).toMatchObject({ what: "dose", values: [] });
});
