import fc from "fast-check";
import { expect, test } from "vitest";
import { openSheet } from "../../src/csv/open-sheet.ts";
import type { SheetWords } from "../../src/csv/shape/sheet-words.ts";
import { writeCsv } from "../../src/csv/write-csv.ts";
import { sourceOf } from "./source-of.ts";

/** Words of a caller that knows names of columns only. */
const wordsKnown = (looksLikeHeader: (cells: string[]) => number): SheetWords => ({
  looksLikeHeader,
  columnSort: () => undefined,
  dateOf: () => undefined,
  isTidy: () => false,
  isOtherList: () => false,
  listUnder: () => undefined,
  massUnit: () => undefined,
  doseName: () => undefined,
  isMoney: () => false,
  isUnit: () => false,
});

async function open(content: string | Uint8Array, chunkSize?: number, looksLikeHeader?: (cells: string[]) => number) {
  const opened = await openSheet(
    sourceOf(content, "sheet.csv", chunkSize),
    looksLikeHeader === undefined ? {} : { words: wordsKnown(looksLikeHeader) },
  );
  const rows: [number, ...string[]][] = [];
  opened.tables[0]?.forEachRow((cells, row) => rows.push([row, ...cells]));
  const again: [number, ...string[]][] = [];
  opened.tables[0]?.forEachRow((cells, row) => again.push([row, ...cells]));
  expect(again).toEqual(rows);
  return {
    ...opened,
    rows,
    header: opened.tables[0]?.header,
    rules: opened.issues.map(({ rule, severity }) => `${rule}: ${severity}`),
    left: opened.leftOut.map(({ rule, row }) => `${rule} ${row}`),
  };
}

const utf16 = (text: string, littleEndian: boolean, mark: boolean): Uint8Array => {
  const whole = mark ? `\uFEFF${text}` : text;
  const bytes = new Uint8Array(whole.length * 2);
  const view = new DataView(bytes.buffer);
  for (let index = 0; index < whole.length; index++) view.setUint16(index * 2, whole.charCodeAt(index), littleEndian);
  return bytes;
};
const single = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

const sample = "Tray;Température;Coût\nT1;21,5;3 €\nT2;22,0;4 €\n";
test.each([
  ["UTF-8", new TextEncoder().encode(sample), []],
  ["UTF-8 with a byte-order mark", new TextEncoder().encode(`\uFEFF${sample}`), []],
  ["UTF-16 little-endian with a mark", utf16(sample, true, true), []],
  ["UTF-16 big-endian with a mark", utf16(sample, false, true), []],
  ["UTF-16 little-endian without a mark", utf16(sample, true, false), []],
  ["UTF-16 big-endian without a mark", utf16(sample, false, false), []],
  // 0x80 is the euro sign in Windows-1252 (WHATWG Encoding Standard, index windows-1252)
  ["Windows-1252", single(sample.replaceAll("€", "\x80")), ["encoding: note"]],
])("encoding: %s", async (_, bytes, rules) => {
  for (const chunkSize of [1, 3, 1000]) {
    const opened = await open(bytes, chunkSize);
    expect(opened.header).toEqual(["Tray", "Température", "Coût"]);
    expect(opened.rows).toEqual([
      [2, "T1", "21,5", "3 €"],
      [3, "T2", "22,0", "4 €"],
    ]);
    expect(opened.rules).toEqual(rules);
  }
});

test("every Windows-1252 character above 127 that has a name reads as the standard's index has it", async () => {
  // WHATWG index-windows-1252, rows 0x80 to 0x9F that are not control characters
  const index: Record<number, string> = {
    128: "€",
    130: "‚",
    131: "ƒ",
    132: "„",
    133: "…",
    134: "†",
    135: "‡",
    136: "ˆ",
    137: "‰",
    138: "Š",
    139: "‹",
    140: "Œ",
    142: "Ž",
    145: "‘",
    146: "’",
    147: "“",
    148: "”",
    149: "•",
    150: "–",
    151: "—",
    152: "˜",
    153: "™",
    154: "š",
    155: "›",
    156: "œ",
    158: "ž",
    159: "Ÿ",
  };
  const codes = Object.keys(index).map(Number);
  const { rows } = await open(
    single(`Name,Other\n${codes.map((code) => `x${String.fromCharCode(code)},y`).join("\n")}`),
  );
  expect(rows.map((row) => row[1])).toEqual(codes.map((code) => `x${index[code]}`));
});

