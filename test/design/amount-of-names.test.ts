import { expect, test } from "vitest";
import { asAmount } from "../../src/design/amount-of-names.ts";
import { freeFactor } from "../../src/design/factor.ts";
import { variedThings } from "../../src/design/varied-things.ts";
import { trayRecord } from "../analyses/demo-records.ts";

const trays = (header: string, cells: string[]) =>
  cells.map((cell, at) => trayRecord({ trayId: `T${at}`, factors: cell === "" ? {} : { [header]: cell } }));
const read = (header: string, ...cells: string[]) => {
  const all = trays(header, cells);
  const { label, unit, value } = asAmount(freeFactor(header), all);
  return value === undefined ? "names" : { label, unit, values: all.map((tray) => value(tray)) };
};

// what a careful person reads in a column of one's own: common practice, no source
test.each([
  [
    "a word for none beside per cent, with and without a blank",
    "Bran",
    ["none", "5 %", "10%"],
    ["Bran", "%", 0, 5, 10],
  ],
  ["the unit in the header", "Bran (%)", ["0", "5", "10%"], ["Bran", "%", 0, 5, 10]],
  ["a bare sign at the header's end", "Zusatz %", ["keine", "2,5", "5"], ["Zusatz", "%", 0, 2.5, 5]],
  ["a rate", "Air changes / h", ["2", "4"], ["Air changes / h", "", 2, 4]],
  ["a rate in words", "Luftwechsel pro h", ["2", "4"], ["Luftwechsel pro h", "", 2, 4]],
  ["so much for each kilogram", "Bran", ["none", "10 g/kg", "20 g / kg"], ["Bran", "g/kg", 0, 10, 20]],
  ["the same in words", "Bran", ["10 g per kg", "20g per kg"], ["Bran", "g/kg", 10, 20]],
  ["the same in the header", "Bran (g/kg)", ["10", "20"], ["Bran", "g/kg", 10, 20]],
  ["times a day", "Fanning", ["1x a day", "2x a day", "4 times a day"], ["Fanning", "x/day", 1, 2, 4]],
  ["changes an hour", "Air", ["2/h", "4 /h"], ["Air", "x/h", 2, 4]],
  ["plain numbers", "Fan setting", ["1", "2", "3"], ["Fan setting", "", 1, 2, 3]],
  ["grams with a nought without them", "Gypsum", ["0", "5 g", "10g"], ["Gypsum", "g", 0, 5, 10]],
  ["a blank cell", "Lime g", ["", "5", "10"], ["Lime", "g", undefined, 5, 10]],
  ["decimals with a point or a comma", "Lime kg", ["0.75", "1,25", "2.125"], ["Lime", "kg", 0.75, 1.25, 2.125]],
  ["signs", "Shift", ["-1", "+2"], ["Shift", "", -1, 2]],
  ["units in small and large letters", "Water", ["5 mL", "10ml"], ["Water", "mL", 5, 10]],
  ["a unit in capitals", "Bran", ["5 KG", "10 KG"], ["Bran", "kg", 5, 10]],
  ["litres by their one letter", "Water", ["1 L", "2 L"], ["Water", "L", 1, 2]],
  ["blanks around the header's unit", "Bran ( kg )", ["1", "2"], ["Bran", "kg", 1, 2]],
  ["words of the header that are no unit", "Fan (speed)", ["1", "2"], ["Fan (speed)", "", 1, 2]],
  ["a unit that is not the header's end", "Bran (g) or lime", ["1", "2"], ["Bran (g) or lime", "", 1, 2]],
  ["a letter in brackets, with blanks or without", "Table ( C )", ["1", "2"], ["Table ( C )", "", 1, 2]],
  ["the letter of a tray or table in the header", "Table C", ["1", "2"], ["Table C", "", 1, 2]],
  ["a unit alone in the header", "(g)", ["1", "2"], ["(g)", "", 1, 2]],
])("an amount: %s", (_, header, cells, [label, unit, ...values]) => {
  expect(read(header, ...cells)).toEqual({ label, unit, values });
});

test.each([
  ["two units", "Bran", ["5 g", "5 %"]],
  ["a number without its unit among others", "Bran", ["5", "10%"]],
  ["recipes with a letter", "Recipe", ["1A", "2A", "1B"]],
  ["recipes with the letter of a unit", "Recipe", ["1C", "2C"]],
  ["recipes with such a letter apart", "Recipe", ["1 C", "2 C"]],
  ["things counted that are no unit", "Recipe", ["1 scoop of bran", "2 scoop of bran"]],
  ["words after a number", "Recipe", ["5 g\nbran", "10 g\nbran"]],
  ["so much for something that is no unit", "Recipe", ["1 scoop per tray", "2 scoop per tray"]],
  ["half a name", "Recipe", ["1/A", "2/A"]],
  ["dates", "Bran", ["1.2.26", "3.2.26"]],
  ["three figures after a comma, which may be thousands", "Bran", ["1,250", "2,500"]],
  ["one number without its unit after others with one", "Bran", ["10%", "5"]],
  ["one word that is no number", "Bran", ["none", "5%", "a lot"]],
  ["words alone", "Fan", ["no", "none"]],
  ["cells in another unit than the header", "Bran (%)", ["5 g", "10 g"]],
])("names: %s", (_, header, cells) => {
  expect(read(header, ...cells)).toBe("names");
});

test("a blank cell has no level of an amount", () => {
  const all = trays("Bran", ["", "5%", "10%"]);
  const { level } = asAmount(freeFactor("Bran"), all);
  expect(all.map((tray) => level(tray))).toEqual([undefined, "5", "10"]);
});

test("spellings of one amount are one level, and the book finds it under its header", () => {
  const all = trays("Bran", ["none", "5 %", "5%", "none", "10 %", "10%"]);
  const [thing] = variedThings(all, "Bran");
  expect(thing).toMatchObject({
    kind: "amount",
    levels: 3,
    factor: { key: "factor:Bran", label: "“Bran”", unit: "%" },
  });
});
