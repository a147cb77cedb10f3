import fc from "fast-check";
import { expect, test } from "vitest";
import { cleanBook } from "../../../src/cleaning/clean-book.ts";
import { pinsWithoutColumn } from "../../../src/cleaning/columns/plan-columns.ts";
import { chamberOfFile, logColumns } from "../../../src/cleaning/side-sheets/log-columns.ts";
import { parseTimestamp } from "../../../src/cleaning/side-sheets/parse-timestamp.ts";
import { readColumnPins } from "../../../src/cleaning/side-sheets/read-column-pins.ts";
import { readTemperatureLog } from "../../../src/cleaning/side-sheets/read-temperature-log.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { sheet } from "../book-of.ts";
import { tableOf, tableOfText } from "./table-of-text.ts";

test("columns.csv: canonical keys, labels, factor and unread, units by any name", async () => {
  const text =
    "file,header,field,unit\nspring.csv,Wt,fresh_g,ounces\n*,Spawn mL,Inoculum,\n,Brand,factor,\n,Colour,ignore,\n,Later,,\n,Dry wt,dry weigth,g\n";
  const { pins, issues } = readColumnPins([await tableOfText(text, "columns.csv")]);
  expect(pins).toMatchObject([
    { file: "spring.csv", header: "Wt", field: "fresh_g", unit: "oz" },
    { file: "", header: "Spawn mL", field: "inoculum_ml", unit: "" },
    { file: "", header: "Brand", field: "factor", unit: "" },
    { file: "", header: "Colour", field: "unread", unit: "" },
    { file: "", header: "Dry wt", field: "dry_g", unit: "g" },
  ]);
  expect(issues.map(({ severity }) => severity)).toEqual(["change", "change", "change"]);
});

test.each([
  ["no such field", "x,Wt,moon_g,", "unknown-field", "field"],
  ["a unit of something else", "x,Wt,fresh_g,mL", "unknown-unit", "unit"],
  ["a unit for text", "x,Wt,strain,g", "unknown-unit", "unit"],
  ["no header", "x,,fresh_g,", "missing", "header"],
])("columns.csv refused: %s", async (_, line, rule, column) => {
  const { pins, issues, leftOut } = readColumnPins([
    await tableOfText(`file,header,field,unit\n${line}\n`, "columns.csv"),
  ]);
  expect(pins).toEqual([]);
  expect(issues).toMatchObject([{ rule, column, row: 2, severity: "error" }]);
  expect(leftOut.length).toBe(1);
});

test("columns.csv: a line about a column that is not there is said", async () => {
  const { pins } = readColumnPins([
    await tableOfText(
      "file,header,field,unit\nspring.csv,Wt,fresh_g,\n,Wet,fresh_g,\nautumn.csv,Wt,dry_g,\n,x,unread,\n",
      "columns.csv",
    ),
  ]);
  const read = pinsWithoutColumn(pins, [{ file: "harvests/spring.csv", header: "wt " }]);
  expect(read).toMatchObject([
    {
      file: "columns.csv",
      row: 3,
      raw: "Wet",
      severity: "warning",
      reason: expect.stringMatching(/^no harvest sheet/),
    },
    {
      file: "columns.csv",
      row: 4,
      raw: "Wt",
      severity: "warning",
      reason: expect.stringMatching(/^the sheet it names/),
    },
    { file: "columns.csv", row: 5, raw: "x", severity: "note" },
  ]);
});

test("columns.csv: the same column pinned two ways; a sheet without the needed columns", async () => {
  const { pins, issues } = readColumnPins([
    await tableOfText("header,field\nWt,fresh_g\nwt,dry_g\nWt,fresh_g\n", "columns.csv"),
  ]);
  expect(pins.length).toBe(1);
  expect(issues).toMatchObject([{ rule: "pinned-twice", row: 3 }]);
  expect(readColumnPins([await tableOfText("a,b\nx,y\n")]).issues.at(-1)).toMatchObject({ rule: "missing-column" });
});

