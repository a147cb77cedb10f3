import fc from "fast-check";
import { zipSync } from "fflate";
import { expect, test } from "vitest";
import { openSheet } from "../../src/csv/open-sheet.ts";
import { numberFormat } from "../../src/csv/workbook/xlsx-format.ts";
import { bombFiles } from "../bench/bomb-files.ts";
import reference from "../reference/workbooks-openpyxl.json" with { type: "json" };
import { sourceOf } from "./source-of.ts";

const bytesOf = (base64: string) => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
const text = (content: string) => new TextEncoder().encode(content);

async function open(bytes: Uint8Array, sheetName?: string) {
  const opened = await openSheet(sourceOf(bytes, "book.xlsx", 1000), { sheetName });
  const rows: [number, ...string[]][] = [];
  opened.tables[0]?.forEachRow((cells, row) => rows.push([row, ...cells]));
  return { ...opened, rows, table: opened.tables[0] };
}

test.each(["workbook1900", "workbook1904"] as const)("%s written by openpyxl reads as typed", async (which) => {
  const opened = await open(bytesOf(reference[which]));
  expect(opened.table!.file).toBe("book.xlsx > Trial");
  expect(opened.table!.headerRow).toBe(3);
  expect(opened.table!.header).toEqual([
    "Tray",
    "Inoculated",
    "Fresh wt",
    "Loss",
    "Bag weight",
    "Price",
    "Dry (g)",
    "Seen at",
    "Done",
    "Note",
  ]);
  expect(opened.rows).toEqual([
    [4, "T1", "2026-03-04", "188", "12.9%", "0.5 kg", "€12.9", "#DIV/0!", "13:30", "TRUE", "µ & <ok>"],
    [5, "T2", "2026-03-05T13:30", "0.1", "7%", "1.25 kg", "€4", "#REF!", "", "FALSE", " two\nlines "],
  ]);
  expect(opened.leftOut.map(({ rule, row }) => [rule, row])).toEqual([
    ["title-line", 1],
    ["blank-row", 2],
    ["blank-row", 6],
    ["totals-row", 7],
  ]);
  expect(opened.issues).toEqual([]);
  // every tab is read
  expect(opened.tables.map(({ file, header }) => [file, header.length])).toEqual([
    ["book.xlsx > Trial", 10],
    ["book.xlsx > Costs & more", 2],
  ]);
});

test("a named sheet, whatever its case; an unknown one is refused with the names there are", async () => {
  const opened = await open(bytesOf(reference.workbook1900), "costs & MORE");
  expect(opened.rows).toEqual([[2, "bag", "0.46"]]);
  expect(opened.issues).toEqual([]);
  const none = await open(bytesOf(reference.workbook1900), "Harvest");
  expect(none.issues).toMatchObject([
    { rule: "no-such-sheet", severity: "error", expected: "one of: Trial, Costs & more" },
  ]);
});

const ods = (body: string, more: Record<string, Uint8Array> = {}) =>
  zipSync({
    mimetype: text("application/vnd.oasis.opendocument.spreadsheet"),
    "content.xml": text(
      `<?xml version="1.0"?><o:document-content xmlns:o="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"><o:body><o:spreadsheet>${body}</o:spreadsheet></o:body></o:document-content>`,
    ),
    ...more,
  });
const cell = (shown: string, attributes = 'o:value-type="string"') =>
  `<table:table-cell ${attributes}><text:p>${shown}</text:p></table:table-cell>`;
const header = `<table:table-row>${["Tray", "When", "Fresh", "Loss", "Price", "Note"].map((name) => cell(name)).join("")}</table:table-row>`;

