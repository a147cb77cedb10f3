import { expect, test } from "vitest";
import { readCosts } from "../../../src/cleaning/costs/read-costs.ts";
import { type CostLine, costColumns } from "../../../src/records/cost-line.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { line as costLine } from "../../costing/sample-records.ts";
import { tableOf } from "./table-of-text.ts";

type Column = (typeof costColumns)[number];
type Typed = Partial<Record<Column, string>>;

const bag: Typed = { item: "bag", kind: "consumable", pack_price: "46", pack_size: "100", amount: "1", per: "tray" };
const read = (rows: Typed[], settings: Partial<Settings> = {}, header: readonly string[] = costColumns) => {
  const cells = rows.map((row) => costColumns.map((column) => row[column] ?? ""));
  return readCosts([tableOf("costs.csv", header, cells)], { ...defaultSettings, ...settings });
};
const one = (typed: Typed, settings?: Partial<Settings>) => read([{ ...bag, ...typed }], settings);
/** What a sheet of text with its own headers says. */
const sheet = (...lines: string[]) => {
  const [header = [], ...rows] = lines.map((line) => line.split(","));
  return readCosts([tableOf("costs.csv", header, rows)], defaultSettings);
};

const line = costLine({ item: "bag", packPrice: 46, packSize: 100 });

// what is not typed is absent, and each cell is one fact of the line
test.each<[string, Typed, CostLine]>([
  ["the needed cells", {}, line],
  ["jars of a pack", { expands_to_jars: "6" }, { ...line, expandsToJars: 6 }],
  ["a normal month", { normal_trays_per_month: "40" }, { ...line, normalTraysPerMonth: 40 }],
  ["a low price", { pack_price_low: "40" }, { ...line, packPriceLow: 40 }],
  ["a high price", { pack_price_high: "50" }, { ...line, packPriceHigh: 50 }],
  [
    "one price for low and high",
    { pack_price_low: "46", pack_price_high: "46" },
    { ...line, packPriceLow: 46, packPriceHigh: 46 },
  ],
  ["a stage", { stage: "picking" }, { ...line, stage: "harvest" }],
  ["a day", { from_date: "2026-03-04" }, { ...line, fromDate: "2026-03-04" }],
  ["a remark", { note: "blue" }, { ...line, note: "blue" }],
  ["own time", { owner_labour: "yes" }, { ...line, ownerLabour: true }],
  ["no own time", { owner_labour: "no" }, line],
  ["uses", { kind: "reusable", uses: "30" }, { ...line, kind: "reusable", uses: 30 }],
  [
    "a life, with what is recovered and broken",
    { kind: "reusable", life_years: "5", uses_per_year: "120", salvage: "46", breakage_pct: "2 %" },
    { ...line, kind: "reusable", lifeYears: 5, usesPerYear: 120, salvage: 46, breakage: 0.02 },
  ],
  [
    "power and an amount, without hours",
    { pack_size: "1 kWh", amount: "2 kWh", watts: "100" },
    { ...line, packSize: 1, packUnit: "kWh", amount: 2 },
  ],
  // 1.5 kW x 2 h is 3 kWh
  ...(["1.5 kW", "1500", "1500 W", "1.5 kilowatts"] as const).map((watts): [string, Typed, CostLine] => [
    `power of ${watts}`,
    { pack_size: "1 kWh", amount: "", watts, hours: "2" },
    { ...line, packSize: 1, packUnit: "kWh", amount: 3, watts: 1500, hours: 2, duty: 1 },
  ]),
])("a cost line of %s", (_, typed, expected) => {
  const { costLines, unread, leftOut } = one(typed);
  expect(costLines).toStrictEqual([expected]);
  expect([unread, leftOut]).toEqual([[], []]);
});