test("bytes that are no characters in a marked file are said", async () => {
  const bytes = new Uint8Array([0xef, 0xbb, 0xbf, ...single("Tray,Name\nT1,a\xffb\n")]);
  const opened = await open(bytes);
  expect(opened.rules).toEqual(["damaged-text: warning"]);
  expect(opened.rows).toEqual([[2, "T1", "a\uFFFDb"]]);
});

test.each([
  ["comma", "Tray,Fresh,Dry\nT1,188,19.9\nT2,129,14\n", [2, "T1", "188", "19.9"]],
  ["semicolon with decimal commas", "Tray;Fresh;Dry\nT1;188,5;19,9\nT2;129,2;14,0\n", [2, "T1", "188,5", "19,9"]],
  ["semicolon, decimal commas in every cell", "a;b;c\n1,5;2,5;3,5\n2,5;3,5;4,5\n", [2, "1,5", "2,5", "3,5"]],
  ["semicolon, numbers with units", "Bag;Wt;Dry\nA;1,5 kg;12,5 g\nB;2,5 kg;13,5 g\n", [2, "A", "1,5 kg", "12,5 g"]],
  ["tab", "Tray\tFresh, g\tDry, g\nT1\t188\t19.9\n", [2, "T1", "188", "19.9"]],
  ["pipe", "Tray|Note|Dry\nT1|a, b; c|19.9\nT2|d|3\n", [2, "T1", "a, b; c", "19.9"]],
  ["comma, lists with semicolons", "Item,Endings,Price\nA,0.50; 0.90,1\nB,0.50; 0.90,2\n", [2, "A", "0.50; 0.90", "1"]],
  ["comma, quoted semicolons", 'Item,"a;b","c;d"\nA,"1;2","3;4"\n', [2, "A", "1;2", "3;4"]],
  ["stated in the first line", "sep=;\nTray;Fresh\nT1;1,5\n", [3, "T1", "1,5"]],
  ["one column", "Tray\nT1\nT2\n", [2, "T1"]],
  [
    "title with a comma above semicolons",
    "Spring, first trial\n\nTray;Fresh;Dry\nT1;1,5;2\nT2;2,5;3\n",
    [4, "T1", "1,5", "2"],
  ],
])("delimiter: %s", async (_, text, firstRow) => {
  expect((await open(text)).rows[0]).toEqual(firstRow);
});

test.each([
  [
    "title lines",
    "Spring trial\nFarm: x,,2026\n\nTray,Fresh,Dry\nT1,1,2\n",
    4,
    ["Tray", "Fresh", "Dry"],
    ["title-line 1", "title-line 2", "blank-row 3"],
  ],
  [
    "units under the names",
    "Tray,Fresh wt,Dry wt,Inoculated\n,(g),g,YYYY-MM-DD\nT1,1,2,2026-01-01\n",
    2,
    ["Tray", "Fresh wt (g)", "Dry wt g", "Inoculated YYYY-MM-DD"],
    [],
  ],
  [
    "group names tell equal names apart",
    "Tray,Flush 1,,Flush 2,\n,fresh,dry,fresh,dry\nT1,1,2,3,4\nT2,1,2,3,4\n",
    2,
    ["Tray", "Flush 1 fresh", "Flush 1 dry", "Flush 2 fresh", "Flush 2 dry"],
    [],
  ],
  [
    "a name over two lines in quotes",
    '"Fresh\nweight", Dry  wt ,Tray\n1,2,3\n',
    1,
    ["Fresh weight", "Dry wt", "Tray"],
    [],
  ],
  ["a column used twice", "Tray,Fresh,Fresh,fresh\nT1,1,2,3\n", 1, ["Tray", "Fresh", "Fresh (2)", "fresh (3)"], []],
  [
    "codes below are not the header",
    "C1-001,188,good\nC1-002,12,bad\nTray,Fresh,Outcome\nC1-003,1,good\n",
    3,
    ["Tray", "Fresh", "Outcome"],
    ["title-line 1", "title-line 2"],
  ],
])("header: %s", async (_, text, headerRow, header, left) => {
  const opened = await open(text);
  expect(opened.header).toEqual(header);
  expect(opened.tables[0]!.headerRow).toBe(headerRow);
  expect(opened.left).toEqual(left);
});