test("an OpenDocument sheet: typed values, repeated cells and rows, notes in a column of their own", async () => {
  const body = `<table:table table:name="Trial">
    ${header}
    <table:table-row table:number-rows-repeated="2">${cell("T1")}${cell("04.03.26", 'o:value-type="date" o:date-value="2026-03-04"')}${cell("0,1", 'o:value-type="float" o:value="0.12"')}${cell("13 %", 'o:value-type="percentage" o:value="0.129"')}${cell("12,90 €", 'o:value-type="currency" o:currency="EUR" o:value="12.9"')}${cell('a<text:s text:c="2"/>b')}</table:table-row>
    <table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="6"/></table:table-row>
    <table:table-row>${cell("T2")}${cell("13:30", 'o:value-type="time" o:time-value="PT13H30M00S"')}${cell("1,3 kg", 'o:value-type="float" o:value="1.25"')}<table:table-cell table:number-columns-repeated="2"/><table:table-cell o:value-type="string"><o:annotation><text:p>pinned note</text:p></o:annotation><text:p>one</text:p><text:p>two &amp; &#128512;</text:p></table:table-cell></table:table-row>
    <table:table-row>${cell("T3")}${cell("x", 'o:value-type="date" o:date-value="2026-03-04T13:30:00"')}${cell("#REF!", 'o:value-type="float" o:value="0" calcext:value-type="error"')}${cell("x", 'table:number-columns-repeated="2" o:value-type="string"')}${cell("WAHR", 'o:value-type="boolean" o:boolean-value="true"')}</table:table-row>
    <table:table-row table:number-rows-repeated="1048000"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
  </table:table><table:table table:name="Other"/>`;
  const opened = await open(ods(body));
  expect(opened.table!.file).toBe("book.xlsx > Trial");
  expect(opened.rows).toEqual([
    [2, "T1", "2026-03-04", "0.12", "12.9%", "12.9 EUR", "a  b", ""],
    [3, "T1", "2026-03-04", "0.12", "12.9%", "12.9 EUR", "a  b", ""],
    [7, "T2", "13:30", "1.25 kg", "", "", "one\ntwo & 😀", "pinned note"],
    [8, "T3", "2026-03-04T13:30", "#REF!", "x", "x", "TRUE", ""],
  ]);
  expect(opened.issues.map(({ file, rule, reason }) => [file, rule, reason])).toEqual([
    ["book.xlsx > Trial", "note-on-cell", "pinned to a cell, or the cell is struck through: read as a note of the row"],
    ["book.xlsx > Other", "tab-not-read", "the tab was looked at and not read: it is empty"],
  ]);
});

test("a filled row repeated to the end of an OpenDocument sheet is refused at once, not read as a million trays", async () => {
  const endless = (times: string) =>
    ods(
      `<table:table table:name="A">${header}<table:table-row table:number-rows-repeated="${times}">${cell("T1")}</table:table-row></table:table>`,
    );
  for (const times of ["1000000000", "1e99", "10001"]) {
    const { issues, rows } = await open(endless(times));
    expect([rows.length, issues[0]!.reason]).toEqual([0, expect.stringContaining("(tab A, from row 2)")]);
    expect(issues[0]!.action).toBe("Delete the rows below the last tray and save the workbook again");
  }
  expect((await open(endless("10000"))).rows.length).toBe(10_000);
});

test.each([
  ["1,000 tabs (.xlsx)", /more tabs than are read at once \(1000, of which 400/],
  ["1,000 tabs (.ods)", /more tabs/],
  ["a cell in XFD of every row (.xlsx)", /more cells than are read at once.*reached in row 123\)/],
  ["columns repeated 10^9 times in 9,000 rows (.ods)", /more cells/],
  ["a row repeated 10^9 times (.ods)", /repeated thousands of times/],
  ["100 rows of 16,384 columns (.xlsx)", /more filled cells than are read \(tab S1, row 1\)/],
  ["a sheet said to be of 4 GB (.xlsx)", /too large/],
  ["a sheet said to be of 10 bytes (.xlsx)", /damaged/],
  ["archives in archives (.xlsx)", /a zip archive/],
  ["a tag of 2 million attributes (.xlsx)", /damaged.*a tag in it is too long/],
  ["a picture of 3 GB inside (.xlsx)", undefined],
  ["a cell at XFD1048576 (.xlsx)", undefined],
  ["entities that hold entities (.ods)", undefined],
  ["an entity that is a file (.ods)", undefined],
])("%s is read or refused with what it is", async (name, why) => {
  const bomb = bombFiles.find(({ what, ending }) => `${what} (.${ending})` === name)!;
  const { tables, issues, rows } = await open(bomb.make() as Uint8Array);
  const errors = issues.filter(({ severity }) => severity === "error");
  if (why === undefined) {
    expect(errors).toEqual([]);
    expect(rows.length).toBeGreaterThanOrEqual(12);
    expect(JSON.stringify(rows)).not.toMatch(/root:/);
  } else {
    expect(tables).toEqual([]);
    expect(errors.map(({ reason }) => reason)).toEqual([expect.stringMatching(why)]);
    expect(errors[0]!.action).not.toBe("");
  }
});

