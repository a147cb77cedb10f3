import { describe, expect, test } from "vitest";
import { dateOrderEvidence } from "../../../src/cleaning/evidence/date-order-evidence.ts";
import { decimalEvidence } from "../../../src/cleaning/evidence/decimal-evidence.ts";
import { harvestOf, rulesOf, trayOf } from "../book-of.ts";

test.each([
  ["12,5", ","],
  ["1.234,5", ","],
  ["0,125", ","],
  ["12.5", "."],
  ["1,234.5", "."],
  ["0.125", "."],
  ["1234.567", "."],
  ["1,234", ""],
  ["1.234", ""],
  ["12", ""],
  ["1,234,567", ""],
])("%s shows the decimal mark %j", (cell, mark) => {
  expect(decimalEvidence(cell)).toBe(mark);
});

test.each([
  ["13/4/26", "day first"],
  ["4/13/2026", "month first"],
  ["3/4/26", ""],
  ["2026-04-13", ""],
  ["13 Apr 2026", ""],
])("%s shows the order %j", (cell, order) => {
  expect(dateOrderEvidence(cell)).toBe(order);
});

describe("what the cells of a column agree on", () => {
  test("chronology decides day and month where no number above 12 does", async () => {
    // month first the tray would be harvested before it was inoculated
    const book = await harvestOf("tray_id,Inoculated,Harvested\nA,2/5/26,6/6/26\nB,10/4/26,1/6/26\n");
    expect(trayOf(book, "B")).toMatchObject({ inoculatedOn: "2026-04-10", harvestedOn: "2026-06-01" });
    expect(rulesOf(book)).toContain("date-order-by-evidence");
  });

  test("a column of one's own shows the order of day and month like any other, unless it disagrees", async () => {
    const book = await harvestOf("tray_id,Inoculated,Moved by us\nA,3/4/26,20/4/26\nB,3/4/26,4/5/26\n");
    expect(trayOf(book, "A").inoculatedOn).toBe("2026-04-03");
    const mixed = await harvestOf("tray_id,Inoculated,Moved by us\nA,3/4/26,20/4/26\nB,3/4/26,4/25/26\n");
    expect(trayOf(mixed, "A").inoculatedOn).toBeUndefined();
    const other = await harvestOf("tray_id,Inoculated,Mix\nA,3/4/26,20/80\nB,3/4/26,20-40-40\n");
    expect(trayOf(other, "A").inoculatedOn).toBeUndefined();
  });

  test("a sheet that shows both orders keeps open dates open, column by column", async () => {
    const book = await harvestOf(
      "tray_id,Inoculated,Harvested\nA,13/4/26,4/25/26\nB,3/4/26,5/6/26\nC,25/4/26,12/13/26\n",
    );
    expect(trayOf(book, "B")).toMatchObject({ inoculatedOn: "2026-04-03", harvestedOn: "2026-05-06" });
    const mixed = await harvestOf("tray_id,Inoculated\nA,13/4/26\nB,4/13/26\nC,3/4/26\n");
    expect(trayOf(mixed, "A").inoculatedOn).toBe("2026-04-13");
    expect(trayOf(mixed, "C").inoculatedOn).toBeUndefined();
  });

  test("chronology decides the system of serial dates", async () => {
    const book = await harvestOf("tray_id,Inoculated,Harvested\nA,45800,2029-08-01\nB,2029-05-20,45880\n");
    expect(trayOf(book, "A").inoculatedOn).toBe("2029-05-24");
    const usual = await harvestOf("tray_id,Inoculated,Harvested\nA,45800,45880\n");
    expect(trayOf(usual, "A")).toMatchObject({ inoculatedOn: "2025-05-23", harvestedOn: "2025-08-11" });
    expect(usual.issues.find(({ rule }) => rule === "serial-dates-by-evidence")?.setting).toBe("serial_dates");
  });

  test("the scale of bare temperatures: the one on which mushrooms grow", async () => {
    const book = await harvestOf("tray_id,Temp\nA,64\nB,62\nC,61 F\n");
    expect(book.trays.map(({ fruitingCelsius }) => fruitingCelsius)).toEqual([
      17.7777777778, 16.6666666667, 16.1111111111,
    ]);
    const celsius = await harvestOf("tray_id,Temp\nA,18\nB,17.5\n");
    expect(celsius.trays.map(({ fruitingCelsius }) => fruitingCelsius)).toEqual([18, 17.5]);
  });

  test("bare weights: what is possible for a tray, the drying ratio, then the other weights", async () => {
    const book = await harvestOf("tray_id,Fresh wt,Dry wt\nA,310,31\nB,280,27\n");
    expect(trayOf(book, "A")).toMatchObject({ freshGrams: 310, dryGrams: 31 });
    const ounces = await harvestOf("tray_id,Fresh wt,Dry wt (g)\nA,11,31\nB,10,27\n");
    expect(trayOf(ounces, "A").freshGrams).toBeCloseTo(11 * 28.349523125, 9);
    const pounds = await harvestOf("tray_id,Substrate,Fresh wt (g)\nA,2.5,310\nB,3,280\n");
    expect(trayOf(pounds, "A").substrateWetGrams).toBeUndefined();
    expect(pounds.issues.find(({ tray, column }) => tray === "A" && column === "Substrate")?.setting).toBe("mass_unit");
    const answered = await harvestOf("tray_id,Substrate,Fresh wt (g)\nA,2.5,310\n", "mass_unit,lb");
    expect(trayOf(answered, "A")).toMatchObject({ substrateWetGrams: 1133.980925, freshGrams: 310 });
  });

  test("percentages without a sign", async () => {
    const percent = await harvestOf("tray_id,Moisture,fresh_g\nA,12,100\nB,9.5,100\n");
    expect(percent.trays.map(({ finalMoisture }) => finalMoisture)).toEqual([0.12, 0.095]);
    const share = await harvestOf("tray_id,Moisture,fresh_g\nA,0.12,100\nB,0.095,100\n");
    expect(share.trays.map(({ finalMoisture }) => finalMoisture)).toEqual([0.12, 0.095]);
  });
});

