import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { readSettings } from "../../../src/cleaning/side-sheets/read-settings.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings, settingDefinitions } from "../../../src/records/setting-definitions.ts";
import { tableOf, tableOfText } from "./table-of-text.ts";

const read = async (text: string) => readSettings(await tableOfText(text, "settings.csv"), "settings.csv");
const line = (key: string, value: string, unit = "") => read(`key,value,unit,note\n${key},"${value}",${unit},\n`);

test("no sheet, and a blank one with every key, are the defaults", async () => {
  expect(readSettings(undefined, "settings.csv")).toEqual({
    settings: defaultSettings,
    stated: new Set(),
    sheets: [],
    unread: [],
    issues: [],
  });
  const blank = await read(`key,value,unit,note\n${settingDefinitions.map(({ key }) => `${key},,,x`).join("\n")}\n`);
  expect(blank).toEqual({ settings: defaultSettings, stated: new Set(), sheets: [], unread: [], issues: [] });
});

test("every setting typed as its own default reads as the default", async () => {
  for (const { key, default: typed, unit } of settingDefinitions) {
    if (typed === "") continue;
    const { settings, issues } = await line(key, typed, unit);
    expect(settings).toEqual(defaultSettings);
    expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
  }
});

test("the demo book's settings", async () => {
  const { settings, issues } = await read(
    readFileSync(new URL("../../../data-samples/as-typed-book/settings.csv", import.meta.url), "utf8"),
  );
  expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
  expect(settings).toMatchObject({
    bookTitle: "Lantern Shed lion's mane",
    grainMoisture: 0.12,
    supplementMoisture: 0.09,
    normalLossRate: 0.06,
    jarMillilitres: 250,
  });
});

test.each<[string, string, string, Partial<Settings>]>([
  ["grain_moisture", "12 %", "", { grainMoisture: 0.12 }],
  ["grain_moisture", "13", "%", { grainMoisture: 0.13 }],
  ["Grain moisture", "0.5", "%", { grainMoisture: 0.005 }],
  ["interval_level", "0.95", "", { intervalLevel: 0.95 }],
  ["significance_level", "0.05", "", { significanceLevel: 0.05 }],
  ["confidence level", "90", "", { intervalLevel: 0.9 }],
  ["near_optimal_share", "0.02", "", { nearOptimalShare: 0.02 }],
  ["decimal mark", ",", "", { decimalMark: "comma" }],
  ["date format", "DD/MM/YYYY", "", { dateOrder: "day first" }],
  ["date_order", "mdy", "", { dateOrder: "month first" }],
  ["temperature_unit", "°F", "", { temperatureUnit: "F" }],
  ["weight unit", "ounces", "", { massUnit: "oz" }],
  ["display_units", "imperial", "", { displayUnits: "us" }],
  ["currency", "€", "", { currency: "EUR" }],
  ["currency", "usd", "", { currency: "USD" }],
  ["currency", "JPY", "", { currency: "JPY", currencyDecimals: 0 }],
  ["syringe_ml", "10 cc", "", { syringeMillilitres: 10 }],
  ["jar_ml", "0.5", "L", { jarMillilitres: 500 }],
  ["fruiting_high_c", "75 F", "", { fruitingHighCelsius: 23.8888888889 }],
  ["shelf places", "40 trays", "", { shelfPlaces: 40 }],
  ["owner_labour_rate", "€16,50", "", { ownerLabourRate: 16.5 }],
  ["hourly rate", "16 per hour", "", { ownerLabourRate: 16 }],
  ["grian_moisture", "14 %", "", { grainMoisture: 0.14 }],
  ["grainMoisture", "14 %", "", { grainMoisture: 0.14 }],
  ["report_date", "4 March 2026", "", { reportDate: "2026-03-04" }],
  ["normal_loss_base", "good trays", "", { normalLossBase: "good" }],
])("setting %s = %s %s", async (key, value, unit, expected) => {
  const { settings, issues } = await line(key, value, unit);
  expect(issues.filter(({ severity }) => severity === "error" || severity === "warning")).toEqual([]);
  expect(settings).toMatchObject(expected);
});

test.each<[string, string, string, string]>([
  ["grain_moisture", "0.12", "bare-share", "grainMoisture"],
  ["grain_moisture", "75 %", "out-of-range", "grainMoisture"],
  ["interval_level", "20", "out-of-range", "intervalLevel"],
  ["shelf_places", "2.5", "not-a-whole-number", "shelfPlaces"],
  ["shelf_places", "many", "not-a-number", "shelfPlaces"],
  ["currency", "shells", "unknown-currency", "currency"],
  ["locale", "not a tag!", "unknown-locale", "locale"],
  ["decimal_mark", "semicolon", "unknown-answer", "decimalMark"],
  ["report_date", "3/4/26", "not-a-date", "reportDate"],
  ["syringe_ml", "10 g", "wrong-unit", "syringeMillilitres"],
])("setting %s = %s is flagged and the default kept", async (key, value, rule, property) => {
  const { settings, issues } = await line(key, value);
  expect(issues).toMatchObject([{ rule, severity: "error", row: 2, raw: value, file: "settings.csv" }]);
  expect(settings[property as keyof Settings]).toBe(defaultSettings[property as keyof Settings]);
});

test("percent_style, wherever it stands, decides what a bare share is", async () => {
  expect((await read("key,value\ngrain_moisture,0.12\npercent_style,fraction\n")).settings.grainMoisture).toBe(0.12);
  expect((await read("key,value\ngrain_moisture,0.12\npercent_style,percent\n")).settings.grainMoisture).toBe(0.0012);
});