const open = { order: "", epoch: "" } as const;
test.each([
  ["2026-03-04 13:30", "2026-03-04T13:30"],
  ["2026-03-04T13:30:45.123", "2026-03-04T13:30"],
  ["2026-03-04T13:30:00Z", "2026-03-04T13:30"],
  ["2026-03-04T13:30+01:00", "2026-03-04T13:30"],
  ["25/3/2026 1:05 pm", "2026-03-25T13:05"],
  ["25.03.2026, 00:10", "2026-03-25T00:10"],
  ["4 Mar 2026 12:00 AM", "2026-03-04T00:00"],
  ["March 4, 2026 9 am", "2026-03-04T09:00"],
  ["2026-03-04", "2026-03-04T00:00"],
  // 2026-03-04 is day 46085 of the 1900 system; 1772631000 s is 2026-03-04 13:30 UTC: arithmetic
  ["1772631000", "2026-03-04T13:30"],
  ["1772631000000", "2026-03-04T13:30"],
])("timestamp %s", (text, at) => {
  expect(parseTimestamp(text, open)).toMatchObject({ kind: "moment", at });
});
test.each([
  ["46085.5625", { order: "", epoch: "1900" }, { kind: "moment", at: "2026-03-04T13:30" }],
  ["3/4/2026 13:30", open, { kind: "ambiguous", dayFirst: "2026-04-03T13:30", monthFirst: "2026-03-04T13:30" }],
  ["3/4/2026 13:30", { order: "month first", epoch: "" }, { kind: "moment", at: "2026-03-04T13:30" }],
  ["46085.5", open, { kind: "serial" }],
  ["2026-03-04 25:00", open, { kind: "unreadable" }],
  ["2026-02-30 10:00", open, { kind: "unreadable" }],
  ["soon", open, { kind: "unreadable" }],
  ["", open, { kind: "missing" }],
] as const)("timestamp %s by agreement %j", (text, conventions, expected) => {
  expect(parseTimestamp(text, conventions)).toMatchObject(expected);
});

async function log(text: string, path = "temperature.csv", settings: Partial<Settings> = {}) {
  return readTemperatureLog([await tableOfText(text, path)], { ...defaultSettings, ...settings });
}

test("a log in °C with a chamber column", async () => {
  const { readings, issues } = await log(
    "Time,Temperature (°C),Room\n2026-03-04 13:30,18.5,tent\n2026-03-04 14:30,18.7,fridge\n",
  );
  expect(readings).toEqual([
    { at: "2026-03-04T13:30", celsius: 18.5, chamber: "tent" },
    { at: "2026-03-04T14:30", celsius: 18.7, chamber: "fridge" },
  ]);
  expect(issues).toEqual([]);
});

test("a log in °F by its numbers, date and time apart, decimal comma, the chamber from the file's name", async () => {
  const { readings, issues } = await log(
    "Date;Clock;Temp\n4.3.2026;13:30;64,4\n25.3.2026;1:30 pm;71,6\n",
    "logs/temperature-tent-2.csv",
  );
  expect(readings).toEqual([
    { at: "2026-03-04T13:30", celsius: 18, chamber: "tent 2" },
    { at: "2026-03-25T13:30", celsius: 22, chamber: "tent 2" },
  ]);
  expect(issues.map(({ rule }) => rule)).toEqual(["unit-of-column"]);
});

test("a column for each chamber, units in headers, columns that are none left aside", async () => {
  const { readings, issues } = await log(
    "timestamp,Tent 1 temp (°F),Fridge °C,Humidity %,Max temp °C\n2026-03-04 10:00,68,4,90,22\n",
  );
  expect(readings).toEqual([
    { at: "2026-03-04T10:00", celsius: 20, chamber: "Tent 1" },
    { at: "2026-03-04T10:00", celsius: 4, chamber: "Fridge" },
  ]);
  expect(issues.filter(({ rule }) => rule === "unread-column").map(({ raw }) => raw)).toEqual([
    "Humidity %",
    "Max temp °C",
  ]);
});

// common practice, no source
test("columns of nothing but chambers are their temperatures, in a book by the name of the sheet", async () => {
  const text = "Date,Time,Tent A,Tent B,Battery\n3/13/2026,12:00 AM,64.4,66.2,98\n3/13/2026,4:00 AM,68,71.6,97\n";
  const harvest = "Tray,LC ml,Fresh g\nT1,5,200\nT2,10,220\n";
  const book = await cleanBook([sheet("temps.csv", text), sheet("harvest.csv", harvest)]);
  expect(book.temperatureLog.map(({ celsius, chamber }) => [celsius, chamber])).toEqual([
    [18, "Tent A"],
    [19, "Tent B"],
    [20, "Tent A"],
    [22, "Tent B"],
  ]);
  expect(book.trays).toHaveLength(2);
  expect(book.issues.filter(({ rule }) => rule === "unread-column").map(({ raw }) => raw)).toEqual(["Battery"]);
});