describe("columns that have to be asked about", () => {
  test("two columns with equal claims are both left out until one is chosen", async () => {
    const text = "tray_id,Fresh wt,Harvest weight,dry_g\nA,200,210,20\n";
    const book = await harvestOf(text);
    expect(trayOf(book, "A").freshGrams).toBeUndefined();
    const asked = book.issues.filter(({ rule }) => rule === "two-columns-one-field");
    expect(asked.map(({ column, severity }) => [column, severity])).toEqual([
      ["Fresh wt", "error"],
      ["Harvest weight", "error"],
    ]);
    expect(asked[0]!.action).toContain("columns.csv");
    expect(book.columns.map(({ field }) => field)).toEqual(["tray_id", "unread", "unread", "dry_g"]);
  });

  test("a misspelt second column is asked about too, and a canonical one wins", async () => {
    const spelt = await harvestOf("tray_id,Fresh wt,Fersh weight\nA,200,210\n");
    expect(spelt.issues.filter(({ rule }) => rule === "two-columns-one-field")).toHaveLength(2);
    const canonical = await harvestOf("tray_id,fresh_g,Harvest weight\nA,200,210\n");
    expect(trayOf(canonical, "A")).toMatchObject({ freshGrams: 200, factors: { "Harvest weight": "210" } });
    expect(rulesOf(canonical)).toContain("second-column");
  });

  test("unknown columns pass through as factors", async () => {
    const book = await harvestOf("tray_id,Lid colour,fresh_g\nA, red ,200\nB,blue,210\n");
    expect(trayOf(book, "A").factors).toEqual({ "Lid colour": "red" });
    expect(book.columns[1]).toMatchObject({ header: "Lid colour", field: "factor" });
  });

  test("the cells tell a date from a weight under one header", async () => {
    const dates = await harvestOf("tray_id,Dried,Fresh\nA,2026-03-01,200\n");
    expect(trayOf(dates, "A").driedOn).toBe("2026-03-01");
    const weights = await harvestOf("tray_id,Dried,Fresh\nA,20 g,200\n");
    expect(trayOf(weights, "A").dryGrams).toBe(20);
  });
});
