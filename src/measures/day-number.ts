const zero = 48;
const hyphen = 45;

/** Value of two digits at a place in the text; negative when one is not a digit. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - zero;
  const units = text.charCodeAt(at + 1) - zero;
  return tens < 0 || tens > 9 || units < 0 || units > 9 ? -10_000 : tens * 10 + units;
}

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/**
 * Days in a month of the Gregorian calendar.
 * @param month 1 to 12
 * @throws RangeError if the month is not a whole number from 1 to 12
 * @example daysInMonth(2024, 2) // 29
 */
export function daysInMonth(year: number, month: number): number {
  const length = monthLengths[month - 1];
  if (length === undefined) throw new RangeError(`daysInMonth: month must run from 1 to 12; received ${month}`);
  return month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : length;
}

/**
 * Number of a calendar day, counted from 1970-01-01 = 0, by integer arithmetic alone.
 * @param isoDate exactly YYYY-MM-DD, years 0000 to 9999
 * @throws RangeError if the text is not such a date or the day does not exist
 * @source Hinnant, chrono-Compatible Low-Level Date Algorithms (public domain), days_from_civil: cycles of 400 years,
 *   146,097 days, from 1 March
 * @example dayNumber("1970-01-02") // 1
 */
export function dayNumber(isoDate: string): number {
  const year = twoDigits(isoDate, 0) * 100 + twoDigits(isoDate, 2);
  const month = twoDigits(isoDate, 5);
  const day = twoDigits(isoDate, 8);
  if (
    isoDate.length !== 10 ||
    isoDate.charCodeAt(4) !== hyphen ||
    isoDate.charCodeAt(7) !== hyphen ||
    year < 0 ||
    month < 1 ||
    month > 12 ||
    day < 1 ||
    day > daysInMonth(year, month)
  ) {
    throw new RangeError(`dayNumber: the date must exist and read YYYY-MM-DD; received ${JSON.stringify(isoDate)}`);
  }
  // years that start in March put the leap day last, so that month lengths repeat in a 153-day pattern of five months
  const marchYear = month > 2 ? year : year - 1;
  const marchMonth = month > 2 ? month - 3 : month + 9;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + Math.floor((153 * marchMonth + 2) / 5) + day - 719_469;
}

/**
 * Whole days from one date to another; negative when the second is the earlier one.
 * @throws RangeError as `dayNumber`
 * @example daysBetween("2026-02-27", "2026-03-01") // 2
 */
export function daysBetween(fromIsoDate: string, toIsoDate: string): number {
  return dayNumber(toIsoDate) - dayNumber(fromIsoDate);
}

/**
 * The calendar day of a number counted from 1970-01-01 = 0: the way back from `dayNumber`.
 * @throws RangeError if the number is not whole or the year does not lie from 0000 to 9999
 * @example dateOfDay(1) // "1970-01-02"
 */
export function dateOfDay(day: number): string {
  const date = new Date(day * 86_400_000);
  if (!Number.isInteger(day) || !(date.getUTCFullYear() >= 0 && date.getUTCFullYear() <= 9999)) {
    throw new RangeError(`dateOfDay: the day must be a whole number of a year from 0000 to 9999; received ${day}`);
  }
  return date.toISOString().slice(0, 10);
}
