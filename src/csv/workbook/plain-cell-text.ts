import { twoDigits } from "../../records/words/digits.ts";

/**
 * The shortest decimal that is the number, without an exponent where people would not type one.
 * @example plainNumberText(0.1) // "0.1"
 */
export const plainNumberText = (value: number): string => String(Object.is(value, -0) ? 0 : value);

/** A share as a percentage, free of the noise that multiplying by 100 brings: 0.07 is "7%". */
export const percentText = (share: number): string => `${plainNumberText(Number((share * 100).toPrecision(15)))}%`;

const zeroDays: ReadonlyArray<number> = [Date.UTC(1899, 11, 30), Date.UTC(1899, 11, 31), Date.UTC(1904, 0, 1)];

/**
 * A date of a workbook as ISO 8601: the day, with the time where it is not midnight; a time of day alone as "13:30".
 * @param date in UTC, as workbook readers give it
 */
export function dateText(date: Date): string {
  // day fractions are binary, so that a full minute may come out as 59.999 seconds
  const rounded = new Date(Math.round(date.getTime() / 1000) * 1000);
  // a number too large for a date, which spreadsheet programs show as an error too
  if (Number.isNaN(rounded.getTime())) return "#NUM!";
  const seconds = rounded.getUTCSeconds();
  const time = `${twoDigits(rounded.getUTCHours())}:${twoDigits(rounded.getUTCMinutes())}${seconds === 0 ? "" : `:${twoDigits(seconds)}`}`;
  const day = rounded.getTime() - (((rounded.getTime() % 86_400_000) + 86_400_000) % 86_400_000);
  // a time of day alone stands on serial 0 of the 1900 or the 1904 system
  if (time !== "00:00" && zeroDays.includes(day)) return time;
  const isoDay = `${String(rounded.getUTCFullYear()).padStart(4, "0")}-${twoDigits(rounded.getUTCMonth() + 1)}-${twoDigits(rounded.getUTCDate())}`;
  return time === "00:00" ? isoDay : `${isoDay}T${time}`;
}
