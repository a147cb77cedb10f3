import { closeSync, openSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { strToU8, type Zippable, zipSync } from "fflate";

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const relations = "http://schemas.openxmlformats.org/package/2006/relationships";
const documents = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const urn = "urn:oasis:names:tc:opendocument:xmlns";

const header = ["tray_id", "batch", "inoculum_ml", "fresh_g", "dry_g", "outcome"];
const trayCells = (row: number): string[] => [
  ...[`T${row}`, `C${Math.floor(row / 6)}`, row % 2 === 0 ? "5" : "10"],
  ...[String(200 + (row % 40)), String(20 + (row % 7)), "good"],
];

const letters = (column: number): string =>
  column < 26 ? String.fromCharCode(65 + column) : `${letters(Math.floor(column / 26) - 1)}${letters(column % 26)}`;
const cell = (text: string, place: string): string =>
  /^[\d.]+$/.test(text)
    ? `<c r="${place}"><v>${text}</v></c>`
    : `<c r="${place}" t="inlineStr"><is><t>${text}</t></is></c>`;
const row = (cells: ReadonlyArray<string>, number: number): string =>
  `<row r="${number}">${cells.map((text, column) => cell(text, `${letters(column)}${number}`)).join("")}</row>`;

/** Rows of a sheet of trays: the header and so many of them, with columns of numbers beside. */
const trayRows = (trays: number, more = 0, from = 0): string[] => {
  const extra = (of: (k: number) => string): string[] => Array.from({ length: more }, (_, k) => of(k));
  const names = extra((k) => `x${k}`);
  const numbers = extra(String);
  return [
    row([...header, ...names], 1),
    ...Array.from({ length: trays }, (_, k) => row([...trayCells(from + k), ...numbers], k + 2)),
  ];
};

const sheetOf = (rows: ReadonlyArray<string>): string =>
  `<worksheet xmlns="${main}"><sheetData>${rows.join("")}</sheetData></worksheet>`;

/** An .xlsx of these sheets, with more parts beside. */
export function xlsx(sheets: ReadonlyArray<string>, more: Record<string, string | Uint8Array> = {}): Uint8Array {
  const numbers = sheets.map((_, index) => index + 1);
  const parts: Record<string, string | Uint8Array> = {
    "_rels/.rels": `<Relationships xmlns="${relations}"><Relationship Id="r1" Type="${documents}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${documents}"><sheets>${numbers.map((k) => `<sheet name="S${k}" sheetId="${k}" r:id="r${k}"/>`).join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${relations}">${numbers.map((k) => `<Relationship Id="r${k}" Type="${documents}/worksheet" Target="worksheets/sheet${k}.xml"/>`).join("")}<Relationship Id="s" Type="${documents}/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="t" Type="${documents}/styles" Target="styles.xml"/></Relationships>`,
    ...Object.fromEntries(sheets.map((sheet, index) => [`xl/worksheets/sheet${index + 1}.xml`, sheet])),
    ...more,
  };
  const zipped: Zippable = {};
  for (const [name, part] of Object.entries(parts)) zipped[name] = typeof part === "string" ? strToU8(part) : part;
  return zipSync(zipped, { level: 1 });
}

/** An .ods of this body. */
export const ods = (body: string, before = ""): Uint8Array =>
  zipSync(
    {
      mimetype: [strToU8("application/vnd.oasis.opendocument.spreadsheet"), { level: 0 }],
      "content.xml": strToU8(
        `<?xml version="1.0"?>${before}<office:document-content xmlns:office="${urn}:office:1.0" xmlns:table="${urn}:table:1.0" xmlns:text="${urn}:text:1.0"><office:body><office:spreadsheet>${body}</office:spreadsheet></office:body></office:document-content>`,
      ),
    },
    { level: 1 },
  );
const odsCell = (text: string, attributes = ""): string =>
  `<table:table-cell office:value-type="string"${attributes}><text:p>${text}</text:p></table:table-cell>`;
const odsRow = (cells: ReadonlyArray<string>): string =>
  `<table:table-row>${cells.map((text) => odsCell(text)).join("")}</table:table-row>`;
const odsTable = (name: string, trays: number, more = "", from = 0): string =>
  `<table:table table:name="${name}">${odsRow(header)}${Array.from({ length: trays }, (_, k) => odsRow(trayCells(from + k))).join("")}${more}</table:table>`;

/** Writes a number of four bytes over the size of an entry, unpacked, in the archive's list and at the entry itself. */
function withSize(archive: Uint8Array, entry: string, size: number): Uint8Array {
  const changed = archive.slice();
  const view = new DataView(changed.buffer);
  const name = strToU8(entry);
  const isNameAt = (at: number): boolean => name.every((byte, index) => changed[at + index] === byte);
  for (let at = 0; at + 46 < changed.length; at++) {
    const signature = view.getUint32(at, true);
    if (signature === 0x04034b50 && isNameAt(at + 30)) view.setUint32(at + 22, size, true);
    if (signature === 0x02014b50 && isNameAt(at + 46)) view.setUint32(at + 24, size, true);
  }
  return changed;
}

const strings = (count: number, text: (k: number) => string): string =>
  `<sst xmlns="${main}">${Array.from({ length: count }, (_, k) => `<si><t>${text(k)}</t></si>`).join("")}</sst>`;
const trays = (count: number, more = 0): string => sheetOf(trayRows(count, more));
const utf16 = (text: string): Uint8Array => {
  const bytes = new Uint8Array(2 + 2 * text.length);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 0xfeff, true);
  for (let index = 0; index < text.length; index++) view.setUint16(2 + 2 * index, text.charCodeAt(index), true);
  return bytes;
};
const csvRows = (count: number): string =>
  [header, ...Array.from({ length: count }, (_, k) => trayCells(k))].map((cells) => cells.join(",")).join("\n");

