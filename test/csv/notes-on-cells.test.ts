import { readFileSync } from "node:fs";
import { zipSync } from "fflate";
import { expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { readOds } from "../../src/csv/workbook/read-ods.ts";
import { ZipEntries } from "../../src/csv/workbook/zip-entries.ts";
import { inShort, sheet } from "../cleaning/book-of.ts";

const text = (content: string) => new TextEncoder().encode(`<?xml version="1.0"?>${content}`);
const main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const list = 'xmlns="http://schemas.openxmlformats.org/package/2006/relationships"';
const related = (id: string, type: string, target: string) =>
  `<Relationship Id="${id}" Type="${relations}/${type}" Target="${target}"/>`;

/** A cell; what is struck through is written with a tilde before it. */
const cellXml = (typed: string): string => {
  const style = typed.startsWith("~") ? ' s="1"' : "";
  const cell = typed.replace(/^~/, "");
  if (cell === "") return "<c/>";
  return /^[\d.]+$/.test(cell)
    ? `<c${style}><v>${cell}</v></c>`
    : `<c${style} t="inlineStr"><is><t>${cell}</t></is></c>`;
};

/** A workbook of one tab, its parts as ECMA-376 part 1, 18.7 (comments) and 18.8.22 (font) have them. */
function xlsx(rows: string[], notes: Record<string, string>): Uint8Array {
  const body = rows.map((row) => `<row>${row.split(",").map(cellXml).join("")}</row>`).join("");
  const comments = Object.entries(notes).map(
    ([ref, note]) => `<comment ref="${ref}" authorId="0"><text><r><t>${note}</t></r></text></comment>`,
  );
  return zipSync({
    "_rels/.rels": text(`<Relationships ${list}>${related("a", "officeDocument", "xl/workbook.xml")}</Relationships>`),
    "xl/workbook.xml": text(
      `<workbook ${main} xmlns:r="${relations}"><sheets><sheet name="Run" sheetId="1" r:id="a"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": text(
      `<Relationships ${list}>${related("a", "worksheet", "worksheets/sheet1.xml")}${related("b", "styles", "styles.xml")}</Relationships>`,
    ),
    "xl/styles.xml": text(
      `<styleSheet ${main}><fonts><font/><font><strike/></font></fonts><cellXfs><xf fontId="0"/><xf fontId="1"/></cellXfs></styleSheet>`,
    ),
    "xl/worksheets/sheet1.xml": text(`<worksheet ${main}><sheetData>${body}</sheetData></worksheet>`),
    "xl/worksheets/_rels/sheet1.xml.rels": text(
      `<Relationships ${list}>${related("a", "comments", "../comments1.xml")}</Relationships>`,
    ),
    "xl/comments1.xml": text(
      `<comments ${main}><authors><author>me</author></authors><commentList>${comments.join("")}</commentList></comments>`,
    ),
  });
}

/** The same in OpenDocument 1.2, 14.1 (annotation) and 20.356 (text-line-through-style). */
function ods(rows: string[], notes: Record<string, string>): Uint8Array {
  const urn = "urn:oasis:names:tc:opendocument:xmlns";
  const cellOf = (typed: string, address: string): string => {
    const note = notes[address];
    const pinned = note === undefined ? "" : `<o:annotation><text:p>${note}</text:p></o:annotation>`;
    const style = typed.startsWith("~") ? ' table:style-name="c1"' : "";
    const cell = typed.replace(/^~/, "");
    if (cell === "") return `<table:table-cell>${pinned}</table:table-cell>`;
    const value = /^[\d.]+$/.test(cell) ? `o:value-type="float" o:value="${cell}"` : 'o:value-type="string"';
    return `<table:table-cell${style} ${value}>${pinned}<text:p>${cell}</text:p></table:table-cell>`;
  };
  const body = rows.map(
    (row, y) =>
      `<table:table-row>${row
        .split(",")
        .map((cell, x) => cellOf(cell, `${"ABCDEF"[x]}${y + 1}`))
        .join("")}</table:table-row>`,
  );
  return zipSync({
    mimetype: new TextEncoder().encode("application/vnd.oasis.opendocument.spreadsheet"),
    "content.xml": text(
      `<o:document-content xmlns:o="${urn}:office:1.0" xmlns:table="${urn}:table:1.0" xmlns:text="${urn}:text:1.0" xmlns:style="${urn}:style:1.0"><o:automatic-styles><style:style style:name="c1" style:family="table-cell"><style:text-properties style:text-line-through-style="solid"/></style:style></o:automatic-styles><o:body><o:spreadsheet><table:table table:name="Run">${body.join("")}</table:table></o:spreadsheet></o:body></o:document-content>`,
    ),
  });
}

const four = ["Tray,LC ml,Fresh g", "A1,5,201", "A2,5,210", "A3,10,", "A4,10,236"];
const plain = ["A1: good 201/", "A2: good 210/", "A3: growing", "A4: good 236/"];
const changed = (...trays: string[]): string[] =>
  plain.map((line) => trays.find((tray) => tray.slice(0, 3) === line.slice(0, 3)) ?? line);

test.each([
  ["nothing pinned", four, {}, plain, []],
  ["a loss", four, { C4: "me:\nbinned, trich on day 9" }, changed("A3: contaminated"), ["note-on-cell"]],
  ["a weight put right", four, { C3: "scale off, should be 120" }, changed("A2: asked 210/"), ["note-on-cell"]],
  ["a note without weight of its own", four, { A2: "nice and white" }, plain, ["note-on-cell"]],
  [
    "a row struck through",
    ["Tray,LC ml,Fresh g", "A1,5,201", "A2,5,210", "~A3,~10,", "A4,10,~236"],
    {},
    changed("A3: asked", "A4: asked 236/"),
    ["note-on-cell"],
  ],
  [
    "what all weights are with, at their name",
    four,
    { C1: "incl. 100 g tray" },
    ["A1: asked", "A2: asked", "A3: asked", "A4: asked"],
    ["note-on-cell"],
  ],
])("notes pinned to cells: %s", async (_, rows, notes, trays, rules) => {
  for (const make of [xlsx, ods]) {
    const book = await cleanBook([sheet(`book.${make.name}`, make(rows, notes as Record<string, string>))]);
    expect(inShort(book), make.name).toEqual(trays);
    const said = [...new Set(book.issues.map(({ rule }) => rule).filter((rule) => rule === "note-on-cell"))];
    expect(said, make.name).toEqual(rules);
  }
});

// with-annotation.ods is one of calamine's test files (github.com/tafia/calamine, MIT licence)
test("an annotation as an office program writes it", () => {
  const bytes = readFileSync(new URL("../reference/workbooks/with-annotation.ods", import.meta.url));
  const [table] = readOds(new ZipEntries(bytes, 1e8).text("content.xml")!);
  expect(table).toMatchObject({
    rows: [{ row: 1, cells: ["cell a.1"] }],
    notes: [{ row: 1, column: 0, text: "This is annotation of a.1" }],
  });
});
