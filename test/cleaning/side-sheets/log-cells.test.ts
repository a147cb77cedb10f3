import { expect, test } from "vitest";
import { datesOf } from "../../../src/cleaning/side-sheets/dates-of.ts";
import { decimalMarkOf } from "../../../src/cleaning/side-sheets/decimal-mark-of.ts";
import { chamberOfFile, logColumns } from "../../../src/cleaning/side-sheets/log-columns.ts";
import { orderInTime } from "../../../src/cleaning/side-sheets/log-in-time.ts";
import { parseTimestamp } from "../../../src/cleaning/side-sheets/parse-timestamp.ts";
import { readTemperatureLog } from "../../../src/cleaning/side-sheets/read-temperature-log.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOf } from "./table-of-text.ts";

const table = (header: string, lines: string[], file = "log.csv") =>
  tableOf(
    file,
    header.split("|"),
    lines.map((line) => line.split("|")),
  );
const read = (header: string, lines: string[], settings: Partial<Settings> = {}, file?: string) =>
  readTemperatureLog([table(header, lines, file)], { ...defaultSettings, ...settings });

// headers of loggers' exports as people make them; common practice, no source
test.each([
  ["Temp (F)", "F"],
  ["Temp [°F]", "F"],
  ["Temp, deg. F", "F"],
  ["temp_f", "F"],
  ["°F", "F"],
  ["F", "F"],
  ["Fahrenheit", "F"],
  ["Air °F tent", "F"],
  ["Temperature/F", "F"],
  ["Temp (C)", "C"],
  ["temp_c", "C"],
  ["Temp deg C ", "C"],
  ["°C", "C"],
  ["C", "C"],
  ["Celsius", "C"],
  ["Temp ° C", "C"],
  ["Temperature", ""],
  ["Temp of shelf", ""],
  ["Temp basic", ""],
  ["Degrees C", "C"],
  ["deg F", "F"],
  ["Temp (degF)", "F"],
  ["Temp (deg.C)", "C"],
  ["Temp [c]", "C"],
  ["Temp, F ", "F"],
  ["Temp (° F) left", "F"],
  ["Temp f 2", ""],
  ["Temps", ""],
])("temperatures under “%s” are in %j", (header, unit) => {
  expect(logColumns(["Time", header])).toEqual({ date: 0, temperatures: [{ index: 1, header, unit }], unread: [] });
});

test.each([
  "Set point °C",
  "Setpoint °C",
  "Target temp",
  "Dew point °C",
  "Alarm °C",
  "Min temp",
  "Max °C",
  "High °C",
  "Low °C",
  "Humidity %",
  "RH",
  "Limit °C",
  "Colour",
  "Battery",
])("“%s” is no temperature of a chamber", (header) => {
  expect(logColumns(["Time", "Temp", header])).toMatchObject({ temperatures: [{ index: 1 }], unread: [2] });
  expect(logColumns(["Time", header])).toBeUndefined();
});

test.each([
  "Time",
  "Timestamp",
  "Time stamp",
  "Date time",
  "Date and time",
  "Datetime UTC",
  "Time (local)",
  "When",
  "Logged at",
  "Recorded",
  "Measured on",
  "Moment",
  "Created at",
  "Reading time",
  "Date",
  "Day",
])("“%s” is when it was", (header) => {
  expect(logColumns(["Temp", header])).toMatchObject({ date: 1, unread: [] });
  expect(logColumns(["Temp", header])).not.toHaveProperty("clock");
});

test.each(["Time", "Clock", "Time of day", "Hour", "Uhrzeit", "At"])(
  "beside a date, “%s” is the time of day",
  (clock) => {
    for (const date of ["Date", "Day", "Datum", "On"])
      expect(logColumns([date, clock, "Temp"])).toEqual({
        date: 0,
        clock: 1,
        temperatures: [{ index: 2, header: "Temp", unit: "" }],
        unread: [],
      });
    expect(logColumns([clock, "Date", "Temp"])).toMatchObject({ date: 1, clock: 0 });
  },
);