/** A book of trays with something in it, what it is and the ending of its file. */
export interface Bomb {
  what: string;
  ending: "xlsx" | "ods" | "csv";
  make(): Uint8Array | string;
  /** it is no attack: its trays are read */
  trays?: number;
}

/** Sheets that are made to take for ever, or all memory. */
export const bombFiles: ReadonlyArray<Bomb> = [
  { what: "6 million cells", ending: "xlsx", make: () => xlsx([trays(60_000, 94)]) },
  { what: "20,000 trays of 30 columns", ending: "xlsx", make: () => xlsx([trays(20_000, 24)]), trays: 20_000 },
  {
    what: "1,000 tabs",
    ending: "xlsx",
    make: () => xlsx(Array.from({ length: 1000 }, (_, k) => sheetOf(trayRows(6, 0, 6 * k)))),
  },
  {
    what: "400 tabs",
    ending: "xlsx",
    make: () => xlsx(Array.from({ length: 400 }, (_, k) => sheetOf(trayRows(6, 0, 6 * k)))),
    trays: 2400,
  },
  { what: "a tab copied 400 times", ending: "xlsx", make: () => xlsx(Array.from({ length: 400 }, () => trays(6))) },
  { what: "100 rows of 16,384 columns", ending: "xlsx", make: () => xlsx([trays(100, 16_378)]) },
  { what: "100 rows of 4,096 columns", ending: "xlsx", make: () => xlsx([trays(100, 4090)]), trays: 100 },
  { what: "1,000 tabs of nothing", ending: "xlsx", make: () => xlsx(Array.from({ length: 1000 }, () => sheetOf([]))) },
  {
    what: "1,000 tabs",
    ending: "ods",
    make: () => ods(Array.from({ length: 1000 }, (_, k) => odsTable(`S${k}`, 6, "", 6 * k)).join("")),
  },
  {
    what: "6 million cells",
    ending: "ods",
    make: () => ods(odsTable("S", 6, `<table:table-row>${odsCell("1").repeat(100)}</table:table-row>`.repeat(60_000))),
  },
  {
    what: "a picture of 3 GB inside",
    ending: "xlsx",
    make: () =>
      withSize(
        xlsx([trays(12)], { "xl/media/image1.png": new Uint8Array(1 << 20) }),
        "xl/media/image1.png",
        3_000_000_000,
      ),
    trays: 12,
  },
  {
    what: "a cell at XFD1048576",
    ending: "xlsx",
    make: () => xlsx([sheetOf([...trayRows(12), `<row r="1048576">${cell("1", "XFD1048576")}</row>`])]),
  },
  {
    what: "a cell in XFD of every row",
    ending: "xlsx",
    make: () =>
      xlsx([sheetOf(trayRows(20_000).map((xml, k) => xml.replace("</row>", `${cell("1", `XFD${k + 1}`)}</row>`)))]),
  },
  {
    what: "a row repeated 10^9 times",
    ending: "ods",
    make: () =>
      ods(
        odsTable("S", 12, `<table:table-row table:number-rows-repeated="1000000000">${odsCell("x")}</table:table-row>`),
      ),
  },
  {
    what: "columns repeated 10^9 times in 9,000 rows",
    ending: "ods",
    make: () =>
      ods(
        odsTable(
          "S",
          12,
          `<table:table-row table:number-rows-repeated="9000">${odsCell("x", ' table:number-columns-repeated="1000000000"')}</table:table-row>`,
        ),
      ),
  },
  {
    what: "columns repeated to the end in 1,000 rows",
    ending: "ods",
    make: () =>
      ods(
        odsTable(
          "S",
          12,
          `<table:table-row>${odsCell("x", ' table:number-columns-repeated="16384"')}</table:table-row>`.repeat(1000),
        ),
      ),
  },
  {
    what: "archives in archives",
    ending: "xlsx",
    make: () => {
      let inner = zipSync({ "x.csv": strToU8(csvRows(12)) });
      for (let depth = 0; depth < 60; depth++) inner = zipSync({ [`${depth}.zip`]: inner });
      return inner;
    },
  },
  {
    what: "a sheet said to be of 10 bytes",
    ending: "xlsx",
    make: () => withSize(xlsx([trays(12)]), "xl/worksheets/sheet1.xml", 10),
  },
  {
    what: "200 MB said to be of 1,000 bytes",
    ending: "xlsx",
    make: () => withSize(xlsx([" ".repeat(200_000_000)]), "xl/worksheets/sheet1.xml", 1000),
  },
  {
    what: "a sheet said to be of 4 GB",
    ending: "xlsx",
    make: () => withSize(xlsx([trays(12)]), "xl/worksheets/sheet1.xml", 0xfffffff0),
  },
  { what: "300 MB of spaces", ending: "xlsx", make: () => xlsx([" ".repeat(300_000_000)]) },
  {
    what: "100,000 shared texts",
    ending: "xlsx",
    make: () => xlsx([trays(12)], { "xl/sharedStrings.xml": strings(100_000, (k) => `text ${k}`) }),
    trays: 12,
  },
  {
    what: "shared texts of 200 MB",
    ending: "xlsx",
    make: () => xlsx([trays(12)], { "xl/sharedStrings.xml": strings(200, () => "x".repeat(1_000_000)) }),
  },
  {
    what: "tags 300,000 deep",
    ending: "xlsx",
    make: () => xlsx([sheetOf(["<a>".repeat(300_000) + "</a>".repeat(300_000), ...trayRows(12)])]),
    trays: 12,
  },
  {
    what: "a tag of 2 million attributes",
    ending: "xlsx",
    make: () =>
      xlsx([sheetOf([`<a ${Array.from({ length: 2_000_000 }, (_, k) => `b${k}=""`).join(" ")}/>`, ...trayRows(12)])]),
  },
  {
    what: "entities that hold entities",
    ending: "ods",
    make: () =>
      ods(
        odsTable("S", 12, odsRow(["&j;"])),
        `<!DOCTYPE x [<!ENTITY a "${"x".repeat(100)}">${[..."bcdefghij"].map((name, k) => `<!ENTITY ${name} "${`&${"abcdefghi"[k]};`.repeat(100)}">`).join("")}]>`,
      ),
  },
  {
    what: "an entity that is a file",
    ending: "ods",
    make: () => ods(odsTable("S", 12, odsRow(["&f;"])), '<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/passwd">]>'),
  },
  {
    what: "60,000 styles",
    ending: "xlsx",
    make: () =>
      xlsx([trays(12)], {
        "xl/styles.xml": `<styleSheet xmlns="${main}"><numFmts>${Array.from({ length: 60_000 }, (_, k) => `<numFmt numFmtId="${k + 200}" formatCode="0.0&quot; x${k}&quot;"/>`).join("")}</numFmts><cellXfs>${Array.from({ length: 60_000 }, (_, k) => `<xf numFmtId="${k + 200}"/>`).join("")}</cellXfs></styleSheet>`,
      }),
    trays: 12,
  },
  {
    what: "100,000 merged blocks",
    ending: "xlsx",
    make: () =>
      xlsx([
        trays(12).replace(
          "</sheetData>",
          `</sheetData><mergeCells>${'<mergeCell ref="A1:XFD1048576"/>'.repeat(100_000)}</mergeCells>`,
        ),
      ]),
  },
  { what: "50 MB in one line", ending: "csv", make: () => "x".repeat(50_000_000) },
  { what: "50 MB in one line of cells", ending: "csv", make: () => "12,".repeat(17_000_000) },
  {
    what: "a row of 10^6 cells far down",
    ending: "csv",
    make: () => `${csvRows(60_000)}\n${"1,".repeat(1_000_000)}\n`,
  },
  {
    what: "10^6 columns",
    ending: "csv",
    make: () => {
      const names = Array.from({ length: 1_000_000 }, (_, k) => `c${k}`).join(",");
      return `tray_id,${names}\n${["T1", "T2", "T3"].map((tray) => `${tray},${"1,".repeat(999_999)}1`).join("\n")}`;
    },
  },
  {
    what: "a quotation mark never closed",
    ending: "csv",
    make: () => `${csvRows(12)}\n"T13${`,5\n${csvRows(200_000)}`}`,
  },
  { what: "a million quotation marks", ending: "csv", make: () => `${csvRows(12)}\n${'"'.repeat(1_000_001)}` },
  {
    what: "quotation marks in every cell",
    ending: "csv",
    make: () => `${csvRows(12)}\n${'"a,b"c,"\n'.repeat(300_000)}`,
  },
  { what: "UTF-16", ending: "csv", make: () => utf16(csvRows(5000)), trays: 5000 },
  { what: "UTF-16 cut in a letter", ending: "csv", make: () => utf16(csvRows(5000)).slice(0, -1) },
  { what: "NUL in every cell", ending: "csv", make: () => csvRows(20_000).replaceAll(",", "\0,") },
  { what: "20 MB of NUL", ending: "csv", make: () => `${csvRows(12)}\n${"\0".repeat(20_000_000)}` },
  {
    what: "a million blank rows",
    ending: "csv",
    make: () => `${csvRows(12)}\n${",,,,,\n".repeat(1_000_000)}`,
    trays: 12,
  },
  {
    what: "lines of every kind of end",
    ending: "csv",
    make: () => csvRows(20_000).replaceAll("\n", "\r\n\r\u2028\x0b\x0c"),
  },
];