test("the log running in time decides day and month", async () => {
  const daily = (dates: string[]) => `Time,Temp °C\n${dates.map((date) => `${date} 10:00,18`).join("\n")}\n`;
  const dayFirst = await log(daily(["3/4/26", "4/4/26", "5/4/26"]));
  expect(dayFirst.readings.map(({ at }) => at)).toEqual(["2026-04-03T10:00", "2026-04-04T10:00", "2026-04-05T10:00"]);
  const monthFirst = await log(daily(["4/3/26", "4/4/26", "4/5/26"]));
  expect(monthFirst.readings.map(({ at }) => at)).toEqual(["2026-04-03T10:00", "2026-04-04T10:00", "2026-04-05T10:00"]);
  const open = await log(daily(["3/4/26"]));
  expect(open.issues).toMatchObject([{ rule: "day-or-month", setting: "date_order", row: 2, severity: "warning" }]);
  expect(open.leftOut.length).toBe(1);
  expect((await log(daily(["3/4/26"]), "t.csv", { dateOrder: "day first" })).readings[0]!.at).toBe("2026-04-03T10:00");
});

test("what cannot be read or cannot be: sensor faults, words, a scale nothing decides", async () => {
  const faults = await log(
    "Time,Temp\n2026-03-04 10:00,18\n2026-03-04 11:00,-127\n2026-03-04 12:00,85\n2026-03-04 13:00,error\n2026-03-04 14:00,\nsoon,18\n",
    "log.csv",
    { temperatureUnit: "C" },
  );
  expect(faults.readings).toEqual([{ at: "2026-03-04T10:00", celsius: 18 }]);
  expect(faults.issues.map(({ rule, row }) => [rule, row])).toEqual([
    ["impossible-temperature", 3],
    ["impossible-temperature", 4],
    ["not-a-temperature", 5],
    ["not-a-date", 7],
  ]);
  expect(faults.leftOut.map(({ row }) => row)).toEqual([3, 4, 5, 7]);
  const either = await log("Time,Temp\n2026-03-04 10:00,38\n2026-03-04 11:00,38.5\n");
  expect(either.readings).toEqual([]);
  expect(either.issues).toMatchObject([{ rule: "bare-number", setting: "temperature_unit" }, { rule: "bare-number" }]);
  const none = await log("Time,Weight\n2026-03-04 10:00,38\n");
  expect(none.issues).toMatchObject([{ rule: "missing-column", severity: "error" }]);
});

test("many rows of one trouble are counted, none is lost", async () => {
  const rows = Array.from({ length: 1000 }, (_, index) => `x${index},18`);
  const { issues, leftOut } = await log(`Time,Temp °C\n${rows.join("\n")}\n`);
  expect(issues.length).toBe(201);
  expect(issues.at(-1)!.reason).toContain("800 further");
  expect(leftOut.length).toBe(1000);
});

test.each([
  ["temperature.csv", undefined],
  ["logs/temperature-log-2026-03.csv", undefined],
  ["logs/fruiting-tent_temps.csv", "fruiting tent"],
  ["temperature/log.xlsx > Fridge", "Fridge"],
])("chamber named by %s", (file, chamber) => {
  expect(chamberOfFile(file)).toBe(chamber);
});

test.each([
  [["Temp", "When"], { date: 1, temperatures: [{ index: 0 }] }],
  [["Date", "Time", "°F"], { date: 0, clock: 1, temperatures: [{ index: 2, unit: "F" }] }],
  [["datetime_utc", "temp_c"], { date: 0, temperatures: [{ index: 1, unit: "C" }] }],
])("log columns of %j", (header, expected) => {
  expect(logColumns(header)).toMatchObject(expected);
});

test("any cells give readings in range or left-out rows", async () => {
  const cell = fc.oneof(
    fc.constantFrom("2026-03-04 10:00", "3/4/26", "18", "71 F", "18 C", "-127", "", "n/a", "~18", "10-12", "46085.5"),
    fc.string({ maxLength: 14 }),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(cell, cell), { maxLength: 8 }), (rows) => {
      const { readings, leftOut } = readTemperatureLog([tableOf("log.csv", ["Time", "Temp"], rows)], defaultSettings);
      expect(readings.length + leftOut.length).toBeLessThanOrEqual(rows.length);
      for (const { at, celsius } of readings) {
        expect(at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/);
        expect(celsius).toBeGreaterThanOrEqual(-40);
        expect(celsius).toBeLessThanOrEqual(60);
      }
    }),
  );
});

test("a cell that is all spaces or all digits is given up at once", () => {
  for (const text of [`x${" ".repeat(100_000)}10:00`, "1".repeat(100_000), `2026-03-04${",".repeat(50_000)} 10:00`]) {
    expect(parseTimestamp(text, open)).toEqual({ kind: "unreadable" });
  }
});

