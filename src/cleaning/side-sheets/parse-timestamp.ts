import { twoDigits } from "../../records/words/digits.ts";
import { type DateConventions, parseDate } from "../dates/parse-date.ts";

/** A moment read from a cell, or why there is none. */
export type TimestampReading =
  | { kind: "moment"; at: string; zoned: boolean; timeless: boolean }
  | { kind: "ambiguous"; dayFirst: string; monthFirst: string }
  | { kind: "serial" }
  | { kind: "missing" }
  | { kind: "unreadable" };

const clock =
  /(?:^|[\sT,])(\d{1,2})(?:[:.h](\d{2}))(?::?(\d{2})(?:[.,]\d+)?)?\s*([ap])?\.?(?:m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$/i;
const hourOnly = /(?:^|[\sT,])(\d{1,2})\s*([ap])\.?m\.?$/i;

/** "13:30" from the hour and minute typed, with am or pm; undefined where the day has no such time. */
function timeOf(hourTyped: string, minuteTyped: string, half: string | undefined): string | undefined {
  let hour = Number(hourTyped);
  const minute = Number(minuteTyped);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  }
  return hour < 24 && minute < 60 ? `${twoDigits(hour)}:${twoDigits(minute)}` : undefined;
}

/**
 * Reads a date with its time of day: ISO 8601, figures in the given order, names of months, a spreadsheet's day number
 * with its fraction, or seconds (or milliseconds) since 1970. A zone is left aside: the time stays as the clock showed it;
 * seconds since 1970 give the time in UTC.
 * @returns moments as "2026-03-04T13:30"; a date alone is its midnight
 */
export function parseTimestamp(typed: string, conventions: Readonly<DateConventions>): TimestampReading {
  const text = typed.replace(/[\u00a0\u202f]/g, " ").trim();
  if (text.length > 60) return { kind: "unreadable" };
  if (/^1\d{9}(?:\.\d+)?$|^1\d{12}$/.test(text)) {
    const date = new Date(Number(text) * (text.length === 13 && !text.includes(".") ? 1 : 1000));
    return { kind: "moment", at: date.toISOString().slice(0, 16), zoned: true, timeless: false };
  }
  const serial = /^(\d{5})[.,](\d+)$/.exec(text);
  const hours = serial === null ? (clock.exec(text) ?? hourOnly.exec(text)) : null;
  let time: string | undefined = "00:00";
  let rest = serial === null ? text : serial[1]!;
  if (serial !== null) {
    const minutes = Math.round(Number(`0.${serial[2]}`) * 1440);
    time = minutes >= 1440 ? "23:59" : `${twoDigits(Math.floor(minutes / 60))}:${twoDigits(minutes % 60)}`;
  } else if (hours !== null) {
    time = hours.length > 3 ? timeOf(hours[1]!, hours[2]!, hours[4]) : timeOf(hours[1]!, "00", hours[2]);
    rest = text.slice(0, hours.index).replace(/[,\s]+$/, "");
  }
  const zoned = hours?.[5] !== undefined;
  const date = parseDate(rest, conventions);
  if (date.kind === "missing") return { kind: text === "" || rest !== "" ? "missing" : "unreadable" };
  if (time === undefined) return { kind: "unreadable" };
  if (date.kind === "date")
    return { kind: "moment", at: `${date.iso}T${time}`, zoned, timeless: serial === null && hours === null };
  if (date.kind === "ambiguous") {
    return { kind: "ambiguous", dayFirst: `${date.dayFirst}T${time}`, monthFirst: `${date.monthFirst}T${time}` };
  }
  return { kind: date.kind === "serial" ? "serial" : "unreadable" };
}