const manyLines = (head: string, line: (k: number) => string): string =>
  [head, ...Array.from({ length: 200_000 }, (_, k) => line(k))].join("\n");

/** Folders that are as hard on whoever reads them. */
export const bombFolders: ReadonlyArray<{ what: string; files(): [name: string, text: string][]; trays: number }> = [
  {
    what: "5,000 sheets",
    files: () =>
      Array.from({ length: 5000 }, (_, k) => [`sheet ${k}.csv`, `${header.join(",")}\n${trayCells(k).join(",")}\n`]),
    trays: 5000,
  },
  {
    what: "200,000 settings that there are not",
    files: () => [
      ["trays.csv", csvRows(24)],
      ["settings.csv", manyLines("key,value", (k) => `setting_${k},${k}`)],
    ],
    trays: 24,
  },
  {
    what: "200,000 products of no form",
    files: () => [
      ["trays.csv", csvRows(24)],
      ["products.csv", manyLines("product,grams,price", (k) => `pouch ${k},${10 + (k % 90)},5`)],
    ],
    trays: 24,
  },
  {
    what: "200,000 lines of words in a temperature log",
    files: () => [
      ["trays.csv", csvRows(24)],
      ["temperature.csv", manyLines("time,chamber,temperature_c", (k) => `when ${k},tent 1,warm`)],
    ],
    trays: 24,
  },
];

/** Writes a file of so many bytes that takes no room on the disk, with the given start. */
export function hollowFile(folder: string, name: string, start: Uint8Array, size: number): string {
  const path = join(folder, name);
  writeFileSync(path, start);
  const file = openSync(path, "r+");
  writeSync(file, new Uint8Array(1), 0, 1, size - 1);
  closeSync(file);
  return path;
}
