import { zipSync } from "fflate";
import { expect, test } from "vitest";
import { tablesOf } from "./tables-of.ts";

const text = (content: string) => new TextEncoder().encode(content);
const main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

const letters = (column: number): string =>
  column < 26 ? String.fromCharCode(65 + column) : `${letters(Math.floor(column / 26) - 1)}${letters(column % 26)}`;

const cellXml = (cell: string, address: string): string =>
  /^-?\d+(?:\.\d+)?$/.test(cell)
    ? `<c${address}><v>${cell}</v></c>`
    : `<c${address} t="inlineStr"><is><t>${cell}</t></is></c>`;

interface Tab {
  name: string;
  rows: (string | undefined)[][];
  merges?: string[];
  hidden?: boolean;
  /** cells further away, by address */
  more?: Record<string, string>;
}

/** A workbook as spreadsheet programs write it. */
function xlsx(tabs: Tab[], names = { folder: "xl/", slash: "/", addresses: true }): Uint8Array {
  const parts: Record<string, Uint8Array> = {};
  const put = (name: string, xml: string) => {
    parts[name.replaceAll("/", names.slash)] = text(`<?xml version="1.0"?>${xml}`);
  };
  put(
    "_rels/.rels",
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r0" Type="${relations}/officeDocument" Target="${names.folder}workbook.xml"/></Relationships>`,
  );
  put(
    `${names.folder}workbook.xml`,
    `<workbook ${main} xmlns:r="${relations}"><sheets>${tabs.map(({ name, hidden }, index) => `<sheet name="${name}" sheetId="${index + 1}"${hidden ? ' state="hidden"' : ""} r:id="r${index + 1}"/>`).join("")}</sheets></workbook>`,
  );
  put(
    `${names.folder}_rels/workbook.xml.rels`,
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${tabs.map((_, index) => `<Relationship Id="r${index + 1}" Type="${relations}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`).join("")}</Relationships>`,
  );
  tabs.forEach(({ rows, merges = [], more = {} }, index) => {
    const body = rows.map((cells, row) => {
      const inner = cells
        .map((cell, column) =>
          cell === undefined || cell === ""
            ? names.addresses
              ? ""
              : "<c/>"
            : cellXml(cell, names.addresses ? ` r="${letters(column)}${row + 1}"` : ""),
        )
        .join("");
      return inner === "" ? "" : `<row${names.addresses ? ` r="${row + 1}"` : ""}>${inner}</row>`;
    });
    const far = Object.entries(more).map(
      ([address, cell]) => `<row r="${/\d+/.exec(address)![0]}">${cellXml(cell, ` r="${address}"`)}</row>`,
    );
    const merged =
      merges.length === 0
        ? ""
        : `<mergeCells>${merges.map((ref) => `<mergeCell ref="${ref}"/>`).join("")}</mergeCells>`;
    put(
      `${names.folder}worksheets/sheet${index + 1}.xml`,
      `<worksheet ${main}><sheetData>${body.join("")}${far.join("")}</sheetData>${merged}</worksheet>`,
    );
  });
  return zipSync(parts);
}

const header = ["Batch", "Dose ml", "Tray", "Fresh g"];
const trial: Tab = {
  name: "Trial",
  rows: [header, ["A", "10", "T1", "200"], ["", "", "T2", "205"], ["B", "15", "T3", "220"], ["", "", "T4", "230"]],
  merges: ["A2:A3", "B2:B3", "A4:A5", "B4:B5"],
};
const filled = ["Batch|Dose ml|Tray|Fresh g", "A|10|T1|200", "A|10|T2|205", "B|15|T3|220", "B|15|T4|230"];

test("merged cells of an .xlsx count for all their rows", async () => {
  const { texts, rules } = await tablesOf(xlsx([trial]), {}, "book.xlsx");
  expect(texts).toEqual([filled]);
  expect(rules).toEqual(["merged-cells: note", "merged-cells: note"]);
});

test("merged cells of an .ods count for all their rows", async () => {
  const cell = (shown: string, more = "") =>
    `<table:table-cell o:value-type="string"${more}><text:p>${shown}</text:p></table:table-cell>`;
  const down = ' table:number-rows-spanned="2" table:number-columns-spanned="1"';
  const covered = "<table:covered-table-cell/>";
  const row = (...cells: string[]) => `<table:table-row>${cells.join("")}</table:table-row>`;
  const body = [
    row(...header.map((name) => cell(name))),
    row(cell("A", down), cell("10", down), cell("T1"), cell("200")),
    row(covered, covered, cell("T2"), cell("205")),
    row(cell("B", down), cell("15", down), cell("T3"), cell("220")),
    row(covered, covered, cell("T4"), cell("230")),
  ];
  const urn = "urn:oasis:names:tc:opendocument:xmlns";
  const content = `<o:document-content xmlns:o="${urn}:office:1.0" xmlns:table="${urn}:table:1.0" xmlns:text="${urn}:text:1.0"><o:body><o:spreadsheet><table:table table:name="Trial">${body.join("")}</table:table></o:spreadsheet></o:body></o:document-content>`;
  const bytes = zipSync({
    mimetype: text("application/vnd.oasis.opendocument.spreadsheet"),
    "content.xml": text(content),
  });
  const { texts } = await tablesOf(bytes, {}, "book.ods");
  expect(texts).toEqual([filled]);
});

test("a weight merged over several trays is asked about and given to none", async () => {
  const rows = [
    ["Tray", "Dose ml", "Fresh g"],
    ["T1", "10", "610"],
    ["T2", "10", ""],
    ["T3", "10", ""],
    ["T4", "15", "220"],
  ];
  const { texts, issues } = await tablesOf(xlsx([{ name: "A", rows, merges: ["C2:C4"] }]), {}, "book.xlsx");
  expect(texts[0]!.slice(1)).toEqual(["T1|10|", "T2|10|", "T3|10|", "T4|15|220"]);
  expect(issues).toMatchObject([{ rule: "merged-result", severity: "warning", row: 2, column: "Fresh g" }]);
});

test("a title merged over the columns is a title", async () => {
  const rows = [
    ["Tray", "Dose ml", "Fresh g"],
    ["Batch A"],
    ["T1", "10", "200"],
    ["T2", "15", "210"],
    ["Batch B"],
    ["T3", "10", "190"],
  ];
  const { texts } = await tablesOf(xlsx([{ name: "A", rows, merges: ["A2:C2", "A5:C5"] }]), {}, "book.xlsx");
  expect(texts[0]).toEqual(["Tray|Dose ml|Fresh g|Batch", "T1|10|200|A", "T2|15|210|A", "T3|10|190|B"]);
});

test("every tab is looked at, and each is read or said why not", async () => {
  const readMe: Tab = { name: "Read me", rows: [["How to use this workbook"], ["Type one tray a row."]] };
  const empty: Tab = { name: "Sheet3", rows: [] };
  const hidden: Tab = { ...trial, name: "Old", hidden: true };
  const { tables, issues } = await tablesOf(xlsx([readMe, empty, trial, hidden]), {}, "book.xlsx");
  expect(tables.map(({ file }) => file)).toContain("book.xlsx > Trial");
  const said = issues.filter(({ rule }) => rule === "tab-not-read").map(({ file, severity }) => [file, severity]);
  expect(said).toContainEqual(["book.xlsx > Sheet3", "note"]);
  expect(said).toContainEqual(["book.xlsx > Old", "warning"]);
  expect(issues.filter(({ severity }) => severity === "error")).toEqual([]);
});

test.each([
  ["at the root of the archive", { folder: "", slash: "/", addresses: true }],
  ["with backslashes", { folder: "xl/", slash: "\\", addresses: true }],
  ["in capitals", { folder: "XL/", slash: "/", addresses: true }],
  ["with cells and rows that have no address", { folder: "xl/", slash: "/", addresses: false }],
])("parts %s", async (_, names) => {
  const { texts } = await tablesOf(xlsx([trial], names), {}, "book.xlsx");
  expect(texts).toEqual([filled]);
});

test("one cell in the last row and column of a sheet costs neither memory nor a flag for every column", async () => {
  const { texts, issues } = await tablesOf(xlsx([{ ...trial, more: { XFD1048576: "x" } }]), {}, "book.xlsx");
  expect(texts).toEqual([filled]);
  expect(issues.length).toBeLessThan(5);
});
