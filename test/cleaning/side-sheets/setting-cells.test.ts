import { describe, expect, test } from "vitest";
import { readSettings } from "../../../src/cleaning/side-sheets/read-settings.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings, settingDefinitions } from "../../../src/records/setting-definitions.ts";
import { tableOf } from "./table-of-text.ts";

function read(header: string, ...lines: string[]) {
  const names = header.split("|");
  const rows = lines.map((line) => names.map((_, index) => line.split("|")[index] ?? ""));
  return readSettings(tableOf("settings.csv", names, rows), "settings.csv");
}
const line = (typed: string) => read("key|value|unit", typed);
const changed = ({ settings }: { settings: Settings }) =>
  Object.fromEntries(
    Object.entries(settings).filter(([key, value]) => value !== defaultSettings[key as keyof Settings]),
  );

// one answer of each kind, in the words people use: docs say which answers there are
test.each<[string, Partial<Settings>, string?]>([
  ["book_title|My shed", { bookTitle: "My shed" }],
  ["locale|de_DE", { locale: "de-DE" }],
  ["locale|pt-br", { locale: "pt-BR" }],
  ["decimal_mark|.", { decimalMark: "point" }, "setting-answer"],
  ["decimal_mark|Komma", { decimalMark: "comma" }, "setting-answer"],
  ["decimal_mark|comma", { decimalMark: "comma" }],
  ["percent_style|%", { percentStyle: "percent" }, "setting-answer"],
  ["percent_style|share", { percentStyle: "fraction" }, "setting-answer"],
  ["serial_dates|mac", { serialDates: "1904" }, "setting-answer"],
  ["report_date|2026-03-04", { reportDate: "2026-03-04" }],
  ["report_date|4 March 2026", { reportDate: "2026-03-04" }, "date-format"],
  ["currency|usd", { currency: "USD" }, "currency-code"],
  ["currency|USD", { currency: "USD" }],
  ["currency|$", { currency: "USD" }, "currency-code"],
  ["currency|zł", { currency: "PLN" }, "currency-code"],
  ["currency|JPY", { currency: "JPY", currencyDecimals: 0 }],
  ["shelf_places|48", { shelfPlaces: 48 }],
  ["shelf_places|48 trays", { shelfPlaces: 48 }],
  ["shelf_places|48|places", { shelfPlaces: 48 }],
  ["shelf_places|48 places|places", { shelfPlaces: 48 }],
  ["owner_labour_rate|16.50 EUR", { ownerLabourRate: 16.5 }],
  ["owner_labour_rate|16 / h", { ownerLabourRate: 16 }],
  ["jar_ml|0.3|L", { jarMillilitres: 300 }, "unit-of-column"],
  ["jar_ml|0.3 L", { jarMillilitres: 300 }, "unit-in-cell"],
  ["fruiting_high_c|25", { fruitingHighCelsius: 25 }],
  ["grain_moisture|13|%", { grainMoisture: 0.13 }],
  ["grain_moisture|13|percent", { grainMoisture: 0.13 }],
  ["grain_moisture|0.13|share of one", { grainMoisture: 0.13 }],
  ["grain_moisture|0.13|fraction", { grainMoisture: 0.13 }],
  ["interval_level|0.9", { intervalLevel: 0.9 }, "share-or-percent"],
])("%s", (typed, expected, rule) => {
  const found = line(typed);
  expect(changed(found)).toEqual(expected);
  expect(found.issues.map(({ severity }) => severity).filter((severity) => severity !== "change")).toEqual([]);
  if (rule !== undefined && !rule.startsWith("unit-")) expect(found.issues.map((issue) => issue.rule)).toEqual([rule]);
  if (rule === undefined && !/EUR|trays|places \/|\/ h|0\.13\|/.test(typed)) expect(found.issues).toEqual([]);
  for (const { row, column, raw, result } of found.issues) {
    expect([row, column, raw]).toEqual([2, "value", typed.split("|")[1]]);
    expect(result).not.toBe("");
  }
});

