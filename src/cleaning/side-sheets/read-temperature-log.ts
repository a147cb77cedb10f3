import { sheetIssue } from "../../csv/sheet-issue.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable, TemperatureReading } from "../../records/sheet.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { temperatureScale } from "../evidence/likely-ranges.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import { plainConventions } from "../values/quantity-reading.ts";
import { datesOf } from "./dates-of.ts";
import { decimalMarkOf } from "./decimal-mark-of.ts";
import { chamberOfFile, type LogColumns, logColumns } from "./log-columns.ts";
import { parseTimestamp } from "./parse-timestamp.ts";

/** What no room, fridge or incubator of a grower has; sensors that fail report such values. */
const coldest = -40;
const hottest = 60;
/** Entries of one rule in one log, beyond which they are counted in a last one. */
const mostEntries = 200;

const momentOf = (cells: ReadonlyArray<string>, { date, clock }: LogColumns): string =>
  clock === undefined ? cells[date]! : `${cells[date]!.trim()} ${cells[clock]!.trim()}`;

/** The largest step of a series that only rises or only falls, in days; undefined for any other series. */
function largestStep(moments: ReadonlyArray<string>): number | undefined {
  let largest = 0;
  let rises = false;
  let falls = false;
  for (let index = 1; index < moments.length; index++) {
    const step = (Date.parse(`${moments[index]}Z`) - Date.parse(`${moments[index - 1]}Z`)) / 86_400_000;
    if (step > 0) rises = true;
    if (step < 0) falls = true;
    largest = Math.max(largest, Math.abs(step));
  }
  return rises && falls ? undefined : largest;
}

/** A log runs in time: the order of day and month in which it does, without leaps, where only one of them does. */
function orderInTime(table: RawTable, columns: LogColumns, dates: DateConventions): DateConventions {
  if (dates.order !== "") return dates;
  const dayFirst: string[] = [];
  const monthFirst: string[] = [];
  table.forEachRow((cells) => {
    const reading = parseTimestamp(momentOf(cells, columns), dates);
    if (reading.kind !== "ambiguous") return;
    dayFirst.push(reading.dayFirst);
    monthFirst.push(reading.monthFirst);
  });
  const [day, month] = [largestStep(dayFirst), largestStep(monthFirst)];
  if (day === undefined && month === undefined) return dates;
  if (month === undefined || (day !== undefined && day * 5 < month)) return { ...dates, order: "day first" };
  if (day === undefined || month * 5 < day) return { ...dates, order: "month first" };
  return dates;
}

/** °C or °F for numbers without a unit: as the settings say, else as nearly all numbers that show it do. */
function bareUnits(
  table: RawTable,
  columns: LogColumns,
  mark: "" | "." | ",",
  { temperatureUnit }: Settings,
): ("" | "C" | "F")[] {
  const counts = columns.temperatures.map(() => ({ C: 0, F: 0, either: 0, neither: 0 }));
  table.forEachRow((cells) => {
    columns.temperatures.forEach(({ index }, column) => {
      const reading = parseQuantity(cells[index]!, "number", { ...plainConventions, decimalMark: mark });
      if (reading.kind === "value") counts[column]![temperatureScale(reading.value)]++;
    });
  });
  return columns.temperatures.map(({ unit }, column) => {
    const { C, F } = counts[column]!;
    if (unit !== "") return unit;
    if (temperatureUnit !== "") return temperatureUnit;
    if (C + F === 0) return "";
    return C >= 0.95 * (C + F) ? "C" : F >= 0.95 * (C + F) ? "F" : "";
  });
}