// 1 US gallon is 3.785411784 L, 1 quart a fourth of it, 1 lb 453.59237 g, exactly (NIST Handbook 44, appendix C)
test.each<[string, string, string, number, string]>([
  ["2 x 12.5 kg", "", "350 g", 25_000, "g"],
  ["10x500 g", "", "350 g", 5000, "g"],
  ["2 × 500 g", "", "350 g", 1000, "g"],
  ["2*500 g", "", "350 g", 1000, "g"],
  ["2 x 3 lb 8 oz", "", "350 g", 7 * 453.59237, "g"],
  ["50 x", "", "1", 50, "each"],
  ["1e3 g", "", "350 g", 1000, "g"],
  ["1e-3 kg", "", "1 g", 1, "g"],
  ["1E+3 g", "", "350 g", 1000, "g"],
  ["1 gal 2 qt", "", "10 mL", 1.5 * 3785.411784, "mL"],
  ["25 kg", "g", "350 g", 25_000, "g"],
  ["1", "dozen", "1", 12, "each"],
  ["kWh", "", "9 kWh", 1, "kWh"],
  ["100", "", "2 bags", 100, "each"],
])("a pack of “%s” “%s”, of which %s is used, holds %d %s", (pack_size, pack_unit, amount, packSize, packUnit) => {
  const { costLines, issues } = one({ pack_size, pack_unit, amount });
  expect(costLines).toMatchObject([{ packUnit }]);
  expect(costLines[0]!.packSize).toBeCloseTo(packSize, 8);
  expect(issues.map(({ rule }) => rule).includes("unit-alone")).toBe(pack_size === "kWh");
});

test.each<[string, Typed, string, Column, string]>([
  [
    "a unit with another beside it",
    { pack_size: "25 blobs", pack_unit: "kg", amount: "1 g" },
    "unknown-unit",
    "pack_size",
    "not a known one",
  ],
  [
    "an unknown unit beside it",
    { pack_size: "25", pack_unit: "blobs", amount: "1 g" },
    "unknown-unit",
    "pack_unit",
    "not a known one",
  ],
  ["no unit where grams are used", { pack_size: "25", amount: "350 g" }, "missing-unit", "pack_size", "no unit"],
  [
    "no unit where grams are used by their own column",
    { pack_size: "25", amount: "350", amount_unit: "g" },
    "missing-unit",
    "pack_size",
    "no unit",
  ],
  ["units that cannot be one number", { pack_size: "2 lb 3 blobs", amount: "1 g" }, "not-a-number", "pack_size", ""],
  ["something before several", { pack_size: "lot 2 x 5 kg", amount: "1 g" }, "not-a-number", "pack_size", ""],
  ["a unit typed twice for a size", { pack_size: "kg", pack_unit: "kg", amount: "1 g" }, "", "pack_size", ""],
  ["a unit alone for an amount", { pack_size: "25 kg", amount: "g" }, "", "amount", ""],
  ["no amount", { amount: "" }, "missing", "amount", "missing"],
  ["no amount of one pack that is used up", { pack_size: "1", amount: "" }, "missing", "amount", "missing"],
  ["no amount of many reusables", { kind: "reusable", uses: "9", amount: "" }, "missing", "amount", "missing"],
  ["power in another unit", { amount: "", watts: "2 hp", hours: "2" }, "unknown-unit", "watts", "power"],
  [
    "a word that every object knows",
    { amount: "", watts: "1500 constructor", hours: "2" },
    "unknown-unit",
    "watts",
    "power",
  ],
  ["energy for power", { pack_size: "1 kWh", amount: "", watts: "1.5 kWh", hours: "2" }, "unknown-unit", "watts", ""],
  ["power below nothing", { amount: "", watts: "-5", hours: "2" }, "negative", "watts", "below 0"],
  ["hours below nothing", { amount: "", watts: "5", hours: "-2" }, "negative", "hours", "below 0"],
  [
    "power of a thing sold by weight",
    { pack_size: "1 kg", amount: "", watts: "5", hours: "2" },
    "",
    "pack_unit",
    "kWh",
  ],
  ["a life without uses a year", { kind: "reusable", life_years: "5" }, "missing-life", "uses", ""],
  ["uses a year without a life", { kind: "reusable", uses_per_year: "5" }, "missing-life", "uses", ""],
  ["more recovered than paid", { kind: "reusable", uses: "9", salvage: "46.01" }, "", "salvage", "more than"],
  [
    "broken more than always",
    { kind: "reusable", uses: "9", breakage_pct: "120 %" },
    "out-of-range",
    "breakage_pct",
    "",
  ],
  ["a pack that makes no jar", { expands_to_jars: "0" }, "zero", "expands_to_jars", ""],
  ["a month without trays", { normal_trays_per_month: "-1" }, "negative", "normal_trays_per_month", ""],
  ["a column without its value", { only_where_column: "grade" }, "half-a-condition", "only_where_value", ""],
  ["a value without its column", { only_where_value: "fine" }, "half-a-condition", "only_where_column", ""],
  ["a low price above the high one", { pack_price_low: "5.01", pack_price_high: "5" }, "", "pack_price_low", ""],
  ["no name", { item: "" }, "missing", "item", "no name"],
  ["hired work without a price", { kind: "labour", pack_price: "" }, "missing", "pack_price", "the price of a pack"],
  [
    "own goods without a price",
    { owner_labour: "yes", pack_price: "" },
    "missing",
    "pack_price",
    "the price of a pack",
  ],
])("cost left out: %s", (_, typed, rule, column, reason) => {
  const { costLines, issues } = one(typed);
  expect(costLines).toEqual([]);
  const errors = issues.filter(({ severity }) => severity === "error");
  expect(errors.length).toBe(1);
  expect(errors[0]).toMatchObject({ column, row: 2 });
  expect(errors[0]!.reason).toContain(reason);
  if (rule !== "") expect(errors[0]!.rule).toBe(rule);
  expect([errors[0]!.expected, errors[0]!.action]).not.toContain("");
  expect(errors[0]).not.toHaveProperty("setting");
});