test.each([
  "Chamber",
  "Room",
  "Tent",
  "Zone",
  "Sensor",
  "Device",
  "Probe",
  "Location",
  "Place",
  "Fridge",
  "Incubator",
  "Logger",
  "Name",
  "Where",
  "Sensor name",
  "Device name",
])("“%s” names the chamber", (header) => {
  expect(logColumns(["Time", "Temp", header])).toMatchObject({ chamber: 2, unread: [] });
});

test("of two columns that could be one thing the first is read", () => {
  expect(logColumns(["Time", "When", "Temp", "Room", "Tent", ""])).toMatchObject({
    date: 0,
    chamber: 3,
    unread: [1, 4],
  });
  expect(logColumns(["Date", "Clock", "Hour", "Day", "Temp"])).toMatchObject({ date: 0, clock: 1, unread: [2, 3] });
  expect(logColumns(["Time", "Room"])).toBeUndefined();
  expect(logColumns(["Room", "Temp"])).toBeUndefined();
});

test.each<[string[], (string | undefined)[]]>([
  [
    ["Tent 2 temp (°C)", "Fridge °C"],
    ["Tent 2", "Fridge"],
  ],
  [
    ["Temp in the tent", "Temp of fridge"],
    ["tent", "fridge"],
  ],
  [
    ["tent_temp_c", "fridge_temp_c"],
    ["tent", "fridge"],
  ],
  [
    ["Temperature: left", "Temperature: right"],
    ["left", "right"],
  ],
  [
    ["Air temp", "Tent temp"],
    [undefined, "Tent"],
  ],
  [
    ["Temp", "Tent temp"],
    [undefined, "Tent"],
  ],
  [
    ["Tent  A, F", "Tent B / F"],
    ["Tent A", "Tent B"],
  ],
])("several columns of temperatures %j are of the chambers %j", (headers, chambers) => {
  const found = logColumns(["Time", ...headers])!;
  expect(found.temperatures.map(({ chamber }) => chamber)).toEqual(chambers);
  expect(found.unread).toEqual([]);
});

test.each([
  ["Temp", "Temp °C"],
  ["Temp 1", "Temp #2"],
  ["Tent temp", "tent °C"],
])("of %s and %s, which nothing tells apart, only the first is read", (...headers) => {
  const found = logColumns(["Time", ...headers, "Colour"])!;
  expect(found.temperatures.map(({ index }) => index)).toEqual([1]);
  expect(found.unread).toEqual([3, 2]);
});

test.each([
  ["temperature-tent-2.csv", "tent 2"],
  ["a/b/Fruiting_Room.temps.csv", "Fruiting Room"],
  ["log 2026-03-04 of the fridge.csv", "fridge"],
  ["20260304_export_tent.csv", "tent"],
  ["log.xlsx > Fridge", "Fridge"],
  ["tent.xlsx > Sheet1", "tent"],
  ["log.xlsx > Sheet 2", undefined],
  ["log.xlsx > 12", undefined],
  ["readings history 2026.csv", undefined],
  ["3.csv", undefined],
  ["tent", "tent"],
])("the file %s is of the chamber %s", (file, chamber) => {
  expect(chamberOfFile(file)).toBe(chamber);
});

const open = { order: "", epoch: "" } as const;
test.each([
  ["2026-03-04,13:30", "13:30"],
  ["2026-03-04, 13:30", "13:30"],
  ["2026-03-04T13:30", "13:30"],
  ["2026-03-04 13:30:59,5", "13:30"],
  ["2026-03-04 13:30:59.25", "13:30"],
  ["2026-03-04 13:30 +0100", "13:30"],
  ["2026-03-04 13:30-05:00", "13:30"],
  ["2026-03-04 13:30 GMT", "13:30"],
  ["2026-03-04 1:30pm", "13:30"],
  ["2026-03-04 1:30 P.M.", "13:30"],
  ["2026-03-04 1:30 p", "13:30"],
  ["2026-03-04 1pm", "13:00"],
  ["2026-03-04\u00a013:30", "13:30"],
  ["2026-03-04 12:59 am", "00:59"],
  ["2026-03-04 9:5", undefined],
  ["2026-03-04 9:055", undefined],
  ["2026-03-04 113:30", undefined],
  ["2026-03-04 1pm or 2", undefined],
  ["13:30", undefined],
  [`2026-03-04${" ".repeat(46)}9:05`, "09:05"],
  [`2026-03-04${" ".repeat(47)}9:055`, undefined],
])("the time of %j is %s", (text, time) => {
  const reading = parseTimestamp(text, open);
  expect(reading.kind === "moment" ? reading.at : undefined).toBe(
    time === undefined ? undefined : `2026-03-04T${time}`,
  );
});

