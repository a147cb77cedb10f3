import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable, TemperatureReading } from "../../records/sheet.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { temperatureScale } from "../evidence/likely-ranges.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import { plainConventions, type QuantityReading } from "../values/quantity-reading.ts";
import { datesOf } from "./dates-of.ts";
import { decimalMarkOf } from "./decimal-mark-of.ts";
import { chamberOfFile, type LogColumns, logColumns } from "./log-columns.ts";
import { momentOf, orderInTime } from "./log-in-time.ts";
import { parseTimestamp } from "./parse-timestamp.ts";

/** What no room, fridge or incubator of a grower has; sensors that fail report such values. */
const coldest = -40;
const hottest = 60;
/** Entries of one rule in one log, beyond which they are counted in a last one. */
const mostEntries = 200;

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

/** Why a cell of a log cannot be used. */
interface Refusal {
  rule: string;
  reason: string;
  expected: string;
  setting?: string | undefined;
}

const aMoment = "a date and time such as 2026-03-04 13:30";

/** Why a date and time cannot be used; undefined where it can. */
function refusedMoment(kind: ReturnType<typeof parseTimestamp>["kind"]): Refusal | undefined {
  const expected = aMoment;
  switch (kind) {
    case "moment":
      return undefined;
    case "ambiguous": {
      const reason = "day and month can be swapped, and nothing in the log decides";
      return { rule: "day-or-month", reason, expected, setting: "date_order" };
    }
    case "serial": {
      const reason = "a spreadsheet's day count, and no system agreed on";
      return { rule: "serial-date", reason, expected, setting: "serial_dates" };
    }
    case "missing":
      return { rule: "not-a-date", reason: "the date is missing", expected };
    default:
      return { rule: "not-a-date", reason: "no date and time can be read here", expected };
  }
}

/** Why a temperature cannot be used; undefined where it can. */
function refusedTemperature(reading: QuantityReading): Refusal | undefined {
  if (reading.kind === "ambiguous") {
    return {
      rule: reading.changes.at(-1)?.rule ?? "bare-number",
      reason: "no unit, and nothing in the column decides between °C and °F",
      expected: reading.expected,
      setting: reading.setting,
    };
  }
  if (reading.kind !== "value" && reading.kind !== "approximate") {
    const reason = "no temperature can be read here";
    return { rule: "not-a-temperature", reason, expected: "a temperature such as 18 °C" };
  }
  if (reading.value >= coldest && reading.value <= hottest) return undefined;
  const reason = "no room has this temperature; sensors that fail report such values";
  return { rule: "impossible-temperature", reason, expected: `${coldest} to ${hottest} °C` };
}

/** One log while it is read: its conventions, what was read and what was said. */
class LogReader {
  readonly readings: TemperatureReading[] = [];
  private readonly counts = new Map<string, number>();
  private readonly mark: "" | "." | ",";
  private readonly dates: DateConventions;
  private readonly units: ("" | "C" | "F")[];
  private readonly ofFile: string | undefined;
  private converted = 0;
  private zoned = 0;
  private timeless = 0;

  constructor(
    private readonly table: RawTable,
    private readonly columns: LogColumns,
    settings: Settings,
    private readonly issues: Issue[],
    private readonly leftOut: LeftOutRow[],
  ) {
    const numeric = columns.temperatures.map(({ index }) => index);
    this.mark = decimalMarkOf(table, numeric, settings);
    this.dates = orderInTime(table, columns, datesOf(table, columns.date, settings));
    this.units = bareUnits(table, columns, this.mark, settings);
    this.ofFile = chamberOfFile(table.file);
  }

  private refuse(cells: string[], row: number, column: string, raw: string, refusal: Refusal) {
    const { rule, reason, setting } = refusal;
    const count = (this.counts.get(rule) ?? 0) + 1;
    this.counts.set(rule, count);
    this.leftOut.push({ file: this.table.file, row, cells, rule, reason });
    if (count > mostEntries) return;
    const action = setting === undefined ? "Correct the cell, or remove the row" : `Answer ${setting} in settings.csv`;
    this.issues.push(logEntry({ ...refusal, file: this.table.file, row, column, raw, action, severity: "warning" }));
  }

