const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Days of a month of the Gregorian calendar; 0 for a month outside 1 to 12. */
const daysInMonth = (year: number, month: number): number =>
  month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : (monthDays[month - 1] ?? 0);

/** Whether the day exists in the Gregorian calendar. */
export const isRealDay = (year: number, month: number, day: number): boolean =>
  day >= 1 && day <= daysInMonth(year, month);

const two = (value: number): string => (value < 10 ? `0${value}` : String(value));

/** The day as ISO 8601 has it: "2026-03-04". */
export const isoDate = (year: number, month: number, day: number): string =>
  `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;

/**
 * Days from 1 January 1970 to a date in ISO 8601 after the year 0.
 * @source Fliegel and Van Flandern 1968, Communications of the ACM 11(10):657
 * @example dayNumber("1970-01-02") // 1
 */
export function dayNumber(iso: string): number {
  const digit = (at: number): number => iso.charCodeAt(at) - 48;
  const year = digit(0) * 1000 + digit(1) * 100 + digit(2) * 10 + digit(3);
  const month = digit(5) * 10 + digit(6);
  const day = digit(8) * 10 + digit(9);
  const beforeMarch = month < 3 ? 1 : 0;
  const years = year + 4800 - beforeMarch;
  const daysBeforeMonth = Math.floor((153 * (month + 12 * beforeMarch - 3) + 2) / 5);
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return day + daysBeforeMonth + 365 * years + leapDays - 32_045 - 2_440_588;
}

/** The date in ISO 8601 so many days after 1 January 1970. */
export const isoOfDay = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

/**
 * The date of a spreadsheet's serial number. The 1900 system counts 1900-01-01 as 1 and a 29 February 1900 that never
 * was; the 1904 system counts 1904-01-01 as 0, 1462 days later.
 * @example serialDate(45000, "1900") // "2023-03-15"
 */
export function serialDate(serial: number, epoch: "1900" | "1904"): string {
  const day = Math.floor(serial);
  return isoOfDay(day - (epoch === "1900" ? 25_569 : 25_569 - 1462));
}