test("a row left out is known by what is said of its cell", () => {
  expect(one({ pack_size: "0" }).unread).toMatchObject([{ name: "bag", reason: "pack_size “0”: the pack size is 0" }]);
  expect(one({ item: "", pack_size: "0" }).unread).toMatchObject([
    { name: "row 2", reason: "item: the cost has no name" },
  ]);
});

test("where what is used is in an unknown unit, a bare pack is in none either", () => {
  const { costLines, issues } = one({ amount: "2 blobs" });
  expect(costLines).toEqual([]);
  expect(issues.map(({ rule, column }) => [rule, column])).toEqual([
    ["missing-unit", "pack_size"],
    ["unknown-unit", "amount"],
  ]);
});

test.each<Column>(["pack_price", "pack_size", "amount"])("a line is left out where its %s is not known", (column) => {
  const { costLines, unread } = one({ [column]: "?" });
  expect(costLines).toEqual([]);
  expect(unread).toMatchObject([{ name: "bag", inUse: false }]);
});

test.each([
  [{ per: "inoculum mL", pack_size: "500 mL" }, "inoculum mL"],
  [{ per: "10 mL", pack_size: "0.5 L" }, "inoculum mL"],
  [{ per: "g supplement", pack_size: "1 kg" }, "supplement g"],
])("a line for each mL or g takes as much as it is for: %j", (typed, per) => {
  const { costLines, issues } = one({ kind: "ingredient", amount: "", ...typed });
  expect(costLines).toMatchObject([{ per, amount: 1 }]);
  expect(issues.map(({ rule }) => rule)).toContain("amount-of-one");
  // a weight of each mL is not known by that
  expect(one({ kind: "ingredient", amount: "", ...typed, pack_size: "6 each" }).costLines).toEqual([]);
});

