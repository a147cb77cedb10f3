import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { readCosts } from "../../../src/cleaning/costs/read-costs.ts";
import { writeCsv } from "../../../src/csv/write-csv.ts";
import { type CostLine, costColumns } from "../../../src/records/cost-line.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOf, tableOfText } from "./table-of-text.ts";

type Column = (typeof costColumns)[number];
const bag: Partial<Record<Column, string>> = {
  item: "filter bag",
  kind: "consumable",
  pack_price: "46",
  pack_size: "100",
  pack_unit: "each",
  amount: "1",
  amount_unit: "each",
  per: "tray",
};

async function read(lines: Partial<Record<Column, string>>[], settings: Partial<Settings> = {}) {
  const rows = lines.map((line) => costColumns.map((column) => line[column] ?? ""));
  return readCosts([await tableOfText(writeCsv([[...costColumns], ...rows], { guard: false }), "costs.csv")], {
    ...defaultSettings,
    ...settings,
  });
}
const one = async (line: Partial<Record<Column, string>>, settings: Partial<Settings> = {}) => {
  const { costLines, issues, leftOut } = await read([{ ...bag, ...line }], settings);
  return { line: costLines[0], issues, leftOut, rules: issues.map(({ rule, severity }) => `${rule}: ${severity}`) };
};

test("the demo book's costs are read without an error, in canonical units", async () => {
  for (const book of ["demo-book", "as-typed-book"]) {
    const text = readFileSync(new URL(`../../../data-samples/${book}/costs.csv`, import.meta.url), "utf8");
    const rows = text.trim().split("\n").length - 1;
    const { costLines, issues, leftOut } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
    expect(issues.filter(({ severity }) => severity === "error" || severity === "warning")).toEqual([]);
    expect(leftOut).toEqual([]);
    expect(costLines.length).toBe(rows);
  }
});