test.each([
  ["shelf_places|0", "out-of-range", "shelf_places, 1 to"],
  ["shelf_places|2.5", "not-a-whole-number", "shelf_places, 1 to"],
  ["shelf_places|-3", "out-of-range", "shelf_places, 1 to"],
  ["shelf_places|>3", "", "shelf_places"],
  [`shelf_places|${"1".repeat(121)}`, "not-a-number", "a number for shelf_places"],
  ["seed|1.5", "not-a-whole-number", "seed"],
  ["first_year|1989", "out-of-range", "first_year, 1990 to 2200"],
  ["first_year|2201", "out-of-range", "first_year, 1990 to 2200"],
  ["currency_decimals|5", "out-of-range", "currency_decimals, 0 to 4"],
  ["currency|kr", "unknown-currency", "ISO 4217"],
  ["currency|shells", "unknown-currency", "ISO 4217"],
  ["locale|not a tag!", "unknown-locale", "language tag"],
  ["locale|xx", "unknown-locale", "language tag"],
  ["report_date|3/4/26", "not-a-date", "2026-03-04"],
  ["layout|.", "unknown-answer", "one of: rows, columns, long, cells"],
  ["layout|%", "unknown-answer", "one of: rows, columns, long, cells"],
  ["layout|sideways", "unknown-answer", "one of: rows, columns, long, cells"],
  ["temperature_unit|K", "unknown-answer", "one of: C, F"],
  ["grain_moisture|0.12", "bare-share", "12 %"],
  ["grain_moisture|60.1 %", "out-of-range", "grain_moisture"],
])("%s is refused, and says what is kept", (typed, rule, expected) => {
  const { settings, issues, stated } = line(typed);
  expect(settings).toEqual(defaultSettings);
  expect(stated.size).toBe(1);
  const [key = "", raw] = typed.split("|");
  expect(issues).toMatchObject([{ row: 2, column: "value", raw, severity: "error" }]);
  const [issue] = issues;
  if (rule !== "") expect(issue!.rule).toBe(rule);
  expect(issue!.expected).toContain(expected);
  const { default: byDefault } = settingDefinitions.find((one) => one.key === key)!;
  expect(
    issue!.reason.endsWith(byDefault === "" ? "the setting stays open" : `the default, ${byDefault}, was kept`),
  ).toBe(true);
  expect(issue!.action).toBe(`Correct ${key}, or empty it${byDefault === "" ? "" : " to keep the default"}`);
  expect(issue!.setting).toBe(rule === "bare-share" ? "percent_style" : key);
});

test("an end of a setting's range is within it, and so is its default beyond the range", () => {
  for (const { key, property, kind, least, most, default: byDefault } of settingDefinitions) {
    if (kind === "text" || kind === "choice" || kind === "date") continue;
    for (const [end, step] of [
      [least!, -1],
      [most!, 1],
    ] as const) {
      const percent = kind === "percent" ? " %" : "";
      const within = line(`${key}|${end}${percent}`);
      expect(
        within.issues.filter(({ severity }) => severity === "error" && !/range-reversed/.test("")),
        key,
      ).toEqual(within.issues.filter(({ rule }) => rule === "setting-range-reversed"));
      const beyond = end + step;
      if (String(beyond) === byDefault) continue;
      expect(
        line(`${key}|${beyond}${percent}`).issues.map(({ rule }) => rule),
        `${key} ${beyond}`,
      ).toContain("out-of-range");
      expect(line(`${key}|${beyond}${percent}`).settings[property]).toBe(defaultSettings[property]);
    }
    expect(changed(line(`${key}|${byDefault}${kind === "percent" ? " %" : ""}`)), key).toEqual({});
  }
});

describe("how the lines lie in the sheet", () => {
  const both = { shelfPlaces: 48, seed: 7 };
  test.each([
    ["columns in another order", read("note|unit|value|setting", "x||48|shelf places", "|| 7 | seed ")],
    ["without a header", read("shelf_places|48", "seed|7")],
    ["without a header, with units", read("shelf_places|48|trays", "seed|7|")],
    ["a setting a column", read("shelf_places|seed", "48|7", "50|8")],
    ["with a line of none", read("key|value", "|9", "shelf_places|48", "seed|7", "jar_ml|")],
  ])("%s", (_, found) => {
    expect(changed(found)).toEqual(both);
    expect([...found.stated].sort()).toEqual(["seed", "shelfPlaces"]);
    expect(found.issues).toEqual([]);
  });
  test("a single column of one setting", () => {
    expect(changed(read("seed", "7"))).toEqual({ seed: 7 });
    expect(changed(read("seed|colour", "7|red"))).toEqual({});
  });
  test("one key without a value is a line like others", () => {
    expect(changed(read("seed|7", "shelf_places|48"))).toEqual(both);
  });
});