test.each<[string, ReturnType<typeof parseTimestamp>]>([
  // 1772631000 s after 1970 is 2026-03-04 13:30 UTC: arithmetic
  ["1772631000.75", { kind: "moment", at: "2026-03-04T13:30", zoned: true, timeless: false }],
  ["1772631000000", { kind: "moment", at: "2026-03-04T13:30", zoned: true, timeless: false }],
  ["?", { kind: "missing" }],
  ["? 10:00", { kind: "missing" }],
  ["10:00", { kind: "unreadable" }],
  ["", { kind: "missing" }],
  ["4 March 10:00", { kind: "unreadable" }],
  ["x".repeat(61), { kind: "unreadable" }],
])("%j is %j", (text, reading) => {
  expect(parseTimestamp(text, open)).toEqual(reading);
});

test("minutes of a spreadsheet's day number are rounded, and stay in their day", () => {
  const at = (text: string) => {
    const reading = parseTimestamp(text, { order: "", epoch: "1900" });
    return reading.kind === "moment" ? reading.at.slice(11) : reading.kind;
  };
  // a minute is 1 / 1440 of a day
  expect(at("46085.0006944")).toBe("00:01");
  expect(at("46085.99930")).toBe("23:59");
  expect(at("46085.99966")).toBe("23:59");
  expect(at("46085.0416667")).toBe("01:00");
});

test("order of days of a column: by the settings, else by dates that can only be one way round", () => {
  const order = (cells: string[], settings: Partial<Settings> = {}, index: number | undefined = 0) =>
    datesOf(table("date", cells), index, { ...defaultSettings, ...settings });
  expect(order(["25/3/26", "3/4/26"])).toEqual({ order: "day first", epoch: "" });
  expect(order(["3/25/26", "3/4/26"])).toEqual({ order: "month first", epoch: "" });
  expect(order(["3/25/26", "25/3/26"])).toEqual({ order: "", epoch: "" });
  expect(order(["3/4/26"])).toEqual({ order: "", epoch: "" });
  expect(order(["25/3/26"], { dateOrder: "month first", serialDates: "1904" })).toEqual({
    order: "month first",
    epoch: "1904",
  });
  expect(datesOf(table("date", ["25/3/26"]), undefined, defaultSettings)).toEqual({ order: "", epoch: "" });
});

test("the decimal mark of some columns: by the settings, else by what they show", () => {
  const mark = (cells: string[], decimalMark: Settings["decimalMark"] = "", columns = [0]) =>
    decimalMarkOf(table("a|b", cells), columns, { decimalMark });
  expect(mark(["1,5|1.5"])).toBe(",");
  expect(mark(["1.5|1,5"])).toBe(".");
  expect(mark(["1.5|1,5"], "", [0, 1])).toBe("");
  expect(mark(["15|1,5"])).toBe("");
  expect(mark(["1.5|x"], "comma")).toBe(",");
  expect(mark(["1,5|x"], "point")).toBe(".");
});