test.each<[string, Partial<Record<Column, string>>, Partial<CostLine>]>([
  [
    "unit in the cell",
    { pack_size: "25 kg", pack_unit: "", amount: "350 g", amount_unit: "" },
    { packSize: 25000, packUnit: "g", amount: 350 },
  ],
  [
    "two bags in a pack",
    { pack_size: "2 x 12.5 kg", pack_unit: "", amount: "350 g", amount_unit: "" },
    { packSize: 25000, packUnit: "g", amount: 350 },
  ],
  [
    "pieces in another language",
    { pack_size: "50 szt.", pack_unit: "", amount: "1", amount_unit: "" },
    { packSize: 50, packUnit: "each", amount: 1 },
  ],
  [
    "one out of a dozen",
    { pack_size: "1 dozen", pack_unit: "", amount: "1", amount_unit: "" },
    { packSize: 12, packUnit: "each", amount: 1 },
  ],
  ["a dash for no cents", { pack_price: "22,- €" }, { packPrice: 22 }],
  ["a dash for no öre", { pack_price: "129:-" }, { packPrice: 129 }],
  [
    "unit beside the cell",
    { pack_size: "25", pack_unit: "kg", amount: "0.35", amount_unit: "kg" },
    { packSize: 25000, packUnit: "g", amount: 350 },
  ],
  [
    "a bare count",
    { pack_size: "100", pack_unit: "", amount: "1", amount_unit: "" },
    { packSize: 100, packUnit: "each", amount: 1 },
  ],
  // 1 US gallon is 3.785411784 L exactly, 1 lb 453.59237 g exactly (NIST Handbook 44, appendix C)
  [
    "a gallon",
    { pack_size: "1 gal", pack_unit: "", amount: "10 mL", amount_unit: "" },
    { packSize: 3785.411784, packUnit: "mL", amount: 10 },
  ],
  [
    "pounds and ounces",
    { pack_size: "2 lb 3 oz", pack_unit: "", amount: "1 oz", amount_unit: "" },
    { packSize: 992.233309375, packUnit: "g", amount: 28.349523125 },
  ],
  [
    "a fraction",
    { pack_size: "1/2 lb", pack_unit: "", amount: "1 g", amount_unit: "" },
    { packSize: 226.796185, packUnit: "g" },
  ],
  [
    "minutes of an hour",
    { kind: "labour", pack_size: "1", pack_unit: "hour", amount: "5", amount_unit: "min" },
    { packUnit: "hour", amount: 5 / 60 },
  ],
  [
    "a year of months",
    { kind: "overhead", pack_size: "1", pack_unit: "year", amount: "1", amount_unit: "month", per: "month" },
    { packSize: 12, packUnit: "month", amount: 1 },
  ],
  ["a dozen", { pack_size: "1 dozen", pack_unit: "" }, { packSize: 12, packUnit: "each" }],
  ["bags as a count", { pack_size: "50 bags", pack_unit: "" }, { packSize: 50, packUnit: "each" }],
  // 1500 W x 2.5 h x 0.7 = 2.625 kWh, made: arithmetic
  [
    "watts, hours and duty",
    {
      kind: "energy",
      pack_price: "0.16",
      pack_size: "1",
      pack_unit: "kWh",
      amount: "",
      amount_unit: "",
      per: "load",
      watts: "1500",
      hours: "2.5",
      duty_pct: "70 %",
    },
    { amount: 2.625, watts: 1500, hours: 2.5, duty: 0.7 },
  ],
  [
    "kilowatts, minutes, no duty",
    {
      kind: "energy",
      pack_size: "1",
      pack_unit: "",
      amount: "",
      amount_unit: "",
      per: "load",
      watts: "1.5 kW",
      hours: "90 min",
    },
    { packUnit: "kWh", amount: 2.25, watts: 1500, hours: 1.5, duty: 1 },
  ],
  ["decimal comma and sign", { pack_price: "€12,90" }, { packPrice: 12.9 }],
  ["currency behind", { pack_price: "12.90 EUR" }, { packPrice: 12.9 }],
  [
    "duty above 1 is a percentage",
    {
      kind: "energy",
      pack_size: "1",
      pack_unit: "kWh",
      amount: "",
      amount_unit: "",
      per: "load",
      watts: "1000",
      hours: "1",
      duty_pct: "65",
    },
    { duty: 0.65 },
  ],
  ["a pound of fresh as base", { per: "per lb fresh", amount: "1" }, { per: "kg fresh", amount: 1 / 0.45359237 }],
  ["a kilo of grain as base", { per: "kg of grain", amount: "2" }, { per: "grain g", amount: 0.002 }],
  ["a litre of culture as base", { per: "L culture", amount: "2" }, { per: "inoculum mL", amount: 0.002 }],
  ["a date by its month's name", { from_date: "4 March 2026" }, { fromDate: "2026-03-04" }],
  [
    "a reusable with its life",
    { kind: "reusable", pack_size: "1", amount: "", life_years: "5", uses_per_year: "120", salvage: "6" },
    { amount: 1, lifeYears: 5, usesPerYear: 120, salvage: 6 },
  ],
  [
    "a condition",
    { only_where_column: "supplement_grade", only_where_value: "fine" },
    { onlyWhereColumn: "supplement_grade", onlyWhereValue: "fine" },
  ],
])("cost: %s", async (_, typed, expected) => {
  const { line, issues } = await one(typed);
  expect(issues.filter(({ severity }) => severity === "error")).toEqual([]);
  for (const [key, value] of Object.entries(expected)) {
    const found = line?.[key as keyof CostLine];
    if (typeof value === "number") expect(found).toBeCloseTo(value, 10);
    else expect(found).toBe(value);
  }
});

