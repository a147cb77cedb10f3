import { describe, expect, test } from "vitest";
import { dashedNumbers, dateOrderEvidence } from "../../../src/cleaning/evidence/date-order-evidence.ts";
import { decimalEvidence } from "../../../src/cleaning/evidence/decimal-evidence.ts";
import { datesOf, marksOf } from "./agreed-by.ts";

const above12 = "other dates in the sheet have a number above 12 in that place";
const inColumn = "other dates in the column have a number above 12 in that place";
const backward = "in the other order stages of a tray would run backwards";
const otherTable = "dates of another table in the sheet have a number above 12 in that place";
const years = "their first numbers keep together as years do, or the stages of a tray would lie years apart";

const one = (...dates: string[]): string => ["Inoculated", ...dates, ""].join("\n");
const two = (...rows: string[]): string => ["Inoculated,Harvested", ...rows, ""].join("\n");

describe("the order of day and month", () => {
  test.each([
    ["a day above 12", one("3/4/26", "13/4/26"), "Inoculated day first", [`day first: Inoculated: ${above12}`]],
    ["a month above 12", one("3/4/26", "4/13/26"), "Inoculated month first", [`month first: Inoculated: ${above12}`]],
    ["without a year too", one("3/4", "13/4"), "Inoculated day first", [`day first: Inoculated: ${above12}`]],
    ["nothing", one("3/4/26", "4/5/26"), "Inoculated", []],
    ["nothing open", one("13/4/26"), "Inoculated day first", []],
    ["both in one column", one("3/4/26", "13/4/26", "4/13/26"), "Inoculated", []],
    [
      "the other column",
      two("3/4/26,13/6/26"),
      "Inoculated day first|Harvested day first",
      [`day first: Inoculated: ${above12}`],
    ],
    [
      "an order in each column",
      two("13/4/26,6/13/26", "3/4/26,6/7/26"),
      "Inoculated day first|Harvested month first",
      [`day first: Inoculated: ${inColumn}`, `month first: Harvested: ${inColumn}`],
    ],
    [
      "an order in each column, one of them with nothing open",
      two("13/4/26,6/13/26", "3/4/26,6/14/26"),
      "Inoculated day first|Harvested month first",
      [`day first: Inoculated: ${inColumn}`],
    ],
    [
      "stages that would run backwards, month first",
      two("10/4/26,1/6/26"),
      "Inoculated day first|Harvested day first",
      [`day first: Inoculated and Harvested: ${backward}`],
    ],
    [
      "stages that would run backwards, day first",
      two("4/10/26,6/1/26"),
      "Inoculated month first|Harvested month first",
      [`month first: Inoculated and Harvested: ${backward}`],
    ],
    ["stages that run backwards either way", two("10/4/26,1/6/26", "4/10/26,6/1/26"), "Inoculated|Harvested", []],
    ["stages on one day", two("3/4/26,3/4/26"), "Inoculated|Harvested", []],
    // a number above 12 is stronger than the stages of a tray
    [
      "a number above 12 against the stages",
      two("4/10/26,6/1/26", "13/4/26,14/6/26"),
      "Inoculated day first|Harvested day first",
      [`day first: Inoculated and Harvested: ${above12}`],
    ],
    [
      "both orders shown, and stages beside them",
      two("13/4/26,6/13/26", "4/10/26,6/1/26"),
      "Inoculated day first|Harvested month first",
      [`day first: Inoculated: ${inColumn}`, `month first: Harvested: ${inColumn}`],
    ],
    [
      "stages in one row are backward whatever the order of the others",
      two("2026-05-01,2026-04-01", "4/10/26,6/1/26"),
      "Inoculated month first|Harvested month first",
      [`month first: Inoculated and Harvested: ${backward}`],
    ],
  ])("by %s", async (_, text, columns, log) => {
    expect(await datesOf(text)).toEqual({ columns, log });
  });

  test("by the other tables of a sheet, where a table shows nothing", async () => {
    const open = one("3/4/26");
    expect(await datesOf(open, {}, "month first")).toEqual({
      columns: "Inoculated month first",
      log: [`month first: Inoculated: ${otherTable}`],
    });
    expect((await datesOf(one("13/4/26", "3/4/26"), {}, "month first")).columns).toBe("Inoculated day first");
    expect((await datesOf(one("3/4/26", "13/4/26", "4/13/26"), {}, "month first")).columns).toBe("Inoculated");
    expect((await datesOf(two("10/4/26,1/6/26"), {}, "month first")).columns).toContain("Inoculated day first");
  });

  test("by the settings, whatever the cells show", async () => {
    expect(await datesOf(one("3/4/26", "13/4/26"), { dateOrder: "month first" })).toEqual({
      columns: "Inoculated month first",
      log: [],
    });
    expect(await datesOf(one("26-01-14"), { dateOrder: "month first" })).toEqual({
      columns: "Inoculated month first",
      log: [],
    });
  });
});

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
    ["no year first in the settings' way", one("2026-01-14"), "Inoculated", []],
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
  ])("by %s", async (_, text, columns, log) => {
    expect(await datesOf(text)).toEqual({ columns, log });
  });
  test("by the settings", async () => {
    expect(await datesOf(one("45800"), { serialDates: "1904" })).toEqual({ columns: "Inoculated 1904", log: [] });
  });
});

