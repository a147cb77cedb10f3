import { expect, test } from "vitest";
import { freeName, isMarkedFree, markedFree } from "../../../src/cleaning/columns/free-mark.ts";
import { harvestWords } from "../../../src/cleaning/columns/harvest-words.ts";
import { looksLikeHarvestHeader } from "../../../src/cleaning/columns/looks-like-header.ts";

// what the reader of shapes is told of words; common practice, no source

test.each([
  ["Tray", "tray"],
  [" Tray ", "tray"],
  ["#", "tray"],
  ["Trays", "tray"],
  ["n", undefined],
  ["Flush", "flush"],
  ["Note", "note"],
  ["Fresh wt", "result"],
  ["Dry", "result"],
  ["Outcome", "result"],
  ["Moisture", "result"],
  ["Harvest date", "result"],
  ["Days to harvest", "result"],
  ["Days to colonise", "result"],
  ["Colonised", "result"],
  ["Trays weighed together", "result"],
  ["Dose mL", "set"],
  ["Strain", "set"],
  ["Inoculation date", "set"],
  ["Contaminated on", "result"],
  ["trich", undefined],
  ["Height", undefined],
  ["", undefined],
  ["12", undefined],
  ["2.", undefined],
  ["Fresh wt of the whole of what was picked from the tray on the day", undefined],
])("%j heads a column of sort %s", (name, sort) => {
  expect(harvestWords().columnSort(name)).toBe(sort);
});

test("a misspelt header is understood, unless it is asked for as written", () => {
  expect([harvestWords().columnSort("Fersh weigth"), harvestWords().columnSort("Fersh weigth", true)]).toEqual([
    "result",
    undefined,
  ]);
});

test.each([
  ["LC mL", "inoculated_on"],
  ["Spawn (g)", "inoculated_on"],
  ["Spawn (%)", "inoculated_on"],
  ["Fresh wt", "harvested_on"],
  ["Dry wt", "dried_on"],
  [" Dry wt ", "dried_on"],
  ["To fruiting", "fruiting_on"],
  ["Strain", undefined],
  ["Dried", undefined],
  ["Height", undefined],
])("the day of %j is %s", (name, field) => {
  expect(harvestWords().dateOf(name)).toBe(field);
});

test.each([
  ["Fresh wt (oz)", { name: "Fresh wt", unit: "oz" }],
  ["Fresh g", { name: "Fresh", unit: "g" }],
  ["g", { name: "", unit: "g" }],
  [" grams ", { name: "", unit: "g" }],
  ["ml", undefined],
  ["LC (ml)", undefined],
  ["Fresh", undefined],
])("the weight in %j is %j", (name, unit) => {
  expect(harvestWords().massUnit(name)).toEqual(unit);
});

test("a unit alone is one, and one of volume names a dose", () => {
  expect(
    ["g", " oz ", "ml", "°C", "F", "days", "%", "cm", "tray", ""].filter((text) => harvestWords().isUnit(text)),
  ).toEqual(["g", " oz ", "ml", "°C", "F"]);
  expect(["ml", " cc ", "L", "g", "dose", ""].map((text) => harvestWords().doseName(text))).toEqual([
    "Dose (mL)",
    "Dose (mL)",
    "Dose (L)",
    undefined,
    undefined,
    undefined,
  ]);
});

test("a cleaned sheet has canonical names, free columns, and the two that every cleaned sheet has", () => {
  expect(harvestWords().isTidy(["tray_id", "outcome", "fresh_g", "Shelf colour", "Strain (free column)"])).toBe(true);
  expect(harvestWords().isTidy(["tray_id", "outcome", "Fresh wt"])).toBe(false);
  expect(harvestWords().isTidy(["tray_id", "fresh_g"])).toBe(false);
  expect(harvestWords().isTidy(["outcome", "fresh_g"])).toBe(false);
});

test("a free column keeps its name, whatever the case of its mark", () => {
  expect(markedFree("Strain")).toBe("Strain (free column)");
  expect(["Strain (free column)", "Strain (FREE column)", "Strain", "free column"].map(isMarkedFree)).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(["Strain (free column)", "Strain (FREE column)", "Strain"].map(freeName)).toEqual([
    "Strain",
    "Strain",
    "Strain",
  ]);
});

test.each<[ReadonlyArray<string>, number]>([
  [["Tray", "Dose (mL)", "Fresh wt", "Whatever"], 0.75],
  [["Tray", " ", "", "Whatever"], 0.5],
  [[" Tray ", "#"], 1],
  [["tray_id", "outcome", "x", "y", "z"], 1],
  [["tray_id", "x", "y", "z"], 0.25],
  [["T1", "10", "310", ""], 0],
  [["", " "], 0],
  [[`Fresh wt ${"of the tray ".repeat(5)}`], 0],
])("%j reads as a header to %d", (cells, share) => {
  expect(looksLikeHarvestHeader(cells)).toBe(share);
});

test("a row of data is not asked of word by word where it holds no letter", () => {
  expect(looksLikeHarvestHeader(["12", "3.5", "#"], () => true)).toBeCloseTo(1 / 3);
});

test("a row reads as a header by the words of a book, and as data by loss words", () => {
  expect(harvestWords().looksLikeHeader(["Tray", "Fresh wt"])).toBe(1);
  expect(harvestWords().looksLikeHeader(["T1", "trich"])).toBe(0);
});