test.each([
  ["an archive", zipSync({ "a/harvest.csv": text("x") }), "a zip archive, not a sheet (holding a/harvest.csv)"],
  ["an empty archive", zipSync({}), "a zip archive, not a sheet (empty)"],
  ["a document", zipSync({ "word/document.xml": text("<x/>") }), "word processor"],
  ["slides", zipSync({ "ppt/presentation.xml": text("<x/>") }), "slide show"],
  ["a binary workbook", zipSync({ "xl/workbook.bin": text("x") }), ".xlsb"],
  ["another program's workbook", zipSync({ "Index/Document.iwa": text("x") }), "a format that is not read"],
  [
    "an OpenDocument text",
    zipSync({ mimetype: text("application/vnd.oasis.opendocument.text"), "content.xml": text("<x/>") }),
    "word processor",
  ],
  [
    "a protected OpenDocument sheet",
    ods("", { "META-INF/manifest.xml": text('<m:manifest xmlns:m="x"><m:encryption-data/></m:manifest>') }),
    "protected by a password",
  ],
  ["a wholly encrypted OpenDocument sheet", zipSync({ "encrypted-package": text("x") }), "protected by a password"],
  ["a workbook cut short", bytesOf(reference.workbook1900).slice(0, 3000), "damaged"],
  ["a workbook without its sheet", zipSync({ "xl/workbook.xml": text("<workbook/>") }), "damaged"],
  ["a sheet that is not well-formed", ods("<table:table><oops>"), "damaged"],
])("%s is said to be what it is", async (_, bytes, what) => {
  const opened = await open(bytes);
  expect(opened.tables).toEqual([]);
  expect(opened.issues.length).toBe(1);
  expect(opened.issues[0]!.reason).toContain(what);
  expect(opened.issues[0]!.severity).toBe("error");
});

test.each([
  ["EncryptedPackage", "protected by a password"],
  ["Workbook", "old .xls format"],
  ["WordDocument", "word processor"],
  ["Something", "binary file"],
])("a compound file with the entry %s", async (entry, what) => {
  const bytes = new Uint8Array(2000);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  [...entry].forEach((character, index) => {
    bytes[1024 + 2 * index] = character.charCodeAt(0);
  });
  expect((await open(bytes)).issues[0]!.reason).toContain(what);
});

test("a forged row number does not make the reader count to it", async () => {
  const part = (body: string) => text(`<?xml version="1.0"?>${body}`);
  const main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
  const bytes = zipSync({
    "xl/workbook.xml": part(
      `<workbook ${main} xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="A" sheetId="1" r:id="r1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": part(
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>',
    ),
    "xl/worksheets/sheet1.xml": part(
      `<worksheet ${main}><sheetData><row r="99999999999"><c r="A99999999999"><v>1</v></c></row></sheetData></worksheet>`,
    ),
  });
  expect((await open(bytes)).issues[0]!.reason).toContain("a row lies outside the sheet");
});

test("a workbook with any byte changed gives rows or one error", async () => {
  const good = bytesOf(reference.workbook1900);
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { minLength: 1, maxLength: 20 }),
      async (changes) => {
        const bytes = good.slice();
        for (const [at, value] of changes) bytes[at] = value;
        const opened = await open(bytes);
        expect(opened.tables.length + opened.issues.length).toBeGreaterThan(0);
      },
    ),
  );
});

test.each([
  ["0.0%", true, "", ""],
  ['0.0" kg"', false, "", "kg"],
  ["#,##0.00\\ \\g", false, "", "g"],
  ["[$€-407] #,##0.00", false, "€", ""],
  ["#,##0.00 [$€-407];[Red]-#,##0.00 [$€-407]", false, "", "€"],
  ['"$"#,##0_);("$"#,##0)', false, "$", ""],
  ["0.0,\\k", false, "", ""],
  ["0.00", false, "", ""],
  ['0"°C"', false, "", "°C"],
  ["0.00E+00", false, "", ""],
])("number format %s", (code, percent, before, after) => {
  expect(numberFormat(code)).toEqual({ percent, before, after });
});