test("a key that is no longer used is accepted, and said to be so", async () => {
  const { issues } = await line("minimum_trays_per_arm", "4");
  expect(issues).toMatchObject([{ rule: "retired-setting", severity: "note", raw: "minimum_trays_per_arm" }]);
});

test("an unknown key is flagged with the nearest; a key set twice says so; ranges the wrong way round keep the defaults", async () => {
  const unknown = await line("moisture of the straw", "12 %");
  expect(unknown.issues).toMatchObject([
    { rule: "unknown-setting", severity: "warning", raw: "moisture of the straw", expected: "perhaps grain_moisture" },
  ]);
  const twice = await read("key,value\nshelf_places,40\nshelf places,50\n");
  expect(twice.settings.shelfPlaces).toBe(50);
  expect(twice.issues).toMatchObject([{ rule: "setting-twice", severity: "warning", row: 3 }]);
  const reversed = await read("key,value\ndrying_ratio_low,12\ndrying_ratio_high,5\n");
  expect(reversed.issues).toMatchObject([{ rule: "setting-range-reversed" }]);
  expect(reversed.settings.dryingRatioLow).toBe(defaultSettings.dryingRatioLow);
});

test("a sheet without a header, and one with a setting a column", async () => {
  expect((await read("currency,USD\nshelf_places,12\n")).settings).toMatchObject({ currency: "USD", shelfPlaces: 12 });
  expect((await read("currency,shelf_places,book_title\nUSD,12,My shelf\n")).settings).toMatchObject({
    currency: "USD",
    shelfPlaces: 12,
    bookTitle: "My shelf",
  });
});

test("any keys and values leave every setting within its range", async () => {
  const key = fc.oneof(
    fc.constantFrom(...settingDefinitions.map((definition) => definition.key)),
    fc.string({ maxLength: 10 }),
  );
  const value = fc.oneof(
    fc.constantFrom("0.5", "-1", "1e9", "12 %", "€", "C", "comma", "#REF!", "1,234", "~3"),
    fc.string({ maxLength: 10 }),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(key, value, fc.constantFrom("", "%", "mL", "g")), { maxLength: 6 }), (lines) => {
      const { settings } = readSettings(tableOf("settings.csv", ["key", "value", "unit"], lines), "settings.csv");
      for (const { property, kind, choices, least, most } of settingDefinitions) {
        const found = settings[property];
        if (kind === "choice") expect([...choices!, ""]).toContain(found);
        if (typeof found !== "number" || found === defaultSettings[property]) continue;
        const shown = kind === "percent" ? found * 100 : found;
        expect(shown).toBeGreaterThanOrEqual((least ?? -Infinity) - 1e-9);
        expect(shown).toBeLessThanOrEqual((most ?? Infinity) + 1e-9);
      }
    }),
  );
});

test.each([
  ["drying_cost_per_kg_fresh", "0.25", "per lb fresh", "dryingCostPerKgFresh", 0],
  ["drying_cost_per_kg_fresh", "0.25", "€/kg", "dryingCostPerKgFresh", 0.25],
  ["drying_cost_per_kg_fresh", "0.25", "per kg fresh", "dryingCostPerKgFresh", 0.25],
  ["owner_labour_rate", "15", "EUR", "ownerLabourRate", 15],
  ["owner_labour_rate", "15", "€/h", "ownerLabourRate", 15],
  ["owner_labour_rate", "15", "an hour", "ownerLabourRate", 15],
  ["owner_labour_rate", "120", "a day", "ownerLabourRate", 0],
] as const)("%s %s with the unit %s beside it", async (key, value, unit, property, expected) => {
  const { settings, unread } = await line(key, value, unit);
  expect(settings[property]).toBe(expected);
  // a rate of another unit is not counted, and what lacks it says so
  expect(unread.map(({ name }) => name)).toEqual(expected === 0 ? [key] : []);
});

test("a rate that is set twice, differently, puts costs in doubt; other settings do not", async () => {
  const { unread } = await read("key,value\nowner_labour_rate,15\nowner_labour_rate,18\nseed,1\nseed,2\n");
  expect(unread).toMatchObject([{ name: "owner_labour_rate", inUse: true, source: { row: 3 } }]);
});

// What a careful person reads from a sheet of settings. Common practice, no source.
test.each([
  ["owner_labour_rate,14/h", { ownerLabourRate: 14 }],
  ["My hourly rate,14 per hour", { ownerLabourRate: 14 }],
  ["Stundenlohn,14.50", { ownerLabourRate: 14.5 }],
  ["drying_cost_per_kg_fresh,0.60 per kg", { dryingCostPerKgFresh: 0.6 }],
  ["owner_labour_rate,£14/hour", { ownerLabourRate: 14, currency: "GBP" }],
  ["trays per load: 8,", { traysPerLoad: 8 }],
])("%s", async (typed, expected) => {
  const { settings, unread } = await read(`key,value\n${typed}\n`);
  expect(settings).toEqual({ ...defaultSettings, ...expected });
  expect(unread).toEqual([]);
});

test.each(["rent,60", "electricity price,0.30", "Miete,60"])(
  "%s among settings is a cost that is missing",
  async (typed) => {
    const { unread } = await read(`key,value\n${typed}\n`);
    expect(unread).toMatchObject([{ sheet: "settings", name: typed.split(",")[0], inUse: false }]);
  },
);

test("a rate in another currency than the book states is refused", async () => {
  const { settings, issues, unread } = await read("key,value\ncurrency,EUR\nowner_labour_rate,$16\n");
  expect(settings).toEqual(defaultSettings);
  expect(issues).toMatchObject([{ row: 3, rule: "two-currencies", severity: "error", setting: "currency" }]);
  expect(unread).toMatchObject([{ name: "owner_labour_rate", inUse: false }]);
});