test("a log that runs in time one way only", () => {
  const order = (...cells: string[]) =>
    orderInTime(table("t", cells), { date: 0, temperatures: [], unread: [] }, open).order;
  expect(order("1/10/26", "10/10/26", "11/10/26")).toBe("day first");
  expect(order("10/1/26", "10/10/26", "10/11/26")).toBe("month first");
  // steps of 1 day against 28 to 31; of 6 against 30, which is not five times as much
  expect(order("3/4/26", "4/4/26")).toBe("day first");
  expect(order("4/3/26", "4/4/26")).toBe("month first");
  expect(order("3/4/26", "9/4/26", "9/4/26")).toBe("day first");
  expect(order("2/3/26", "2/3/26")).toBe("");
  expect(order("2/3/26", "3/4/26")).toBe("");
  expect(order("soon", "x")).toBe("");
  // steps of 60 days that only rise, or only fall, against steps of 33 days back and forth
  expect(order("1/2/26", "1/2/26", "2/4/26", "1/6/26")).toBe("day first");
  expect(order("1/6/26", "1/6/26", "2/4/26", "1/2/26")).toBe("day first");
  expect(order("2/1/26", "2/1/26", "4/2/26", "6/1/26")).toBe("month first");
  expect(order("6/1/26", "6/1/26", "4/2/26", "2/1/26")).toBe("month first");
  expect(order("2/3/26", "3/2/26", "2/3/26")).toBe("");
  expect(order("soon", "3/4/26", "4/4/26")).toBe("day first");
  // a date that is certain holds both ways together
  expect(order("2026-04-03", "4/4/26", "5/4/26")).toBe("day first");
  expect(
    orderInTime(
      table("t", ["3/4/26", "4/4/26"]),
      { date: 0, temperatures: [], unread: [] },
      { order: "month first", epoch: "" },
    ).order,
  ).toBe("month first");
});

test("temperatures without a unit: by the header, the settings, or the scale that the numbers show", () => {
  const celsius = (header: string, cells: string[], settings: Partial<Settings> = {}) => {
    const { readings, issues } = read(
      `Time|${header}`,
      cells.map((cell, at) => `2026-03-04 1${at}:00|${cell}`),
      settings,
    );
    return [readings.map((reading) => reading.celsius), issues.map(({ rule }) => rule)];
  };
  expect(celsius("Temp", ["18"])).toEqual([[18], []]);
  expect(celsius("Temp", ["68"])).toEqual([[20], ["unit-of-column"]]);
  expect(celsius("Temp", ["68"], { temperatureUnit: "C" })).toEqual([[], ["impossible-temperature"]]);
  expect(celsius("Temp", ["50"], { temperatureUnit: "F" })).toEqual([[10], ["unit-of-column"]]);
  expect(celsius("Temp °C", ["50"], { temperatureUnit: "F" })).toEqual([[50], []]);
  expect(celsius("Temp °F", ["50", "59"])).toEqual([[10, 15], ["unit-of-column"]]);
  expect(celsius("Temp", ["38"])).toEqual([[], ["bare-number"]]);
  expect(celsius("Temp", ["18", "68 F"])[0]).toEqual([18, 20]);
  expect(celsius("Temp", ["18", "~19"])[0]).toEqual([18, 19]);
  expect(celsius("Temp", ["17,5", "18.5"])[0]).toEqual([17.5, 18.5]);
});

test("a reading is of the chamber of its column, else of its cell, else of the file", () => {
  const line = "2026-03-04 10:00|18|tent";
  const at = "2026-03-04T10:00";
  expect(read("Time|Temp|Room", [line], {}, "fridge.csv").readings).toEqual([{ at, celsius: 18, chamber: "tent" }]);
  expect(read("Time|Temp|Room", ["2026-03-04 10:00|18| "], {}, "fridge.csv").readings).toEqual([
    { at, celsius: 18, chamber: "fridge" },
  ]);
  expect(read("Time|Temp", [line], {}, "log.csv").readings).toEqual([{ at, celsius: 18 }]);
  expect(read("Time|Left temp|Right temp", ["2026-03-04 10:00|18|19"]).readings).toEqual([
    { at, celsius: 18, chamber: "Left" },
    { at, celsius: 19, chamber: "Right" },
  ]);
});