test("how a number was read is told with what it is in the setting's unit", () => {
  const changes = (...lines: string[]) =>
    read("key|value|unit", ...lines).issues.map(({ rule, severity, result, reason }) => [
      rule,
      severity,
      result,
      reason !== "",
    ]);
  expect(changes("jar_ml|0.3 L")).toEqual([[expect.any(String), "change", "300 mL", true]]);
  expect(changes("owner_labour_rate|16,5")).toEqual([["decimal-comma", "change", "16.5 per hour", true]]);
  expect(changes("seed|7")).toEqual([]);
  expect(changes("planned_cooks|5 cooks|cooks")).toEqual([]);
  expect(changed(read("key|value", "decimal_mark|point", "owner_labour_rate|1,234"))).toMatchObject({
    ownerLabourRate: 1234,
  });
});

// the share of a percentage that only one reading leaves within the range: 50 to 99.9 % for an interval, 0.1 to 50 % for a test
test.each([
  ["interval_level|0.5", { intervalLevel: 0.5 }],
  ["interval_level|0.999", { intervalLevel: 0.999 }],
  ["significance_level|0.01", { significanceLevel: 0.01 }],
  ["significance_level|0.1", {}],
  ["significance_level|0.5", {}],
  ["interval_level|0.49", {}],
])("%s", (typed, expected) => {
  expect(changed(line(typed))).toEqual(expected);
});

test("a setting for one sheet is kept apart, and only that of its shape can be", () => {
  const found = read(
    "key|value|sheet",
    "layout|columns|spring.csv",
    "layout|rows|*",
    "seed|7|spring.csv",
    "first_year|1700|a",
    "fill_down|no| ",
  );
  expect(found.sheets).toEqual([{ sheet: "spring.csv", settings: { layout: "columns" } }]);
  expect(changed(found)).toEqual({ layout: "rows", ...(defaultSettings.fillDown === "no" ? {} : { fillDown: "no" }) });
  expect(found.issues).toMatchObject([
    {
      row: 4,
      column: "sheet",
      raw: "spring.csv",
      rule: "setting-for-one-sheet",
      severity: "warning",
      reason: expect.stringContaining("seed holds for the whole book"),
    },
    { row: 5, rule: "out-of-range" },
  ]);
});

test.each([
  "layout|columns",
  "tables|one",
  "section_titles|ignore",
  "fill_down|no",
  "summary_rows|keep",
  "joined_cells|apart",
  "sheet_role|harvest",
  "first_year|2024",
])("%s can be of one sheet", (typed) => {
  const { sheets, issues } = read("key|value|sheet", `${typed}|spring.csv`);
  expect(sheets).toHaveLength(1);
  expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
});

test("a setting twice: the last counts, which is said where they differ", () => {
  const twice = read("key|value", "seed|7", "seed|8", "random seed|8");
  expect(changed(twice)).toEqual({ seed: 8 });
  expect(twice.issues).toMatchObject([
    {
      row: 3,
      column: "value",
      raw: "8",
      result: "8",
      rule: "setting-twice",
      severity: "warning",
      setting: "seed",
      action: "Remove one of the lines; the other is in row 2",
    },
  ]);
});

