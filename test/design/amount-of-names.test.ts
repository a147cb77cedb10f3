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
  ["plain numbers", "Fan setting", ["1", "2", "3"], ["Fan setting", "", 1, 2, 3]],
  ["grams with a nought without them", "Gypsum", ["0", "5 g", "10g"], ["Gypsum", "g", 0, 5, 10]],
  ["a blank cell", "Lime g", ["", "5", "10"], ["Lime", "g", undefined, 5, 10]],
])("an amount: %s", (_, header, cells, [label, unit, ...values]) => {
  expect(read(header, ...cells)).toEqual({ label, unit, values });
});

test.each([
  ["two units", "Bran", ["5 g", "5 %"]],
  ["a number without its unit among others", "Bran", ["5", "10%"]],
  ["recipes with a letter", "Recipe", ["1A", "2A", "1B"]],
  ["one word that is no number", "Bran", ["none", "5%", "a lot"]],
  ["words alone", "Fan", ["no", "none"]],
  ["cells in another unit than the header", "Bran (%)", ["5 g", "10 g"]],
])("names: %s", (_, header, cells) => {
  expect(read(header, ...cells)).toBe("names");
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