test("names that go on in the next line are joined where the caller then knows them", async () => {
  const known = new Set(["tray", "fresh weight", "dry weight", "strain name"]);
  const looksLikeHeader = (cells: string[]) =>
    cells.filter((cell) => known.has(cell.toLowerCase())).length / Math.max(1, cells.length);
  const opened = await open("Tray,Fresh,Dry,Strain\n,weight,weight,name\nT1,1,2,x\n", undefined, looksLikeHeader);
  expect(opened.header).toEqual(["Tray", "Fresh weight", "Dry weight", "Strain name"]);
});

test("rows that are no data: blank, repeated header and units, totals; row numbers as a spreadsheet has them", async () => {
  const text =
    'Tray,Fresh,Note\n,(g),\nT1,10,"two\nlines"\n\n\nTray,Fresh,Note\n,(g),\nT2,20,average size\nTotal,30,\nAverage fresh:,15,\nmax,20,\nMean,,\nT3,5,Total\nCook 1 subtotal,5,\n,,\n,,\n';
  const opened = await open(text);
  expect(opened.rows).toEqual([
    [3, "T1", "10", "two\nlines"],
    [8, "T2", "20", "average size"],
    [13, "T3", "5", "Total"],
  ]);
  expect(opened.left).toEqual([
    "blank-row 4",
    "repeated-header 6",
    "repeated-header 7",
    "totals-row 9",
    "totals-row 10",
    "totals-row 11",
    "totals-row 12",
    "totals-row 14",
    "blank-row 15",
  ]);
  expect(opened.leftOut[0]!.reason).toBe("rows 4 to 5 are blank");
  expect(opened.leftOut[1]!.cells).toEqual(["Tray", "Fresh", "Note"]);
});

test("ragged rows: short ones are filled, what long ones have beyond is logged", async () => {
  const opened = await open("Tray,Fresh,Dry\nT1,1\nT2,1,2,extra,,more,\nT3,1,2,,\nT4\n");
  expect(opened.rows).toEqual([
    [2, "T1", "1", ""],
    [3, "T2", "1", "2"],
    [4, "T3", "1", "2"],
    [5, "T4", "", ""],
  ]);
  expect(opened.rules).toEqual(["short-row: note", "long-row: warning"]);
  expect(opened.issues[1]).toMatchObject({ row: 3, raw: "extra |  | more", result: "", file: "sheet.csv" });
  expect(opened.issues[0]!.reason).toContain("2 rows have fewer cells");
});

test("a column most rows have and the header does not name is kept", async () => {
  const opened = await open("Tray,Fresh\nT1,1,good\nT2,1,bad\nT3,2\n");
  expect(opened.header).toEqual(["Tray", "Fresh", ""]);
  expect(opened.rows).toEqual([
    [2, "T1", "1", "good"],
    [3, "T2", "1", "bad"],
    [4, "T3", "2", ""],
  ]);
});

test("empty columns at the right end go with a note; empty ones between stay", async () => {
  const opened = await open("Tray,,Fresh,,,\nT1,,1,,,\nT2,x,1,,,\n");
  expect(opened.header).toEqual(["Tray", "", "Fresh"]);
  expect(opened.rules).toEqual(["empty-columns: note"]);
  expect(opened.rows[1]).toEqual([3, "T2", "x", "1"]);
});

test("more than a thousand long rows are counted, not listed one by one", async () => {
  const good = Array.from({ length: 4000 }, (_, index) => `T${index},1`);
  const long = Array.from({ length: 1500 }, (_, index) => `L${index},1,x`);
  const opened = await open(["Tray,Fresh", ...good, ...long].join("\n"));
  const found = opened.issues.filter(({ rule }) => rule === "long-row");
  expect(found.length).toBe(1001);
  expect(found.some(({ reason }) => reason.startsWith("500 further rows"))).toBe(true);
});