test("what is used of one pack of a thing that lasts, of rent or of a general cost is the pack, and the log says so", () => {
  const lasting: Typed[] = [
    { kind: "reusable", uses: "9" },
    { kind: "overhead", pack_size: "1 month" },
    { kind: "space", pack_size: "1 month" },
  ];
  for (const typed of lasting) {
    const { costLines, issues } = one({ pack_size: "1", amount: "", ...typed });
    expect(costLines).toMatchObject([{ amount: 1, packSize: 1 }]);
    expect(issues).toMatchObject([{ rule: "amount-of-one", severity: "note", result: "1" }]);
  }
  // a pack that cannot be read asks for one thing at a time
  const { issues } = one({ kind: "reusable", uses: "9", pack_size: "many", amount: "" });
  expect(issues.map(({ column }) => column)).toEqual(["pack_size"]);
});

test("an amount beside power and hours counts, and is pointed out where it differs by more than half a per cent", () => {
  const rules = (amount: string) => {
    const { costLines, issues } = one({ pack_size: "1 kWh", amount, watts: "1000", hours: "200" });
    expect(costLines[0]!.amount).toBe(Number.parseFloat(amount));
    return issues.map(({ rule, severity, expected }) => `${rule}: ${severity}, ${expected}`);
  };
  const differs = ["two-amounts: warning, 200 kWh, or no watts and hours"];
  expect(["200 kWh", "199 kWh", "201 kWh", "201.0030 kWh"].map(rules)).toEqual([[], [], [], []]);
  expect(["198.99 kWh", "201.01 kWh", "2 kWh"].map(rules)).toEqual([differs, differs, differs]);
});

test.each([
  ["watts (kW)", "1.5", 1500],
  ["power (W)", "1500", 1500],
  ["watts (rated)", "1500", 1500],
  ["watts (kW)", "1500 W", 1500],
])("under “%s” %s is a power of %d W", (header, cell, watts) => {
  const { costLines } = sheet(`item,kind,price,pack,per,hours,${header}`, `heat,energy,0.2,1 kWh,load,2,${cell}`);
  expect(costLines).toMatchObject([{ watts, amount: 3 }]);
});

test("power that is not read is in no guess of the line", () => {
  const guesses = (["watts", "hours", "duty_pct"] as const).flatMap((column) =>
    ["many", "?"].map((cell) => {
      const typed = { pack_size: "1 kWh", amount: "", watts: "100", hours: "2", duty_pct: "50 %", [column]: cell };
      const { costLines, unread } = one(typed);
      expect(costLines).toEqual([]);
      return unread[0]!.guess;
    }),
  );
  expect(guesses).toEqual([undefined, undefined, undefined, undefined, undefined, undefined]);
  expect(one({ pack_size: "2 lb 3 blobs" }).unread[0]!.guess).toBeUndefined();
  expect(one({ pack_size: "many" }).unread[0]!.guess).toBeUndefined();
});

test("the owner's time without a price takes the rate of the settings, with one its own", () => {
  const time: Typed = { kind: "labour", owner_labour: "yes", pack_size: "", amount: "30 min" };
  const own = one({ ...time, pack_price: "" }, { ownerLabourRate: 16 });
  expect(own.costLines).toMatchObject([{ packPrice: 16, packSize: 1, packUnit: "hour", amount: 0.5 }]);
  expect(own.issues).toMatchObject([{ rule: "owner-rate", result: "16", severity: "change" }]);
  const priced = one({ ...time, pack_price: "20", pack_size: "1 h" }, { ownerLabourRate: 16 });
  expect(priced.costLines).toMatchObject([{ packPrice: 20 }]);
  const { issues } = one({ ...time, pack_price: "", pack_size: "1 h" });
  expect(issues).toMatchObject([{ column: "pack_price", rule: "missing", setting: "owner_labour_rate" }]);
});

