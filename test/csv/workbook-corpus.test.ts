import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { openSheet } from "../../src/csv/open-sheet.ts";
import { readOds } from "../../src/csv/workbook/read-ods.ts";
import { readXlsxSheet, sharedStrings } from "../../src/csv/workbook/read-xlsx.ts";
import { CellCount } from "../../src/csv/workbook/workbook-limit.ts";
import { xlsxParts } from "../../src/csv/workbook/xlsx-parts.ts";
import { cellStyles } from "../../src/csv/workbook/xlsx-styles.ts";
import { ZipEntries } from "../../src/csv/workbook/zip-entries.ts";
import reference from "../reference/workbooks-calamine.json" with { type: "json" };
import { sourceOf } from "./source-of.ts";

// Workbooks and the cells they hold, from the tests of calamine (github.com/tafia/calamine, MIT licence).
const bytesOf = (file: string) => readFileSync(new URL(`../reference/workbooks/${file}`, import.meta.url));

/** The filled rows of a sheet of a workbook, blank cells at their ends left out. */
function cellsOf(file: string, sheet: string | number): string[][] {
  const archive = new ZipEntries(bytesOf(file), 1e8);
  if (file.endsWith(".ods")) {
    const tables = readOds(archive.text("content.xml")!);
    const table = typeof sheet === "number" ? tables[sheet]! : tables.find(({ name }) => name === sheet)!;
    return table.rows.map(({ cells }) => cells);
  }
  const parts = xlsxParts(archive);
  const { sheets, strings, styles, from1904 } = parts;
  const { entry } = typeof sheet === "number" ? sheets[sheet]! : sheets.find(({ name }) => name === sheet)!;
  const context = {
    strings: sharedStrings(strings),
    styles: cellStyles(styles),
    from1904,
    count: new CellCount(),
    tab: "S1",
  };
  return readXlsxSheet(parts.sheet(entry)!, context).rows.map(({ cells }) => cells);
}

const trimmed = (rows: string[][]): string[][] =>
  rows
    .map((cells) => {
      let end = cells.length;
      while (end > 0 && cells[end - 1] === "") end--;
      return cells.slice(0, end);
    })
    .filter((cells) => cells.length > 0);

test.each(reference.cases)("$test: $file, sheet $sheet", ({ file, sheet, rows }) => {
  const found = trimmed(cellsOf(file, sheet));
  const expected = trimmed(rows);
  // their ranges begin at the first filled column
  const first = Math.min(...found.map((cells) => cells.findIndex((cell) => cell !== "")));
  expect(found.map((cells) => cells.slice(first)).slice(0, expected.length)).toEqual(expected);
});

test.each(["minimal_package.xlsx", "issue_530.xlsx", "issue_261.xlsx", "issue_419.xlsx", "date_iso.xlsx"])(
  "%s opens or says what it is, in time",
  async (file) => {
    const { tables, issues } = await openSheet(sourceOf(bytesOf(file), file));
    expect(tables.length + issues.length).toBeGreaterThan(0);
    expect(issues.filter(({ reason }) => reason.includes("damaged"))).toEqual([]);
  },
);

test("rows repeated without end are refused", async () => {
  const { tables, issues } = await openSheet(sourceOf(bytesOf("issue_594_dos.ods"), "issue_594_dos.ods"));
  expect(tables).toEqual([]);
  expect(issues.map(({ reason }) => reason)).toEqual([
    "a row with something in it is repeated thousands of times, down to the end of the sheet (tab Sheet1, from row 1)",
  ]);
});

test("dates and times written as ISO 8601 text", () => {
  expect(cellsOf("date_iso.xlsx", 0).slice(0, 3)).toEqual([["2021-01-01"], ["2021-01-01T10:10:10"], ["10:10:10"]]);
});