test.each([
  ["nothing at all", "", "empty-file: error"],
  ["only blank lines", "\n ,,\n\n", "empty-file: error"],
  ["a byte-order mark only", "\uFEFF", "empty-file: error"],
  ["only numbers", "1,2,3\n4,5,6\n", "no-header: error"],
])("no table: %s", async (_, text, rule) => {
  const opened = await open(text);
  expect(opened.tables).toEqual([]);
  expect(opened.rules).toEqual([rule]);
});

test("a header alone is a table without rows", async () => {
  const opened = await open("Tray,Fresh\n");
  expect(opened.rules).toEqual(["header-only: note"]);
  expect(opened.rows).toEqual([]);
});

test.each([
  ["web page", "<!DOCTYPE html><html><body><table><tr><td>Tray</td></tr></table></body></html>", "a web page (HTML)"],
  ["web page after a comment", "<!-- saved -->\n<table><tr><td>1</td></tr></table>", "a web page (HTML)"],
  ["XML", '<?xml version="1.0"?><Workbook xmlns="urn:x"/>', "an XML file"],
  ["JSON", '[{"tray": 1}]', "a JSON file"],
  ["PDF", "%PDF-1.7\n1 0 obj", "a PDF document"],
  ["PNG", single("\x89PNG\r\n\x1a\n0000"), "a picture"],
  ["JPEG", single("\xff\xd8\xff\xe0\x00\x10JFIF"), "a picture"],
  ["HEIC", single("\x00\x00\x00\x18ftypheic0000"), "a picture"],
  ["gzip", single("\x1f\x8b\x08\x00\x00"), "a compressed file"],
  ["rich text", "{\\rtf1 x}", "a rich-text document"],
  ["database", single("SQLite format 3\x00"), "a database file"],
  ["bytes of all kinds", Uint8Array.from({ length: 4000 }, (_, index) => (index * 7919) % 256), "a binary file"],
])("not a sheet: %s", async (_, content, what) => {
  const opened = await open(content);
  expect(opened.tables).toEqual([]);
  expect(opened.issues.length).toBe(1);
  expect(opened.issues[0]).toMatchObject({ rule: "not-a-sheet", severity: "error" });
  expect(opened.issues[0]!.reason).toContain(what);
  expect(opened.issues[0]!.action).not.toBe("");
});

test("a guard written before formulas is taken off again", async () => {
  const opened = await open(
    writeCsv(
      [
        ["Tray", "Note"],
        ["T1", "=1+1"],
        ["T2", "'quoted'"],
      ],
      { guard: true },
    ),
  );
  expect(opened.rows).toEqual([
    [2, "T1", "=1+1"],
    [3, "T2", "'quoted'"],
  ]);
});

const messy = fc.oneof(
  {
    weight: 3,
    arbitrary: fc
      .array(fc.constantFrom(..."aT1.,;\t|\"'\n\r =-€é½#<\u0000\uFFFD\u00a0"), { maxLength: 300 })
      .map((all) => new TextEncoder().encode(all.join(""))),
  },
  { weight: 2, arbitrary: fc.uint8Array({ maxLength: 400 }) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        fc.constantFrom(
          "PK\x03\x04",
          "PK\x05\x06",
          "\xff\xfe",
          "\xfe\xff",
          "\xef\xbb\xbf",
          "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
          "sep=;\n",
        ),
        fc.uint8Array({ maxLength: 200 }),
      )
      .map(([start, rest]) => new Uint8Array([...single(start), ...rest])),
  },
);

test("any bytes give a table or an issue, every row as wide as the header, and the same in any chunks", async () => {
  await fc.assert(
    fc.asyncProperty(messy, fc.integer({ min: 1, max: 50 }), async (bytes, chunkSize) => {
      const opened = await open(bytes, chunkSize);
      const whole = await open(bytes);
      expect(opened.rows).toEqual(whole.rows);
      expect(opened.issues).toEqual(whole.issues);
      expect(opened.leftOut).toEqual(whole.leftOut);
      expect(opened.tables.length + opened.issues.length).toBeGreaterThan(0);
      for (const row of opened.rows) expect(row.length - 1).toBe(opened.header!.length);
    }),
  );
});

