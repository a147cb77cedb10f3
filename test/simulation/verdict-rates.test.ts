import { describe, expect, test } from "vitest";
import { crossedRows, nameRows, oneCookRows, payingRows, startedRows } from "./verdict-more-rows.ts";
import { countedMisses, coverageHeld, verdictMisses, verdictRates } from "./verdict-rates.ts";
import { readingRows, reportRows } from "./verdict-report-rows.ts";
import { gainRows, nullRows } from "./verdict-rows.ts";

/** Books a row here; the bench reads 2,000. Four standard errors, for some eighty rates are checked at once. */
const books = 50;
const errors = 4;

describe("verdicts on books of known truth, beside the specification's rates", () => {
  test.each(gainRows)("gain: $name", (row) => {
    expect(verdictMisses(row, verdictRates(row, books, 31_000), errors)).toEqual([]);
  });

  test.each(nullRows)("no effect: $name", (row) => {
    const rates = verdictRates(row, books, 32_000);
    expect(verdictMisses(row, rates, errors)).toEqual([]);
  });

  test.each(oneCookRows)("$name", (row) => {
    expect(coverageHeld(row, verdictRates(row, books, 33_000), errors)).toEqual([]);
  });

  test.each([...startedRows, ...crossedRows, ...payingRows])("$name", (row) => {
    expect(countedMisses(row, row.count(40, 34_000), 40, errors)).toEqual([]);
  });

  test.each(nameRows)("$name", (row) => {
    expect(countedMisses(row, row.count(40, 35_000), 40, errors)).toEqual([]);
  });

  test.each(reportRows)("$name", (row) => {
    expect(countedMisses(row, row.count(1000, 37_000), 1000, errors)).toEqual([]);
  });

  test.each(readingRows)("$name", (row) => {
    expect(countedMisses(row, row.count(40, 38_000), 40, errors)).toEqual([]);
  });

  test("a t test of all trays settles what is not there, where cooks or shelves differ", () => {
    for (const name of [
      "9 whole cooks, drawn in random order",
      "stepped up, dated",
      "shelves, two a dose in every cook",
    ]) {
      const row = nullRows.find((one) => one.name === name)!;
      expect(verdictRates(row, books, 36_000).naive, name).toBeGreaterThan(0.1);
    }
  });
});
