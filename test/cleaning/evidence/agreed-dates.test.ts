import { describe, expect, test } from "vitest";
import { dashedNumbers, dateOrderEvidence } from "../../../src/cleaning/evidence/date-order-evidence.ts";
import { decimalEvidence } from "../../../src/cleaning/evidence/decimal-evidence.ts";
import { datesOf, marksOf } from "./agreed-by.ts";

const above12 = "other dates in the sheet have a number above 12 in that place";
const inColumn = "other dates in the column have a number above 12 in that place";
const backward = "in the other order stages of a tray would run backwards";
const otherTable = "dates of another table in the sheet have a number above 12 in that place";

const one = (...dates: string[]): string => ["Inoculated", ...dates, ""].join("\n");
const three = (...rows: string[]): string => ["Inoculated,Colonised,Harvested", ...rows, ""].join("\n");
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
      "stages, but not of a row that is backward in any order",
      three("2026-05-01,2026-04-01,4/10/26", ",4/10/26,6/1/26"),
      "Inoculated month first|Colonised month first|Harvested month first",
      [`month first: Colonised and Harvested: ${backward}`],
    ],
    [
      "stages, a word among them",
      three("2026-05-01,n/a,4/10/26"),
      "Inoculated day first|Colonised day first|Harvested day first",
      [`day first: Harvested: ${backward}`],
    ],
    [
      "stages that may be on one day",
      two("2026-04-03,3/4/26"),
      "Inoculated day first|Harvested day first",
      [`day first: Harvested: ${backward}`],
    ],
    [
      "stages, where day first would run backwards",
      two("2026-05-01,10/4/26"),
      "Inoculated month first|Harvested month first",
      [`month first: Harvested: ${backward}`],
    ],
    [
      "stages, in whatever order their columns stand",
      "Harvested,Inoculated\n1/6/26,10/4/26\n",
      "Harvested day first|Inoculated day first",
      [`day first: Harvested and Inoculated: ${backward}`],
    ],
    [
      "stages, but not by the dates of flushes side by side",
      "Tray,Flush 2 (g),Flush 2 date,Flush 1 (g),Flush 1 date\nA,90,10/4/26,80,1/6/26\n",
      "Flush 2 date|Flush 1 date",
      [],
    ],
    ["dates in a note tell nothing", "Note,Inoculated\n13/4/26,3/4/26\n", "Inoculated", []],
    ["a day that is none tells nothing", one("31/4/2026", "3/4/2026"), "Inoculated", []],
    ["nothing open without a year", one("13/4"), "Inoculated day first", []],
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
    expect(await datesOf(one("32-01-14"), { dateOrder: "month first" })).toEqual({
      columns: "Inoculated month first",
      log: [],
    });
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
    ["not a note's", "Note,Fresh wt\n1.5,12\n", {}, "Note ?|Fresh wt ?"],
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
