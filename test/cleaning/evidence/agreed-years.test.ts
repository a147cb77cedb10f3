import { describe, expect, test } from "vitest";
import { datesOf } from "./agreed-by.ts";

const above12 = "other dates in the sheet have a number above 12 in that place";
const backward = "in the other order stages of a tray would run backwards";
const years = "their first numbers keep together as years do, or the stages of a tray would lie years apart";

const one = (...dates: string[]): string => ["Inoculated", ...dates, ""].join("\n");
const three = (...rows: string[]): string => ["Inoculated,Colonised,Harvested", ...rows, ""].join("\n");
const two = (...rows: string[]): string => ["Inoculated,Harvested", ...rows, ""].join("\n");

describe("dates with two digits at both ends", () => {
  const shows = (order: string): string[] => [`${order}: Inoculated: ${above12}`];
  const first = (...columns: string[]): string[] => columns.map((name) => `year first: ${name}: ${years}`);
  test.each([
    ["days above 31 there are none", one("32-01-14"), "Inoculated year first", first("Inoculated")],
    ["days above 31 there are none, at the end", one("14-01-32"), "Inoculated day first", []],
    ["day 31 may stand there", one("31-01-14"), "Inoculated", []],
    ["years keep together", one("25-01-04", "26-02-08", "27-02-05"), "Inoculated year first", first("Inoculated")],
    ["days do not", one("04-01-25", "08-02-26", "05-02-27"), "Inoculated", []],
    ["days do not, one of them above 12", one("04-01-25", "18-02-26"), "Inoculated day first", shows("day first")],
    ["months above 12", one("01-18-26", "02-05-26"), "Inoculated month first", shows("month first")],
    ["neither keeps together", one("20-01-04", "26-02-08"), "Inoculated", []],
    ["both keep together", one("12-01-13", "13-02-12"), "Inoculated", []],
    ["a spread of three may be either's", one("12-01-13", "12-02-16"), "Inoculated", []],
    ["a spread of four is that of days", one("12-01-13", "12-02-17"), "Inoculated year first", first("Inoculated")],
    [
      "years of other dates",
      `Inoculated,Harvested\n26-01-14,2026-03-01\n`,
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "years of other dates, a year apart",
      `Inoculated,Harvested\n25-01-14,2026-03-01\n`,
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "years of other dates, at the end",
      `Inoculated,Harvested\n14-01-26,2026-03-01\n`,
      "Inoculated day first|Harvested day first",
      shows("day first"),
    ],
    [
      "either could be near the years of other dates, and one of them is more than a year away",
      `Inoculated,Harvested\n25-01-26,2026-03-01\n`,
      "Inoculated day first|Harvested day first",
      shows("day first"),
    ],
    [
      "stages years apart",
      two("26-01-14,26-02-27"),
      "Inoculated year first|Harvested year first",
      first("Inoculated", "Harvested"),
    ],
    ["no two digits at both ends", one("2026-01-14"), "Inoculated", []],
    ["days above 31 in one of the dates", one("02-01-32", "02-01-12"), "Inoculated", []],
    ["days to 31 and years above", one("32-01-31"), "Inoculated year first", first("Inoculated")],
    ["years two apart at the end", one("14-01-25", "18-02-27"), "Inoculated day first", shows("day first")],
    ["neither keeps apart", one("14-01-25", "17-02-25"), "Inoculated", []],
    ["a day of 12 shows no order", one("12-01-25", "08-02-25"), "Inoculated", []],
    ["a month of 12 shows none", one("08-12-25", "03-02-25"), "Inoculated", []],
    ["nor does a day that is none", one("13-13-25", "08-02-25"), "Inoculated", []],
    ["a day of 13 before a month of 12", one("13-12-25", "08-02-25"), "Inoculated day first", shows("day first")],
    ["a day of 13 behind a month of 12", one("12-13-25", "08-02-25"), "Inoculated month first", shows("month first")],
    [
      "years of other dates, a day above them",
      "Inoculated,Harvested\n26-01-30,2026-03-01\n",
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "years of other dates, a year on",
      "Inoculated,Harvested\n27-01-04,\n,2026-03-01\n",
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "all years of other dates",
      "Inoculated,Harvested\n23-01-04,\n,2024-03-01\n,2027-03-01\n",
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "all years of other dates",
      "Inoculated,Harvested\n28-01-04,\n,2027-03-01\n,2024-03-01\n",
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "stages a year apart at most",
      three("26-02-28,26-05-01,27-02-28"),
      "Inoculated year first|Colonised year first|Harvested year first",
      first("Inoculated", "Colonised", "Harvested"),
    ],
    [
      "stages more than a year apart either way",
      three("26-02-28,26-05-01,27-03-01"),
      "Inoculated|Colonised|Harvested",
      [],
    ],
    [
      "stages years apart, a word among them",
      three("26-01-14,n/a,26-02-27"),
      "Inoculated year first|Colonised|Harvested year first",
      first("Inoculated", "Harvested"),
    ],
    [
      "year first, which tells nothing of dates with other marks",
      two("26-01-30,3/4/26", "26-01-20,4/5/26"),
      "Inoculated year first|Harvested",
      first("Inoculated"),
    ],
    [
      "year last, with an order shown by the stages",
      two("10-04-26,01-06-26"),
      "Inoculated day first|Harvested day first",
      [`day first: Inoculated and Harvested: ${backward}`],
    ],
    [
      "stages years apart, beside dates with other marks",
      three("26-01-14,26-02-27,", "3/4/26,,4/5/26"),
      "Inoculated year first|Colonised year first|Harvested",
      first("Inoculated", "Colonised"),
    ],
  ])("%s", async (_, text, columns, log) => {
    expect(await datesOf(text)).toEqual({ columns, log });
  });
});