  /** Reads every temperature of a row. */
  readRow(cells: string[], row: number): void {
    const raw = momentOf(cells, this.columns).trim();
    const moment = parseTimestamp(raw, this.dates);
    const refused = refusedMoment(moment.kind);
    if (refused !== undefined) this.refuse(cells, row, this.table.header[this.columns.date]!, raw, refused);
    if (moment.kind !== "moment") return;
    if (moment.zoned) this.zoned++;
    if (moment.timeless) this.timeless++;
    this.columns.temperatures.forEach((_, column) => {
      this.readCell(cells, row, moment.at, column);
    });
  }

  private readCell(cells: string[], row: number, at: string, column: number): void {
    const { index, header, chamber: inHeader } = this.columns.temperatures[column]!;
    const text = cells[index]!.trim();
    const unit = this.units[column]!;
    const reading = parseQuantity(text, "temperature", {
      ...plainConventions,
      decimalMark: this.mark,
      bareUnit: unit === "" ? "" : `°${unit}`,
      bareUnitReason: "the column agrees on it",
    });
    if (reading.kind === "missing") return;
    const refused = refusedTemperature(reading);
    if (refused !== undefined) this.refuse(cells, row, header, text, refused);
    else if (reading.kind === "value" || reading.kind === "approximate") {
      if (unit === "F") this.converted++;
      const inColumn = this.columns.chamber === undefined ? "" : cells[this.columns.chamber]!.trim();
      const chamber = inHeader ?? (inColumn || this.ofFile);
      this.readings.push({ at, celsius: reading.value, ...(chamber === undefined ? {} : { chamber }) });
    }
  }

  /** Says what was done with all readings of a kind, and how many entries are not listed. */
  finish(): void {
    const { file, header } = this.table;
    const dateHeader = header[this.columns.date]!;
    const note = (count: number, rule: string, reason: string, column: string) => {
      if (count === 0) return;
      this.issues.push(logEntry({ file, column, rule, severity: "change", reason: `${count} readings ${reason}` }));
    };
    note(this.converted, "unit-of-column", "in °F converted to °C", this.columns.temperatures[0]!.header);
    note(this.zoned, "zone-left-aside", "give a time zone; the time was kept as written", dateHeader);
    note(this.timeless, "no-time-of-day", "have a date without a time; they were put at midnight", dateHeader);
    for (const [rule, count] of this.counts) {
      if (count <= mostEntries) continue;
      const reason = `${count - mostEntries} further entries of this kind`;
      const action = "Correct those listed first, then check again";
      this.issues.push(logEntry({ file, rule, severity: "warning", reason, action }));
    }
  }
}

function readLog(table: RawTable, settings: Settings, issues: Issue[], leftOut: LeftOutRow[]): TemperatureReading[] {
  const about = { file: table.file, row: table.headerRow };
  const columns = logColumns(table.header);
  if (columns === undefined) {
    issues.push(
      logEntry({
        ...about,
        rule: "missing-column",
        severity: "error",
        raw: table.header.join(", "),
        reason:
          "a temperature log needs a column of dates and times and a column of temperatures; nothing in it was used",
        expected: "headers such as time, temperature °C, chamber",
        action: "Name one column date or time and each column of temperatures by its chamber, such as Tent A °C",
      }),
    );
    return [];
  }
  for (const index of columns.unread) {
    const header = table.header[index]!;
    const reason = "a temperature log has no such column; it was not read";
    issues.push(logEntry({ ...about, column: header, raw: header, rule: "unread-column", severity: "note", reason }));
  }
  const log = new LogReader(table, columns, settings, issues, leftOut);
  table.forEachRow((cells, row) => log.readRow(cells, row));
  log.finish();
  return log.readings;
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
