import fc from "fast-check";
import { expect, test } from "vitest";
import { daysToColonise, daysToHarvest } from "../../src/measures/crop-days.ts";
import { dayNumber, daysBetween, daysInMonth } from "../../src/measures/day-number.ts";

test("day numbers equal those of the platform's calendar, 0000 to 9999", () => {
  const first = Date.UTC(2000, 0, 1) - 730485 * 86_400_000;
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 3_652_424 }), (offset) => {
      const milliseconds = first + offset * 86_400_000;
      return dayNumber(new Date(milliseconds).toISOString().slice(0, 10)) === Math.round(milliseconds / 86_400_000);
    }),
    { numRuns: 300 },
  );
});

test("leap days: Gregorian calendar, 1900 is no leap year and 2000 is", () => {
  expect(daysBetween("1900-02-28", "1900-03-01")).toBe(1);
  expect(daysBetween("2000-02-28", "2000-03-01")).toBe(2);
  expect(daysBetween("2024-02-29", "2025-02-28")).toBe(365);
  expect(daysBetween("2026-03-01", "2026-02-27")).toBe(-2);
  expect(dayNumber("1970-01-01")).toBe(0);
  expect([daysInMonth(2023, 2), daysInMonth(2024, 2), daysInMonth(2023, 12)]).toEqual([28, 29, 31]);
});

test("texts that are no date are refused", () => {
  for (const text of [
    "",
    "2026-02-30",
    "2026-13-01",
    "2026-00-10",
    "2026-1-01",
    "2026/01/01",
    "26-01-2026",
    "2026-01-01T00",
  ]) {
    expect(() => dayNumber(text)).toThrow(`received ${JSON.stringify(text)}`);
  }
  expect(() => daysInMonth(2026, 13)).toThrow("month must run from 1 to 12; received 13");
});

test("dates win over typed days; without either, or backwards, nothing is known", () => {
  expect(daysToColonise({ from: "2026-01-01", to: "2026-01-09", days: 12 })).toBe(8);
  expect(daysToColonise({ from: "2026-01-01", days: 12 })).toBe(12);
  expect(daysToHarvest({ days: 55 })).toBe(55);
  expect(daysToHarvest({ from: "2026-01-01" })).toBeUndefined();
  expect(daysToHarvest({ from: "2026-02-25", to: "2026-01-20" })).toBeUndefined();
  expect(daysToHarvest({ from: "2026-02-25", to: "2026-02-25" })).toBe(0);
  expect(() => daysToHarvest({ days: -3 })).toThrow("daysToHarvest: days must be a number of 0 or more; received -3");
});