test.each<[string, Partial<Record<Column, string>>, string, Column, string]>([
  ["negative price", { pack_price: "-4" }, "price-below-0", "pack_price", "-4"],
  ["no price", { pack_price: "" }, "missing", "pack_price", ""],
  ["price in words", { pack_price: "cheap" }, "not-a-number", "pack_price", "cheap"],
  ["pack of nothing", { pack_size: "0" }, "zero", "pack_size", "0"],
  ["no pack size", { pack_size: "" }, "missing-pack-size", "pack_size", ""],
  ["unknown unit", { pack_unit: "smidgen" }, "unknown-unit", "pack_unit", "smidgen"],
  [
    "no unit for a weighed amount",
    { pack_size: "25", pack_unit: "", amount: "350 g", amount_unit: "" },
    "missing-unit",
    "pack_size",
    "25",
  ],
  [
    "no unit of an amount from a pack in kg",
    { pack_size: "25 kg", pack_unit: "", amount: "380", amount_unit: "" },
    "missing-unit",
    "amount",
    "380",
  ],
  [
    "weight out of a volume",
    { pack_size: "1 L", pack_unit: "", amount: "10 g", amount_unit: "" },
    "units-do-not-convert",
    "amount",
    "10 g",
  ],
  ["two units that contradict", { pack_size: "25 kg", pack_unit: "mL" }, "two-units", "pack_size", "25 kg"],
  ["unknown base", { per: "moon" }, "unknown-word", "per", "moon"],
  ["unknown kind", { kind: "magic" }, "unknown-word", "kind", "magic"],
  ["no name", { item: "" }, "missing", "item", ""],
  ["a share that could be either", { breakage_pct: "0.5" }, "bare-share", "breakage_pct", "0.5"],
  [
    "more than all of the time",
    { watts: "100", hours: "2", duty_pct: "120", pack_unit: "kWh", amount_unit: "kWh" },
    "out-of-range",
    "duty_pct",
    "120",
  ],
  ["watts without hours", { watts: "100", amount: "" }, "missing", "hours", ""],
  ["reusable without a life", { kind: "reusable" }, "missing-life", "uses", ""],
  ["never used", { kind: "reusable", uses: "0" }, "zero", "uses", "0"],
  ["half a condition", { only_where_value: "fine" }, "half-a-condition", "only_where_column", ""],
  ["a date either way round", { from_date: "3/4/26" }, "day-or-month", "from_date", "3/4/26"],
  ["no date", { from_date: "soon" }, "not-a-date", "from_date", "soon"],
  ["own time without a rate", { kind: "labour", owner_labour: "yes", pack_price: "" }, "missing", "pack_price", ""],
  [
    "low price above the high one",
    { pack_price_low: "5", pack_price_high: "4" },
    "range-reversed",
    "pack_price_low",
    "5",
  ],
  ["a thousand or a bit more than one", { pack_price: "1,234" }, "decimal-or-thousands", "pack_price", "1,234"],
])("cost refused: %s", async (_, typed, rule, column, raw) => {
  const { line, issues, leftOut } = await one(typed);
  expect(line).toBeUndefined();
  expect(leftOut.length).toBe(1);
  expect(leftOut[0]).toMatchObject({ file: "costs.csv", row: 2 });
  const found = issues.find((issue) => issue.rule === rule && issue.severity === "error");
  expect(found).toMatchObject({ file: "costs.csv", row: 2, column, raw });
  expect(found!.expected).not.toBe("");
  expect(found!.action).not.toBe("");
  expect(issues.some((issue) => issue.rule === leftOut[0]!.rule)).toBe(true);
});

test("what settings decide: percent style, decimal mark, date order, the owner's rate", async () => {
  expect((await one({ breakage_pct: "0.5" }, { percentStyle: "percent" })).line!.breakage).toBe(0.005);
  expect((await one({ breakage_pct: "0.5" }, { percentStyle: "fraction" })).line!.breakage).toBe(0.5);
  expect((await one({ pack_price: "1,234" }, { decimalMark: "comma" })).line!.packPrice).toBe(1.234);
  expect((await one({ pack_price: "1,234" }, { decimalMark: "point" })).line!.packPrice).toBe(1234);
  expect((await one({ from_date: "3/4/26" }, { dateOrder: "day first" })).line!.fromDate).toBe("2026-04-03");
  const own = await one(
    {
      kind: "labour",
      owner_labour: "yes",
      pack_price: "",
      pack_size: "",
      pack_unit: "",
      amount: "30 min",
      amount_unit: "",
    },
    { ownerLabourRate: 16 },
  );
  expect(own.line).toMatchObject({ packPrice: 16, packSize: 1, packUnit: "hour", amount: 0.5, ownerLabour: true });
});

test("what the sheet's other cells decide: decimal mark and date order", async () => {
  const { costLines } = await read([
    { ...bag, pack_price: "1,234", from_date: "3/4/26" },
    { ...bag, pack_price: "12,90", from_date: "25/4/26" },
  ]);
  expect(costLines.map(({ packPrice, fromDate }) => [packPrice, fromDate])).toEqual([
    [1.234, "2026-04-03"],
    [12.9, "2026-04-25"],
  ]);
});

test("two currencies: the rows in another one than the book's are errors", async () => {
  const { costLines, issues, leftOut } = await read([
    { ...bag, pack_price: "€5" },
    { ...bag, pack_price: "$6" },
    { ...bag, pack_price: "7" },
  ]);
  expect(costLines.map(({ packPrice }) => packPrice)).toEqual([5, 7]);
  expect(issues.filter(({ rule }) => rule === "two-currencies")).toMatchObject([
    { row: 3, raw: "$6", column: "pack_price", severity: "error", setting: "currency" },
  ]);
  expect(leftOut).toMatchObject([{ row: 3, rule: "two-currencies" }]);
});