test("cells that cannot be used are told one by one, each with what decides it", () => {
  const said = (cells: string[], settings: Partial<Settings> = {}) => {
    const { issues, leftOut, readings } = read("Time|Temp °C", cells, settings);
    expect(leftOut.map(({ row, rule }) => [row, rule])).toEqual(issues.map(({ row, rule }) => [row, rule]));
    for (const issue of issues)
      expect([issue.severity, issue.file, issue.expected === ""]).toEqual(["warning", "log.csv", false]);
    return [
      readings.length,
      ...issues.map(({ column, raw, rule, setting, action }) => [column, raw, rule, setting, action]),
    ];
  };
  const correct = "Correct the cell, or remove the row";
  expect(said(["3/4/26 10:00|18"])).toEqual([
    0,
    ["Time", "3/4/26 10:00", "day-or-month", "date_order", "Answer date_order in settings.csv"],
  ]);
  expect(said(["46085.5|18"])).toEqual([
    0,
    ["Time", "46085.5", "serial-date", "serial_dates", "Answer serial_dates in settings.csv"],
  ]);
  expect(said(["|18"])).toEqual([0, ["Time", "", "not-a-date", undefined, correct]]);
  expect(said(["soon|18"])).toEqual([0, ["Time", "soon", "not-a-date", undefined, correct]]);
  expect(said(["2026-03-04 10:00|warm"])).toEqual([0, ["Temp °C", "warm", "not-a-temperature", undefined, correct]]);
  expect(said(["2026-03-04 10:00|10-12"])).toEqual([0, ["Temp °C", "10-12", "not-a-temperature", undefined, correct]]);
  expect(said(["2026-03-04 10:00|85"])).toEqual([0, ["Temp °C", "85", "impossible-temperature", undefined, correct]]);
  expect(said(["2026-03-04 10:00|"])).toEqual([0]);
  expect(said(["2026-03-04 10:00|18"])).toEqual([1]);
  const reason = (line: string) => read("Day|Clock|Temp °C", [line]).issues.map(({ reason, raw }) => [reason, raw]);
  expect(reason("||18")).toEqual([["the date is missing", ""]]);
  expect(reason("soon||18")).toEqual([["no date and time can be read here", "soon"]]);
  const { issues } = read("Time|Temp", ["2026-03-04 10:00|38"]);
  expect(issues).toMatchObject([
    { rule: "bare-number", setting: "temperature_unit", action: "Answer temperature_unit in settings.csv" },
  ]);
});

test("what was done with all readings is said once, with how many", () => {
  const { issues } = read("Day|Clock|Temp °F", ["2026-03-04|10:00 UTC|68", "2026-03-04|11:00|69", "2026-03-05||70"]);
  expect(
    issues.map(({ file, column, rule, severity, reason, row }) => [
      file,
      column,
      rule,
      severity,
      Number.parseInt(reason, 10),
      row,
    ]),
  ).toEqual([
    ["log.csv", "Temp °F", "unit-of-column", "change", 3, 0],
    ["log.csv", "Day", "zone-left-aside", "change", 1, 0],
    ["log.csv", "Day", "no-time-of-day", "change", 1, 0],
  ]);
});

test("two hundred entries of a kind are listed, and those beyond are counted", () => {
  const count = (rows: number) => {
    const { issues, leftOut } = read(
      "Time|Temp °C",
      Array.from({ length: rows }, () => "soon|18"),
    );
    expect(leftOut.length).toBe(rows);
    return [issues.length, issues.at(-1)!.reason.includes("further entries") ? issues.at(-1)!.reason : ""];
  };
  expect(count(200)).toEqual([200, ""]);
  expect(count(201)).toEqual([201, "1 further entries of this kind"]);
});

test("a sheet that is no log is one error, and columns that are none of a log a note each", () => {
  const none = read("Time|Weight", ["2026-03-04 10:00|18"]);
  expect(none.issues).toMatchObject([
    { file: "log.csv", row: 1, rule: "missing-column", severity: "error", raw: "Time, Weight" },
  ]);
  const { issues } = read("Time|Temp|Colour", ["2026-03-04 10:00|18|red"]);
  expect(issues).toMatchObject([
    { file: "log.csv", row: 1, column: "Colour", raw: "Colour", rule: "unread-column", severity: "note" },
  ]);
});