describe("the decimal mark of a column", () => {
  test.each([
    ["its own cells", "Fresh wt,Dry wt\n12;5\n", {}, "Fresh wt ?|Dry wt ?"],
    ["its own cells", 'Fresh wt,Dry wt\n"12,5",12.5\n', {}, "Fresh wt ,|Dry wt ."],
    ["the sheet's", 'Fresh wt,Dry wt\n"12,5",12\n', {}, "Fresh wt ,|Dry wt ,"],
    ["the sheet's", "Fresh wt,Dry wt\n12,1.5\n", {}, "Fresh wt .|Dry wt ."],
    ["nobody's", "Fresh wt,Dry wt\n12,1\n", {}, "Fresh wt ?|Dry wt ?"],
    ["both in one column", 'Fresh wt,Dry wt\n12.5,1\n"12,5",1\n', {}, "Fresh wt ?|Dry wt ?"],
    ["a canonical header's", "fresh_g,Dry wt\n12,1\n", {}, "fresh_g .|Dry wt ?"],
    [
      "a canonical header's, where others have a comma",
      'fresh_g,Dry wt,Substrate wt\n12,"1,5",500.5\n',
      {},
      "fresh_g ?|Dry wt ,|Substrate wt .",
    ],
    ["the settings'", 'Fresh wt\n"12,5"\n', { decimalMark: "point" as const }, "Fresh wt ."],
    ["the settings'", "fresh_g\n12.5\n", { decimalMark: "comma" as const }, "fresh_g ,"],
  ])("is %s", async (_, text, settings, expected) => {
    expect(await marksOf(text, settings)).toBe(expected);
  });

  test.each([
    [",5", ","],
    ["0,5", ","],
    ["0,123", ","],
    ["12,3", ","],
    ["12,34", ","],
    ["1,2345", ","],
    ["1234,567", ","],
    ["1.234,5 g", ","],
    ["about 12,5 g", ","],
    [".5", "."],
    ["0.5", "."],
    ["0.123", "."],
    ["12.3", "."],
    ["12.34", "."],
    ["1.2345", "."],
    ["1234.567", "."],
    ["1,234.5 g", "."],
    ["about 12.5 g", "."],
    ["12,345", ""],
    ["123.456", ""],
    ["1.234.567", ""],
    ["1,2,3", ""],
    ["1.2.3", ""],
    ["12,5 and 12.5", ""],
    ["12", ""],
    ["12,", ""],
    ["12.", ""],
  ])("%s shows %j", (cell, mark) => {
    expect(decimalEvidence(cell)).toBe(mark);
  });
});

test.each([
  ["13/4/26", "day first"],
  ["31/12/2026", "day first"],
  ["13/4", "day first"],
  ["13.4.", "day first"],
  ["4/13", "month first"],
  ["12/31/2026", "month first"],
  ["Tue 13/4/26", "day first"],
  ["13 4 2026", "day first"],
  ["4 / 13 / '26", "month first"],
  ["13/4/26 14:30", "day first"],
  ["12/12/26", ""],
  ["13/13/26", ""],
  ["32/4/26", ""],
  ["4/32/26", ""],
  ["13/4/2026123", ""],
  ["13/4/261", ""],
  ["13/4x", ""],
  ["2026-04-13", ""],
  ["26-04-13", ""],
  ["", ""],
])("%s shows the order %j", (cell, order) => {
  expect(dateOrderEvidence(cell)).toBe(order);
});

test.each([
  ["26-01-14", [26, 1, 14]],
  [" 26-1-14 ", [26, 1, 14]],
  ["26/01/14", undefined],
  ["2026-01-14", undefined],
  ["26-01-2014", undefined],
  ["6-01-14", undefined],
  ["x26-01-14", undefined],
  ["26-01-14x", undefined],
])("the three numbers of %j are %j", (cell, numbers) => {
  expect(dashedNumbers(cell)).toEqual(numbers);
});