test("a sheet all in another currency than the book's adds nothing up; a sign that may be the book's own is read", async () => {
  const { costLines, unread } = await read([
    { ...bag, pack_price: "$1,200.50" },
    { ...bag, pack_price: "$6" },
  ]);
  expect(costLines).toEqual([]);
  expect(unread).toMatchObject([
    { name: "filter bag", inUse: false, per: "tray" },
    { name: "filter bag", inUse: false },
  ]);
  expect((await read([{ ...bag, pack_price: "$6" }], { currency: "AUD" })).issues).toEqual([]);
});

test("a line left out is guessed by the same item's other price, never by money of another currency", async () => {
  const { unread } = await read([
    { ...bag, item: "rent", kind: "space", pack_price: "60", per: "month" },
    { ...bag, item: "rent", kind: "space", pack_price: "6O", per: "month", from_date: "2026-05-01" },
    { ...bag, item: "rent", kind: "space", pack_price: "$70", per: "month", from_date: "2026-06-01" },
    { ...bag, item: "label", pack_price: "1.2.3" },
  ]);
  expect(unread.map(({ name, guess }) => [name, guess?.packPrice, guess?.fromDate])).toEqual([
    ["rent", 60, "2026-05-01"],
    ["rent", 60, "2026-06-01"],
    ["label", undefined, undefined],
  ]);
});

test.each<[string, Partial<Record<Column, string>>, string, Partial<CostLine>]>([
  [
    "salvage above the price: nothing recovered is the most it costs",
    { kind: "reusable", uses: "10", salvage: "50" },
    "salvage-above-price",
    { packPrice: 46, uses: 10 },
  ],
  [
    "breakage of all: one use each",
    { kind: "reusable", uses: "10", breakage_pct: "100 %" },
    "breakage-of-all",
    { uses: 1 },
  ],
  ["a kind nobody knows", { kind: "whatnot" }, "unknown-word", { kind: "consumable", packPrice: 46 }],
])("cost left out and guessed: %s", async (_, typed, rule, guess) => {
  const { costLines, unread, issues } = await read([{ ...bag, ...typed }]);
  expect(costLines).toEqual([]);
  expect(issues.map((issue) => issue.rule)).toContain(rule);
  expect(unread[0]!.guess).toMatchObject(guess);
  expect(unread[0]!.guess).not.toHaveProperty("salvage");
});

test("columns by meaning: other names, units in headers, misspellings, any order", async () => {
  const text =
    "What;Cost type;Price (€);Pack size (kg);Used (g);For each;Remark;Shelf colour\nsorghum;ingredient;31,50;25;380;each tray;x;red\n";
  const { costLines, issues } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(costLines).toMatchObject([
    {
      item: "sorghum",
      kind: "ingredient",
      packPrice: 31.5,
      packSize: 25000,
      packUnit: "g",
      amount: 380,
      per: "tray",
      note: "x",
    },
  ]);
  expect(issues.map(({ rule }) => rule)).toContain("unread-column");
  const misspelt = readCosts(
    [await tableOfText("item,kind,pack_prise,pack_size,amount,per\nbag,consumbale,46,100,1,trays\n")],
    defaultSettings,
  );
  expect(misspelt.issues.map(({ rule }) => rule)).toEqual(expect.arrayContaining(["column-spelling", "word-spelling"]));
});

test("two columns that could both be the price are asked about; a missing column is one error", async () => {
  const { issues, leftOut } = readCosts(
    [await tableOfText("item,kind,price,price paid,pack_size,amount,per\nbag,consumable,46,40,100,1,tray\n")],
    defaultSettings,
  );
  expect(issues.filter(({ severity }) => severity === "error").map(({ rule }) => rule)).toEqual([
    "two-columns-for-one",
    "missing-column",
  ]);
  expect(leftOut.length).toBe(1);
});

test("a list without a header is missing as a whole: what it took for one could be a line, too", async () => {
  const table = await tableOfText(
    "rye 31.50 a bag, 0.9 kg a tray\nbags 100 for 42, one a tray\npower, 3 kWh\ntime, 12\n",
  );
  const { unread } = readCosts([table], defaultSettings);
  expect(unread).toMatchObject([{ name: table.file, source: { file: table.file, row: 0 }, inUse: false }]);
});

