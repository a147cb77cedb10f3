import { expect, test } from "vitest";
import { harvestOf, inShort } from "../book-of.ts";
import { testRule } from "./rule-table.ts";

const measures = "fresh_g";

// common practice, no source
testRule(
  "list-in-cell",
  [
    ["120, 60, 25", "mass", "205", { measures, bareUnit: "g" }],
    ["120,60,25", "mass", "205", { measures, bareUnit: "g" }],
    ["120 g, 60 g, 25.5 g", "mass", "205.5", { measures }],
    ["130, 60", "mass", "190", { measures, bareUnit: "g", commasPart: true }],
    ["130,60", "mass", "unreadable", { measures, bareUnit: "g", commasPart: true }],
    ["130, 60", "mass", "unreadable", { measures, bareUnit: "g", commasPart: true, decimalMark: "," }],
  ],
  [
    ["130, 60", "mass", "unreadable", { measures, bareUnit: "g" }],
    ["130,60", "mass", "130.6", { measures, bareUnit: "g" }],
    ["1,234,567", "mass", "1234567", { measures, bareUnit: "g" }],
    ["500, 40, 10", "mass", "unreadable", { measures: "substrate_wet_g", bareUnit: "g" }],
  ],
);

test("commas are read alike from top to bottom, whichever cell tells", async () => {
  const book = await harvestOf('Tray,LC ml,Fresh g\nA,5,"130, 60"\nB,5,"120, 60, 25"\nC,10,"150,70"\nD,10,220\n');
  expect(inShort(book)).toEqual(["A: asked", "B: good 205/", "C: asked", "D: good 220/"]);
  const apart = await harvestOf('Tray,LC ml,Fresh g\nA,5,"130, 60"\nB,5,"120, 60, 25"\nC,10,222.5\n');
  expect(inShort(apart)).toEqual(["A: good 190/", "B: good 205/", "C: good 222.5/"]);
});