// how people write a time of day: noon is 12 pm and midnight 12 am; a day ends at 23:59. Common practice, no source
test.each([
  ["2026-03-04 12:05 am", "00:05"],
  ["2026-03-04 12:05 pm", "12:05"],
  ["2026-03-04 11:59 p.m.", "23:59"],
  ["2026-03-04 1 a", undefined],
  ["2026-03-04 1 am", "01:00"],
  ["2026-03-04 12 pm", "12:00"],
  ["2026-03-04 23:59", "23:59"],
  ["2026-03-04 24:00", undefined],
  ["2026-03-04 10:60", undefined],
  ["2026-03-04 0:10 am", undefined],
  ["2026-03-04 13:10 pm", undefined],
  ["2026-03-04 9h05", "09:05"],
  ["2026-03-04 9.05", "09:05"],
])("the time in %s is %s", (text, time) => {
  const reading = parseTimestamp(text, open);
  expect(reading.kind === "moment" ? reading.at.slice(11) : undefined).toBe(time);
});

test("part of a day in a spreadsheet's day number, a zone and a date alone are told apart", () => {
  const serial = (text: string) => parseTimestamp(text, { order: "", epoch: "1900" });
  expect(serial("46085.999999")).toEqual({ kind: "moment", at: "2026-03-04T23:59", zoned: false, timeless: false });
  expect(serial("46085,25")).toMatchObject({ at: "2026-03-04T06:00" });
  expect(serial("46085")).toMatchObject({ at: "2026-03-04T00:00", timeless: true });
  expect(parseTimestamp("2026-03-04 10:00 UTC", open)).toMatchObject({ zoned: true, timeless: false });
  expect(parseTimestamp("2026-03-04 10:00", open)).toMatchObject({ zoned: false, timeless: false });
  expect(parseTimestamp("2026-03-04", open)).toMatchObject({ zoned: false, timeless: true });
  expect(parseTimestamp("1772631000", open)).toMatchObject({ zoned: true, timeless: false });
});

test("a log decides day and month where it runs in time one way only, or by far the smaller steps", async () => {
  const read = async (...dates: string[]) =>
    (await log(`Time,Temp °C\n${dates.map((date) => `${date} 10:00,18`).join("\n")}\n`)).readings.map(({ at }) =>
      at.slice(0, 10),
    );
  // both ways rise: 1 day against 30, and the other way round
  expect(await read("3/4/26", "4/4/26")).toEqual(["2026-04-03", "2026-04-04"]);
  expect(await read("4/3/26", "4/4/26")).toEqual(["2026-04-03", "2026-04-04"]);
  // newest first is in time as well
  expect(await read("5/4/26", "4/4/26", "3/4/26")).toEqual(["2026-04-05", "2026-04-04", "2026-04-03"]);
  // by days the steps are 9 and 1, by months 275 back: only one way runs in time
  expect(await read("1/10/26", "10/10/26", "11/10/26")).toEqual(["2026-10-01", "2026-10-10", "2026-10-11"]);
  // neither way runs in time, and the steps are alike: it is asked
  expect(await read("2/3/26", "3/2/26", "2/3/26")).toEqual([]);
  expect(await read("2/3/26", "3/4/26")).toEqual([]);
});

test("a log's numbers are of the scale that nineteen in twenty of those that show it are", async () => {
  const scales = async (fahrenheit: number, celsius: number) => {
    const rows = [...Array.from({ length: fahrenheit }, () => 70), ...Array.from({ length: celsius }, () => 20)];
    const text = rows.map(
      (value, at) => `2026-03-04 ${String(at % 24).padStart(2, "0")}:${at < 24 ? 10 : 40},${value}`,
    );
    const { readings } = await log(`Time,Temp\n${text.join("\n")}\n`);
    return [...new Set(readings.map(({ celsius: read }) => Math.round(read)))];
  };
  expect(await scales(19, 1)).toEqual([21, -7]);
  expect(await scales(18, 1)).toEqual([]);
  expect(await scales(1, 19)).toEqual([20]);
  expect(await scales(1, 18)).toEqual([]);
});

test("a sensor's reading is used from -40 to 60 °C", async () => {
  const { readings, leftOut } = await log(
    "Time,Temp °C\n2026-03-04 10:00,-40\n2026-03-04 11:00,60\n2026-03-04 12:00,-40.1\n2026-03-04 13:00,60.1\n",
  );
  expect(readings.map(({ celsius }) => celsius)).toEqual([-40, 60]);
  expect(leftOut.map(({ row }) => row)).toEqual([4, 5]);
});

// common practice, no source
test.each([
  [["Zeit", "Temperatur °C", "Feuchte %"], 0, [undefined]],
  [["Fecha", "Hora", "Temperatura"], 0, [undefined]],
  [["horodatage", "Température (°C)"], 0, [undefined]],
] as const)("the columns of a log %j", (header, date, chambers) => {
  const found = logColumns(header)!;
  expect(found.date).toBe(date);
  expect(found.temperatures.map(({ chamber }) => chamber)).toEqual(chambers);
});