test("any cells give lines or left-out rows, one for each row, and never a number that is not finite", async () => {
  const cell = fc.oneof(
    fc.constantFrom(
      "",
      "tray",
      "kg",
      "1",
      "0",
      "-3",
      "€5",
      "25 kg",
      "1/2",
      "#REF!",
      "n/a",
      "1e400",
      "ingredient",
      "energy",
      "3/4/26",
      "~5",
      "10-12",
      "50 %",
      "0.5",
      "½",
      "2 lb 3 oz",
      "hour",
    ),
    fc.string({ maxLength: 12 }),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(cell, { minLength: costColumns.length, maxLength: costColumns.length }), {
        minLength: 1,
        maxLength: 5,
      }),
      async (rows) => {
        const { costLines, leftOut, issues } = readCosts([tableOf("costs.csv", costColumns, rows)], defaultSettings);
        expect(costLines.length + leftOut.length).toBe(rows.length);
        for (const line of costLines) {
          for (const value of Object.values(line))
            if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
          expect(line.packSize).toBeGreaterThan(0);
          expect(line.packPrice).toBeGreaterThanOrEqual(0);
        }
        for (const { row } of leftOut)
          expect(issues.some((issue) => issue.row === row && issue.severity === "error")).toBe(true);
      },
    ),
  );
});

// what a careful person takes from a line without a kind: common practice, no source
test.each([
  ["Rye", "28", "50 lb", "0.8 lb", "tray", "consumable", 22679.6185],
  ["Grain spawn", "12", "1 kg", "50 g", "tray", "culture", 1000],
  ["Syringes of LC", "20", "1 L", "10 ml", "tray", "culture", 1000],
  ["Wall socket", "0.16", "kWh", "9 kWh", "load", "energy", 1],
  ["Garage", "80", "month", "1", "month", "space", 1],
  ["My nephew", "18", "hour", "15 min", "tray", "labour", 1],
])("a sheet without kinds: %s", async (item, price, size, used, per, kind, packSize) => {
  const text = `What,Price,Size,Used,Per\n${item},${price},${size},${used},${per}\n`;
  const { costLines, issues } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(costLines).toMatchObject([{ item, kind, packSize }]);
  expect(issues.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(issues.map(({ rule }) => rule)).toContain("kind-of-line");
});

test("a tool without a kind and without its uses is asked about, not used up in one tray", async () => {
  const text = "What,Price,Size,Used,Per\nEquipment: scale,60,1,1,tray\n";
  const { costLines, issues } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(costLines).toEqual([]);
  expect(issues).toMatchObject([{ rule: "missing", severity: "error" }]);
});

test("a column of amounts that names what they go to says it for each row", async () => {
  const text = "item,kind,price,pack,used per tray\nrye,ingredient,31,25 kg,600 g\nbag,consumable,22,50,1\n";
  const { costLines, issues } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
  expect(costLines.map(({ amount, per }) => `${amount} a ${per}`)).toEqual(["600 a tray", "1 a tray"]);
});

test("a line whose price is not known is an error and counts as missing, a remark is neither", async () => {
  const head = "item,kind,pack_price,pack_size,amount,per\n";
  const text = `${head}# of March,,,,,\nlime,ingredient,tbc,1 kg,5 g,tray\nlabel,consumable,?,100,1,tray\n`;
  const { costLines, issues, unread } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(costLines).toEqual([]);
  expect(unread.map(({ name }) => name)).toEqual(["lime", "label"]);
  expect(issues.filter(({ severity }) => severity === "error").map(({ row }) => row)).toEqual([3, 4]);
});

test("an item that stands twice without a date is counted twice and pointed out", async () => {
  const { line, rules } = await one({});
  expect([line?.item, rules]).toEqual(["filter bag", []]);
  const twice = await read([bag, { ...bag, item: "Filter Bag", pack_price: "50" }]);
  expect(twice.costLines.length).toBe(2);
  expect(twice.issues.map(({ rule, severity }) => `${rule}: ${severity}`)).toEqual(["item-twice: warning"]);
  // one may be an old price left in, so what rests on it is not certain
  expect(twice.unread).toMatchObject([{ name: "Filter Bag", inUse: true, source: { row: 3 } }]);
  const again = await read([bag, { ...bag, item: "lid" }, bag]);
  expect(again.costLines.length).toBe(3);
  expect(again.unread).toMatchObject([{ name: "filter bag", inUse: true, source: { row: 4 } }]);
});

test("a column of money that is not read is flagged and known to be missing", async () => {
  const head = "item,kind,pack_price,price incl VAT,pack_size,amount,per";
  const text = `${head}\nrye,ingredient,31,37.20,25 kg,600 g,tray\n`;
  const { issues, unread } = readCosts([await tableOfText(text, "costs.csv")], defaultSettings);
  expect(issues.map(({ rule, severity }) => `${rule}: ${severity}`)).toContain("unread-column: warning");
  expect(unread.map(({ name, inUse }) => [name, inUse])).toEqual([["column price incl VAT", true]]);
});