function readLog(table: RawTable, settings: Settings, issues: Issue[], leftOut: LeftOutRow[]): TemperatureReading[] {
  const { file } = table;
  const columns = logColumns(table.header);
  if (columns === undefined) {
    issues.push(
      sheetIssue({
        file,
        row: table.headerRow,
        rule: "missing-column",
        severity: "error",
        raw: table.header.join(", "),
        reason:
          "a temperature log needs a column of dates and times and a column of temperatures; nothing in it was used",
        expected: "headers such as time, temperature °C, chamber",
        action: "Name the columns so",
      }),
    );
    return [];
  }
  for (const index of columns.unread) {
    const header = table.header[index]!;
    issues.push(
      sheetIssue({
        file,
        row: table.headerRow,
        column: header,
        raw: header,
        rule: "unread-column",
        severity: "note",
        reason: "the column is none that a temperature log has; it was not read",
      }),
    );
  }
  const mark = decimalMarkOf(
    table,
    columns.temperatures.map(({ index }) => index),
    settings,
  );
  const dates = orderInTime(table, columns, datesOf(table, columns.date, settings));
  const units = bareUnits(table, columns, mark, settings);
  const ofFile = chamberOfFile(file);
  const readings: TemperatureReading[] = [];
  const counts = new Map<string, number>();
  const say = (issue: Issue) => {
    const count = (counts.get(issue.rule) ?? 0) + 1;
    counts.set(issue.rule, count);
    if (count <= mostEntries) issues.push(issue);
  };
  let converted = 0;
  let zoned = 0;
  let timeless = 0;

  table.forEachRow((cells, row) => {
    const raw = momentOf(cells, columns).trim();
    const refuse = (rule: string, reason: string, expected: string, column: string, text: string, setting?: string) => {
      const action =
        setting === undefined ? "Correct the cell, or remove the row" : `Answer ${setting} in settings.csv`;
      say(
        sheetIssue({
          file,
          row,
          column,
          raw: text,
          rule,
          severity: "warning",
          reason,
          expected,
          action,
          ...(setting ? { setting } : {}),
        }),
      );
      leftOut.push({ file, row, cells, rule, reason });
    };
    const moment = parseTimestamp(raw, dates);
    const dateHeader = table.header[columns.date]!;
    const example = "a date and time such as 2026-03-04 13:30";
    if (moment.kind === "ambiguous") {
      return refuse(
        "day-or-month",
        "day and month can be swapped, and nothing in the log decides",
        example,
        dateHeader,
        raw,
        "date_order",
      );
    }
    if (moment.kind === "serial") {
      return refuse(
        "serial-date",
        "a spreadsheet's day count, and no system agreed on",
        example,
        dateHeader,
        raw,
        "serial_dates",
      );
    }
    if (moment.kind !== "moment") {
      return refuse(
        "not-a-date",
        moment.kind === "missing" ? "the date is missing" : "no date and time can be read here",
        example,
        dateHeader,
        raw,
      );
    }
    if (moment.zoned) zoned++;
    if (moment.timeless) timeless++;
    for (const [column, { index, header, chamber: inHeader }] of columns.temperatures.entries()) {
      const text = cells[index]!.trim();
      const unit = units[column]!;
      const reading = parseQuantity(text, "temperature", {
        ...plainConventions,
        decimalMark: mark,
        bareUnit: unit === "" ? "" : `°${unit}`,
        bareUnitReason: "the column agrees on it",
      });
      if (reading.kind === "missing") continue;
      if (reading.kind === "ambiguous") {
        refuse(
          reading.changes.at(-1)?.rule ?? "bare-number",
          "no unit, and nothing in the column decides between °C and °F",
          reading.expected,
          header,
          text,
          reading.setting,
        );
        continue;
      }
      if (reading.kind !== "value" && reading.kind !== "approximate") {
        refuse("not-a-temperature", "no temperature can be read here", "a temperature such as 18 °C", header, text);
        continue;
      }
      if (reading.value < coldest || reading.value > hottest) {
        refuse(
          "impossible-temperature",
          "no room has this temperature; sensors that fail report such values",
          `${coldest} to ${hottest} °C`,
          header,
          text,
        );
        continue;
      }
      if (unit === "F") converted++;
      const chamber = inHeader ?? ((columns.chamber === undefined ? "" : cells[columns.chamber]!.trim()) || ofFile);
      readings.push({ at: moment.at, celsius: reading.value, ...(chamber === undefined ? {} : { chamber }) });
    }
  });
  const note = (count: number, rule: string, reason: string, column: string) => {
    if (count > 0)
      issues.push(sheetIssue({ file, column, rule, severity: "change", reason: `${count} readings ${reason}` }));
  };
  note(converted, "unit-of-column", "in °F converted to °C", columns.temperatures[0]!.header);
  note(zoned, "zone-left-aside", "give a time zone; the time was kept as written", table.header[columns.date]!);
  note(
    timeless,
    "no-time-of-day",
    "have a date without a time; they were put at midnight",
    table.header[columns.date]!,
  );
  for (const [rule, count] of counts) {
    if (count <= mostEntries) continue;
    issues.push(
      sheetIssue({
        file,
        rule,
        severity: "warning",
        reason: `${count - mostEntries} further entries of this kind`,
        action: "Mend those listed first, then check again",
      }),
    );
  }
  return readings;
}

/**
 * Reads temperature logs: a column of dates and times (or a date and a time of day), one of temperatures, and the chamber
 * from a column, the header (one column per chamber) or the file's name. The order of day and month comes from the
 * settings, from dates that can only be one way round, or from the log running in time without leaps.
 * @returns readings in the order of the sheets, in °C; rows that cannot be read are left out with a warning
 */
export function readTemperatureLog(
  tables: ReadonlyArray<RawTable>,
  settings: Settings,
): { readings: TemperatureReading[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  const readings = tables.flatMap((table) => readLog(table, settings, issues, leftOut));
  return { readings, issues, leftOut };
}