test.each<[string, CostLine["per"], number]>([
  ["tray", "tray", 2],
  ["kg fresh", "kg fresh", 2],
  ["per 	lb of  fresh", "kg fresh", 2 / 0.45359237],
  ["lb dry", "kg dried", 2 / 0.45359237],
  ["each lb dried", "kg dried", 2 / 0.45359237],
  ["every kg of grain", "grain g", 0.002],
  ["KG Supplement", "supplement g", 0.002],
  ["L liquid culture", "inoculum mL", 0.002],
  ["litre of inoculum", "inoculum mL", 0.002],
  ["L LC", "inoculum mL", 0.002],
  ["mL of culture", "inoculum mL", 2],
])("2 per “%s” is per %s", (per, base, amount) => {
  const { costLines } = one({ per, amount: "2" });
  expect(costLines).toMatchObject([{ per: base }]);
  expect(costLines[0]!.amount).toBeCloseTo(amount, 12);
});

test.each(["lb of bread", "cup of culture", "lb fresh bread", "moon grain"])(
  "“%s” is nothing that one use goes to",
  (per) => {
    expect(one({ per }).costLines).toEqual([]);
  },
);

test("without a kind, a life in uses or years makes a line one of a thing that lasts", () => {
  const kind = (typed: Typed) => one({ kind: "", ...typed }).costLines.map((found) => found.kind);
  expect(kind({ uses: "9" })).toEqual(["reusable"]);
  expect(kind({ life_years: "9", uses_per_year: "3" })).toEqual(["reusable"]);
  expect(kind({ pack_size: "5", pack_unit: "h", amount: "1 h" })).toEqual(["labour"]);
  expect(kind({ item: "rye grain / spawn" })).toEqual(["culture"]);
});

test("an item is counted twice where both lines hold from one day, not where each has its own", () => {
  const rules = (...rows: Typed[]) => read(rows.map((row) => ({ ...bag, ...row }))).issues.map(({ rule }) => rule);
  expect(rules({}, {})).toEqual(["item-twice"]);
  expect(rules({}, {}, {})).toEqual(["item-twice", "item-twice"]);
  expect(rules({}, { from_date: "2026-03-04" })).toEqual([]);
  expect(rules({ from_date: "2026-03-04" }, { from_date: "2026-03-04" })).toEqual(["item-twice"]);
  expect(rules({}, { item: "lid" })).toEqual([]);
  expect(rules({}, { per: "cook" })).toEqual([]);
  expect(rules({}, { stage: "harvest" })).toEqual([]);
  expect(rules({ only_where_column: "a", only_where_value: "b" }, {})).toEqual([]);
});

const used = (header: string, base: string) => ({ header, base });
test.each([
  used("used per tray", "tray"),
  used(" Amount per cook ", "cook"),
  used("per tray", "tray"),
  used("for each load", "load"),
  used("usage pro tray", "tray"),
  used("quantità per tray", "tray"),
])("a column “$header” holds what goes to one $base", ({ header, base }) => {
  const { costLines, issues } = sheet(`item,kind,price,pack,${header}`, "rye,ingredient,31,25 kg,600 g");
  expect(costLines).toMatchObject([{ amount: 600, packSize: 25_000, per: base }]);
  expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
});

test("beside the amount of one use a bare quantity is what a pack holds, unless that has its own column", () => {
  const bare = sheet("item,kind,price,quantity,used per tray", "rye,ingredient,31,25 kg,600 g");
  expect(bare.costLines).toMatchObject([{ packSize: 25_000, amount: 600 }]);
  const both = sheet("item,kind,price,pack size,quantity,used per tray", "rye,ingredient,31,25 kg,500 g,600 g");
  expect(both.costLines).toMatchObject([{ packSize: 25_000, amount: 600 }]);
});

test.each(["per", "amount", "used"])("where a column “%s” says it, a header that does too changes nothing", (name) => {
  const cell = name === "per" ? "cook" : "500 g";
  const { costLines } = sheet(`item,kind,price,pack,used per tray,${name}`, `rye,ingredient,31,25 kg,600 g,${cell}`);
  expect(costLines.map(({ per }) => per)).not.toContain("tray");
});

test.each(["superper tray", "used per moon", "trays per tray and more"])("“%s” names no use", (header) => {
  expect(sheet(`item,kind,price,pack,${header}`, "rye,ingredient,31,25 kg,600 g").costLines).toEqual([]);
});