test("names of settings: by meaning, misspelt, no longer used, unknown", () => {
  const about = (typed: string) =>
    line(typed).issues.map(({ row, column, raw, rule, severity, result, expected }) => ({
      row,
      column,
      raw,
      rule,
      severity,
      result,
      expected,
    }));
  const key = { row: 2, column: "key" };
  expect(about("wage|16")).toEqual([]);
  expect(about("shelfPlaces|48")).toEqual([]);
  expect(about("shelv_places|48")).toEqual([
    { ...key, raw: "shelv_places", rule: "setting-spelling", severity: "change", result: "shelf_places", expected: "" },
  ]);
  expect(about("minimum_trays_per_arm|4")).toEqual([
    { ...key, raw: "minimum_trays_per_arm", rule: "retired-setting", severity: "note", result: "", expected: "" },
  ]);
  expect(about("moisture of the straw|4")).toEqual([
    {
      ...key,
      raw: "moisture of the straw",
      rule: "unknown-setting",
      severity: "warning",
      result: "",
      expected: "perhaps grain_moisture",
    },
  ]);
  expect(about("zzz|4")).toMatchObject([{ rule: "unknown-setting", expected: "a key of the settings reference" }]);
  // short words are in many names
  expect(about("of|4")).toMatchObject([{ expected: "a key of the settings reference" }]);
});

test("what decides how others are read comes first, wherever it stands, and the log is in the order of the rows", () => {
  const found = read(
    "key|value",
    "cup_ml|230,5",
    "owner_labour_rate|1,234",
    "grain_moisture|0.14",
    "decimal_mark|comma",
    "percent_style|share",
  );
  expect(changed(found)).toEqual({
    cupMillilitres: 230.5,
    ownerLabourRate: 1.234,
    grainMoisture: 0.14,
    decimalMark: "comma",
    percentStyle: "fraction",
  });
  const rows = found.issues.map(({ row }) => row);
  expect(rows).toEqual([...rows].sort((a, b) => a - b));
  expect(changed(read("key|value", "report_date|3/4/26", "date_order|month first"))).toMatchObject({
    reportDate: "2026-03-04",
  });
  expect(changed(read("key|value", "owner_labour_rate|£16", "currency|GBP"))).toEqual({
    ownerLabourRate: 16,
    currency: "GBP",
  });
  expect(changed(read("key|value", "currency|JPY", "currency_decimals|3"))).toEqual({
    currency: "JPY",
    currencyDecimals: 3,
  });
});

test("what decides the costs and cannot be read is known to be missing", () => {
  const unread = (typed: string) => line(typed).unread;
  const of = (name: string, reason: string, inUse: boolean) => [
    { sheet: "settings", name, reason, source: { file: "settings.csv", row: 2 }, inUse },
  ];
  expect(unread("jar_ml|many")[0]).toMatchObject({ name: "jar_ml", inUse: true });
  expect(unread("trays_per_load|many")[0]).toMatchObject({ name: "trays_per_load", inUse: true });
  expect(unread("shelf_places|many")[0]).toMatchObject({ name: "shelf_places", inUse: true });
  expect(unread("normal_loss_rate|many")).toEqual(of("normal_loss_rate", "it cannot be read", true));
  expect(unread("owner_labour_rate|many")).toEqual(
    of("owner_labour_rate", "it cannot be read, and its default of 0 counts", false),
  );
  expect(unread("recovered_per_lost_tray|many")).toEqual(
    of("recovered_per_lost_tray", "it cannot be read, and its default of 0 counts", true),
  );
  expect(unread("seed|many")).toEqual([]);
  expect(unread("owner_labour_rate|16")).toEqual([]);
});

test.each([
  ["drying_ratio", 4, 15],
  ["colonisation_days", 3, 30],
  ["harvest_days", 10, 130],
  ["fruiting", 8, 30],
])("a range of %s the wrong way round keeps its defaults", (name, low, high) => {
  const key = (end: string) => (name === "fruiting" ? `${name}_${end}_c` : `${name}_${end}`);
  const of = (least: number, most: number) => read("key|value", `${key("low")}|${least}`, `${key("high")}|${most}`);
  expect(of(9, 12).issues).toEqual([]);
  for (const [least, most] of [
    [12, 12],
    [13, 12],
  ] as const) {
    const found = of(least, most);
    expect(changed(found)).toEqual({});
    expect(found.issues).toMatchObject([
      {
        column: "value",
        raw: `${least} to ${most}`,
        result: `${low} to ${high}`,
        rule: "setting-range-reversed",
        severity: "error",
        setting: key("low"),
        action: `Correct ${key("low")} or its high end`,
      },
    ]);
  }
});