test("no cell with something in it is lost: it is in a row, in a left-out row, in the header or in the log", async () => {
  const word = fc.constantFrom("T1", "12,5", "good", "Total", "x y", "", "", "7 g", "Tray", "2026-03-04");
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(word, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 12 }),
      async (rows) => {
        const opened = await open(writeCsv(rows, { guard: true }));
        const count = (cells: Iterable<string>) => [...cells].filter((text) => text.trim() !== "").length;
        const beyond = opened.issues.filter(({ rule }) => rule === "long-row").flatMap(({ raw }) => raw.split(" | "));
        const found =
          count(opened.rows.flatMap(([, ...cells]) => cells)) +
          count(opened.leftOut.flatMap(({ cells }) => cells)) +
          count(beyond);
        const all = count(rows.flat());
        if (opened.tables.length === 0) expect(opened.rules[0]).toMatch(/empty-file|no-header/);
        // what is neither is the header: one or two rows of at most six names
        else expect(all - found).toBeLessThanOrEqual(12);
        if (opened.tables.length > 0) expect(all - found).toBeGreaterThanOrEqual(1);
      },
    ),
  );
});

test.each([
  ["comments that open a page again and again", `${"<!---->".repeat(500)}x`],
  ["a row of quotation marks", `a,b\n${'"'.repeat(20_001)}`],
  ["spaces without end", `a,b\n1${" ".repeat(200_000)}2,3\n`],
  ["commas without end", ",".repeat(200_000)],
  ["one letter over and over", `a,b\n1${"a".repeat(200_000)},Total${" ".repeat(50_000)}x\n`],
  ["line ends of all kinds", "\r\n\r\r\n\n".repeat(50_000)],
])("does not depend on %s", async (_, text) => {
  const { tables, issues } = await open(text);
  expect(tables.length + issues.length).toBeGreaterThan(0);
});

test("doses or dates over the columns may be names; codes and numbers are data", async () => {
  expect((await open("Tray,2 mL,4 mL,6 mL\nfresh,10,11,12\n")).header).toEqual(["Tray", "2 mL", "4 mL", "6 mL"]);
  expect((await open("C1-001,188,19.9\nC1-002,129,14\n")).rules).toEqual(["no-header: error"]);
});

test("two tables in one sheet, one below the other, are two tables where the names are known", async () => {
  const text = "Tray,Fresh\nA,1\nB,2\n\nCook,Temp,Fresh\nC1,20,3\n\nCook,Temp,Fresh\nC2,21,4\n";
  const known = new Set(["tray", "fresh", "cook", "temp"]);
  const looksLikeHeader = (cells: string[]) =>
    cells.filter((cell) => known.has(cell.trim().toLowerCase())).length / Math.max(1, cells.length);
  const { tables, rules, left } = await open(text, 3, looksLikeHeader);
  expect(tables.map(({ header, headerRow }) => [header, headerRow])).toEqual([
    [["Tray", "Fresh"], 1],
    [["Cook", "Temp", "Fresh"], 5],
  ]);
  const second: unknown[] = [];
  tables[1]!.forEachRow((cells, row) => second.push([row, ...cells]));
  expect(second).toEqual([
    [6, "C1", "20", "3"],
    [9, "C2", "21", "4"],
  ]);
  expect(rules).toEqual(["further-table: note"]);
  expect(left).toEqual(["blank-row 4", "blank-row 7", "repeated-header 8"]);
  // where they are not, the upper table is not taken for titles of the lower one
  expect((await open(text)).header).toEqual(["Tray", "Fresh", ""]);
});

test("a line longer than any sheet's is refused, and what is no text is not read to its end", async () => {
  const cells = Array.from({ length: 17_000 }, (_, k) => `c${k}`).join(",");
  for (const text of [`tray_id,${cells}\nT1,1`, `My trays\ntray_id,${cells}\nT1,1`, "x".repeat(5_000_000)]) {
    const { tables, issues } = await openSheet(sourceOf(new TextEncoder().encode(text), "wide.csv"));
    expect(tables).toEqual([]);
    expect(issues.map(({ reason }) => reason)).toEqual(["one of its first lines is longer than that of any sheet"]);
  }
  function* chunks(): Generator<Uint8Array> {
    yield new Uint8Array(1 << 17);
    throw new Error("read on");
  }
  const { issues } = await openSheet({ path: "hollow.csv", size: 3e9, chunks });
  expect(issues.map(({ reason }) => reason)).toEqual(["this is a binary file, not a sheet"]);
});