describe("the system of day counts: 1462 days lie between the two (ECMA-376 part 1, 18.17.4, from memory)", () => {
  const among = "so they fall among the sheet's other dates";
  const stages = "in the other system stages of a tray would run backwards";
  const most = "most spreadsheets count so; numbers of days between dates are the same either way";
  test.each([
    ["nothing", one("45800"), "Inoculated 1900", [`1900: Inoculated: ${most}: assumed`]],
    // 45800 is 2025-05-23 in the 1900 system, 2029-05-24 in the other
    ["dates near 1900's", one("45800", "2025-06-01"), "Inoculated 1900", [`1900: Inoculated: ${among}`]],
    ["dates near 1904's", one("45800", "2029-06-01"), "Inoculated 1904", [`1904: Inoculated: ${among}`]],
    ["dates eight months on", one("45800", "2026-01-01"), "Inoculated 1900", [`1900: Inoculated: ${among}`]],
    ["dates eight months back", one("45800", "2024-09-30"), "Inoculated 1900", [`1900: Inoculated: ${among}`]],
    ["dates nine months on", one("45800", "2026-02-01"), "Inoculated 1900", [`1900: Inoculated: ${most}: assumed`]],
    ["dates nine months back", one("45800", "2024-08-31"), "Inoculated 1900", [`1900: Inoculated: ${most}: assumed`]],
    ["dates eight months on in 1904's", one("45800", "2030-01-31"), "Inoculated 1904", [`1904: Inoculated: ${among}`]],
    [
      "dates near both",
      one("45800", "2025-06-01", "2029-06-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${most}: assumed`],
    ],
    [
      "stages backward in 1904's",
      two("45800,2025-08-01"),
      "Inoculated 1900|Harvested 1900",
      [`1900: Inoculated: ${stages}`],
    ],
    [
      "stages backward in 1900's",
      two("2029-05-20,45880"),
      "Inoculated 1904|Harvested 1904",
      [`1904: Harvested: ${stages}`],
    ],
    [
      "stages backward in both",
      two("45800,2025-08-01", "2029-05-20,45880"),
      "Inoculated 1900|Harvested 1900",
      [`1900: Inoculated and Harvested: ${most}: assumed`],
    ],
    ["no counts", one("2025-06-01"), "Inoculated", []],
    // 46200 is 2026-06-27
    [
      "the earliest count and dates before it",
      one("46200", "45800", "2025-04-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the earliest count and dates before it",
      one("45800", "46200", "2025-04-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the latest count and dates behind it",
      one("46200", "45800", "2026-12-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the latest count and dates behind it",
      one("45800", "46200", "2026-12-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the earliest of dates",
      one("46200", "2026-01-01", "2028-01-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the earliest of dates",
      one("46200", "2028-01-01", "2026-01-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the latest of dates",
      one("45800", "2022-01-01", "2025-01-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "the latest of dates",
      one("45800", "2025-01-01", "2022-01-01"),
      "Inoculated 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "dates in another column",
      two("45800,", ",2029-06-01"),
      "Inoculated 1904|Harvested 1904",
      [`1904: Inoculated: ${among}`],
    ],
    [
      "dates in another column",
      two("45800,", ",2025-06-01"),
      "Inoculated 1900|Harvested 1900",
      [`1900: Inoculated: ${among}`],
    ],
    [
      "counts in two columns and dates before both",
      three("46200,,", ",45800,", ",,2025-04-01"),
      "Inoculated 1900|Colonised 1900|Harvested 1900",
      [`1900: Inoculated and Colonised: ${among}`],
    ],
    [
      "counts in two columns and dates behind both",
      three("46200,,", ",45800,", ",,2026-12-01"),
      "Inoculated 1900|Colonised 1900|Harvested 1900",
      [`1900: Inoculated and Colonised: ${among}`],
    ],
  ])("by %s", async (_, text, columns, log) => {
    expect(await datesOf(text)).toEqual({ columns, log });
  });
  test("by the settings", async () => {
    expect(await datesOf(one("45800"), { serialDates: "1904" })).toEqual({ columns: "Inoculated 1904", log: [] });
  });
});
