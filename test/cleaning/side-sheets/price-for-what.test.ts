import { expect, test } from "vitest";
import { readCosts } from "../../../src/cleaning/costs/read-costs.ts";
import { costPerUse } from "../../../src/costing/lines/cost-per-use.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { assertClose } from "../../agreement.ts";
import { tableOfText } from "./table-of-text.ts";

const settings = { ...defaultSettings, currency: "EUR" };

/** What one use of each line costs, and what it goes to; and the rules of what was found wrong or doubtful. */
async function read(sheet: string) {
  const { costLines, issues, leftOut } = readCosts(
    [await tableOfText(sheet.replaceAll(" / ", "\n"), "costs.csv")],
    settings,
  );
  const uses = costLines.map((line) => {
    const use = costPerUse(line, settings);
    return { per: line.per, money: use.kind === "cannot-tell" ? Number.NaN : use.money };
  });
  const wrong = issues.filter(({ severity }) => severity === "error" || severity === "warning").map(({ rule }) => rule);
  return { uses, wrong, issues, leftOut };
}

// what a careful person reads from the row, by hand; ways of writing a price from common practice, no source
test.each([
  ["a price for a kilogram in the cell", "item,price,amount,per / straw,€1.24/kg,400 g,tray", "tray", 0.496],
  ["the same in words", "item,price,amount,per / straw,1.24 EUR per kg,400 g,tray", "tray", 0.496],
  ["for several of them", "item,price,amount,per / straw,31 for 25 kg,400 g,tray", "tray", 0.496],
  ["the same in German", "Posten,Preis,Menge,pro / Stroh,31 € für 25 kg,400 g,tray", "tray", 0.496],
  ["for a count", "item,price,pack size,amount,per / bags,46 for 100,,1,tray", "tray", 0.46],
  ["beside the same pack", "item,price,pack size,unit,amount,per / power,0.31/kWh,1,kWh,3.4,load", "load", 1.054],
  [
    "of the pack, beside its size",
    "item,price,pack size,amount,per / straw,31 per bag,25 kg,400 g,tray",
    "tray",
    0.496,
  ],
  ["per kilogram by the header", "item,price per kg,amount,per / straw,1.24,400 g,tray", "tray", 0.496],
  ["the same in brackets", "item,price (€/kg),amount,per / straw,1.24,400 g,tray", "tray", 0.496],
  ["a unit and no packs", "item,price,unit,amount,amount unit,per / straw,1.24,kg,400,g,tray", "tray", 0.496],
  ["a unit price", "item,unit price,pack size,unit,amount,amount unit,per / straw,1.24,,kg,400,g,tray", "tray", 0.496],
  ["work by the hour", "item,price,amount,per / picking,16/h,5 min,good tray", "good tray", 16 / 12],
  [
    "work without a size, by its kind",
    "item,kind,price,pack size,amount,per / picking,labour,16,,5 min,tray",
    "tray",
    16 / 12,
  ],
  ["watts without a size", "item,price,pack size,per,watts,hours / cooker,0.30,,load,1000,2", "load", 0.6],
  ["a month", "item,cost / rent,60 a month", "month", 60],
  ["a year of months", "item,cost / rent,720 per year", "month", 60],
  ["a month by its base", "item,price,pack size,unit,amount,per / rent,60,,,,month", "month", 60],
  ["cost and base alone", "item,cost,per / gas,4.50,cook", "cook", 4.5],
  ["the base in the header", "item,cost per tray / straw,0.50", "tray", 0.5],
  ["lines by their category", "category,cost per tray / straw,0.50", "tray", 0.5],
  ["lines under no name", ",cost per tray / straw,0.50", "tray", 0.5],
  ["the base as the unit", "item,cost,unit / gas,4.50,load", "load", 4.5],
  ["the base as the unit, with its word", "item,price,unit / straw,0.50,per tray", "tray", 0.5],
  ["a month as the unit", "item,cost,unit / rent,60,month", "month", 60],
  ["culture by volume", "item,price,pack size / liquid culture,18,250 ml", "inoculum mL", 0.072],
  ["culture by its unit", "item,price,unit / liquid culture,0.06,ml", "inoculum mL", 0.06],
  ["culture by its unit, with its word", "item,cost,unit / liquid culture,0.06,per ml", "inoculum mL", 0.06],
  ["a unit with its stroke", "item,price,unit,amount,per / straw,1.24,/kg,400 g,tray", "tray", 0.496],
  ["hours in a name, and money", "item,cost,unit / machine hours,3 €,cook", "cook", 3],
  [
    "culture, a dose for each tray",
    "item,price,pack size,used per tray / liquid culture,18,250 ml,dose",
    "inoculum mL",
    0.072,
  ],
  ["culture, an amount of it for each tray", "item,price,pack size,amount,per / lc,18,250 ml,5 ml,tray", "tray", 0.36],
  ["the base in the price", "item,cost / gas,4.50 per cook", "cook", 4.5],
  ["the base beside the amount", "item,price,pack size,amount,per / straw,31,25 kg,0.4 kg/tray,", "tray", 0.496],
  ["several uses at once", "item,price,pack size,amount,per / straw,31,25 kg,3.6 kg,9 trays", "tray", 0.496],
])("what a price is for: %s", async (_, sheet, per, money) => {
  const { uses, wrong } = await read(sheet);
  expect(wrong).toEqual([]);
  expect(uses.map((use) => use.per)).toEqual([per]);
  assertClose(uses[0]!.money, money, 1e-12);
});

test.each([
  [
    "a unit price beside a pack of 25 kg",
    "item,unit price,pack size,unit,amount,per / straw,1.24,25,kg,400 g,tray",
    "unit-price-of-pack",
  ],
  [
    "a price for a kilogram and a pack of 25",
    "item,price,pack size,amount,per / straw,1.24/kg,25 kg,400 g,tray",
    "two-pack-sizes",
  ],
  [
    "a pack whose size is not said",
    "item,price,pack size,amount,per / straw,31 per pack,,400 g,tray",
    "missing-pack-size",
  ],
  ["a price with a pack column left blank", "item,price,pack size,amount,per / bags,46,,1,tray", "missing-pack-size"],
  ["a box, which is a pack and a tray", "item,cost / gloves,12 per box", "missing"],
  ["a price of packs in a sheet without sizes", "item,pack price,per / bags,46,tray", "missing-pack-size"],
  ["hours of work in a column of money", "item,cost,unit / labour hours,1.5,per cook", "price-or-amount"],
  ["energy in a column of money", "item,cost,per / electricity (kWh),2.5,cook", "price-or-amount"],
  [
    "an amount for one thing in a line for another",
    "item,price,pack size,amount,per / straw,31,25 kg,400 g per cook,tray",
    "unknown-unit",
  ],
])("%s can be read two ways and is asked", async (_, sheet, rule) => {
  const { uses, wrong, leftOut } = await read(sheet);
  expect(uses).toEqual([]);
  expect(wrong).toContain(rule);
  expect(leftOut.length).toBe(1);
});

test("what was taken from a price is in the log, with the cell as typed", async () => {
  const { issues } = await read("item,price,amount,per / straw,€1.24/kg,400 g,tray");
  const said = issues.find(({ rule }) => rule === "price-for-what");
  expect(said).toMatchObject({ severity: "change", raw: "€1.24/kg", result: "€1.24 for 1 kg", row: 2 });
});
