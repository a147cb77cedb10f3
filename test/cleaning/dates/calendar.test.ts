import { describe, expect, test } from "vitest";
import { dayNumber, isoDate, isoOfDay, isRealDay, serialDate } from "../../../src/cleaning/dates/calendar.ts";
import { completeYear, countedOn } from "../../../src/cleaning/dates/complete-year.ts";

// Checked against the dates of the language (ECMA-262, 21.4.1: a proleptic Gregorian calendar).
const isOfLanguage = (year: number, month: number, day: number): boolean => {
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
};

test("the days of every month, those that are not, and leap years are the calendar's", () => {
  for (const year of [1900, 1999, 2000, 2023, 2024, 2025, 2026, 2100]) {
    for (let month = 0; month <= 13; month++) {
      for (const day of [-1, 0, 1, 15, 28, 29, 30, 31, 32])
        expect([year, month, day, isRealDay(year, month, day)]).toEqual([
          year,
          month,
          day,
          isOfLanguage(year, month, day),
        ]);
    }
  }
});

test("days are counted and written as the language does, over four hundred years", () => {
  const wrong: string[] = [];
  for (let day = -25_567; day < 146_097; day += day > 10_000 && day < 22_000 ? 1 : 19) {
    const date = new Date(day * 86_400_000);
    const iso = isoOfDay(day);
    const byParts = isoDate(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
    if (dayNumber(iso) !== day || byParts !== iso) wrong.push(iso);
  }
  expect(wrong).toEqual([]);
  expect(isoDate(987, 6, 5)).toBe("0987-06-05");
});

test("the time of day behind a spreadsheet's day count does not reach the next day", () => {
  expect(serialDate(45_000.99, "1900")).toBe("2023-03-15");
  expect(serialDate(45_000.99, "1904")).toBe("2027-03-16");
});

const on = (month: number, day: number): { month: number; day: number }[] => [{ month, day }];
const later = (iso: string, days: number): string => isoOfDay(dayNumber(iso) + days);
const asTyped = (iso: string): { month: number; day: number }[] => on(Number(iso.slice(5, 7)), Number(iso.slice(8)));

describe("a crop is over within 250 days", () => {
  const span = { first: "2025-01-10", last: "2025-02-10" };
  test.each([
    [250, undefined],
    [251, "the year before"],
  ])("of the column's full dates: %i days on fits as well as the same day of the year before", (days, expected) => {
    const iso = later(span.last, days);
    const before = `${Number(iso.slice(0, 4)) - 1}${iso.slice(4)}`;
    expect(completeYear(asTyped(iso), 0, [], span)).toBe(expected === undefined ? undefined : before);
  });
  test.each([
    [-250, undefined],
    [-251, "the year behind"],
  ])("of the column's full dates: %i days back fits as well as the same day a year on", (days, expected) => {
    const iso = later(span.first, days);
    const behind = `${Number(iso.slice(0, 4)) + 1}${iso.slice(4)}`;
    expect(completeYear(asTyped(iso), 0, [], span)).toBe(expected === undefined ? undefined : behind);
  });
  test.each([
    [1, 250, true],
    [1, 251, false],
    [3, -250, true],
    [3, -251, false],
  ])("from a date of stage %i of the same tray, %i days on: %s", (stage, days, fits) => {
    const other = "2025-06-01";
    const iso = later(other, days);
    const wide = { first: "2024-12-01", last: "2026-01-01" };
    const found = completeYear(asTyped(iso), 2, [{ stage, iso: other }], wide);
    expect(found).toBe(fits ? iso : undefined);
  });
});

test("29 February is completed in leap years only", () => {
  const winterTo = (year: number) => ({ first: `${year - 1}-12-20`, last: `${year}-02-16` });
  expect(completeYear(on(2, 29), 0, [], winterTo(2024))).toBe("2024-02-29");
  expect(completeYear(on(2, 29), 0, [], winterTo(2026))).toBeUndefined();
});

describe("the stages of a tray keep their order", () => {
  const span = { first: "2025-12-20", last: "2026-02-16" };
  test.each([
    ["on the day of the stage before", 1, "2026-03-03", "2026-03-03"],
    ["on the day of the stage behind", 3, "2026-03-03", "2026-03-03"],
    ["the day before the stage before", 1, "2026-03-04", undefined],
    ["the day after the stage behind", 3, "2026-03-02", undefined],
    ["two flushes of one stage may stand in either order", 2, "2026-03-02", "2026-03-03"],
    ["two flushes of one stage may stand in either order", 2, "2026-03-04", "2026-03-03"],
  ])("%s", (_, stage, iso, expected) => {
    expect(completeYear(on(3, 3), 2, [{ stage, iso }], span)).toBe(expected);
  });
});

describe("a date without a year counted on", () => {
  const either = [
    { month: 4, day: 3 },
    { month: 3, day: 4 },
  ];
  test.each([
    ["over new year", on(1, 3), "2025-12-20", "2026-01-03"],
    ["back over new year", on(12, 27), "2026-01-04", "2025-12-27"],
    ["in the same year", on(6, 1), "2026-05-01", "2026-06-01"],
    ["in the stated year", on(11, 3), 2025, "2025-11-03"],
    ["29 February in a year that has none", on(2, 29), 2025, undefined],
    ["day and month could be swapped", either, 2025, undefined],
    ["nothing to count on", [], 2025, undefined],
  ])("%s", (_, days, above, expected) => {
    expect(countedOn(days, above)).toBe(expected);
  });
});
