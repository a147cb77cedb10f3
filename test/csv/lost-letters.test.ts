import { expect, test } from "vitest";
import { openText } from "../../src/csv/text/open-text.ts";
import { readXlsxSheet } from "../../src/csv/workbook/read-xlsx.ts";
import { CellCount } from "../../src/csv/workbook/workbook-limit.ts";
import { sheet } from "../cleaning/book-of.ts";

// "Świeża g" by the WHATWG Encoding Standard, indexes windows-1250 and iso-8859-2; "für" in code page 850, from memory
test.each([
  [
    "Windows-1250",
    [0x8c, 0x77, 0x69, 0x65, 0xbf, 0x61, 0x20, 0x67, 0x3b, 0x70, 0x6c, 0x65, 0x9c, 0xf1],
    "Świeża g",
    "pleśń",
  ],
  [
    "ISO 8859-2",
    [0xa6, 0x77, 0x69, 0x65, 0xbf, 0x61, 0x20, 0x67, 0x3b, 0x70, 0x6c, 0x65, 0xb6, 0xf1, 0x61],
    "Świeża g",
    "pleśńa",
  ],
  ["Windows-1252", [0x66, 0xfc, 0x72, 0x3b, 0xbf, 0x51, 0x75, 0xe9, 0x3f], "für", "¿Qué?"],
])("letters of %s", (name, bytes, first, second) => {
  const rows = new TextEncoder().encode("\nT1;5\nT2;6\n");
  const { tables, issues } = openText(sheet("a.csv", Uint8Array.from([...bytes, ...rows])), Uint8Array.from(bytes), {});
  expect(tables[0]!.header).toEqual([first, second]);
  expect(issues.find(({ rule }) => rule === "encoding")?.reason).toContain(name);
});

test("bytes that no Windows-1252 text has are pointed out", () => {
  const bytes = Uint8Array.from([0x66, 0x81, 0x72, ...new TextEncoder().encode(";b\n1;2\n")]);
  expect(openText(sheet("a.csv", bytes), bytes, {}).issues.map(({ rule }) => rule)).toContain("damaged-text");
});

// ECMA-376 part 1, 18.3.1.40: a formula need not have a value
test("a formula that was never worked out is shown, not lost", () => {
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const cells =
    '<c r="A1"><f>165+40</f></c><c r="B1"><f>165+40</f><v>205</v></c><c r="C1" t="str"><f>A2</f><v></v></c>';
  const xml = `<worksheet xmlns="${main}"><sheetData><row r="1">${cells}</row></sheetData></worksheet>`;
  const { rows } = readXlsxSheet(xml, { strings: [], styles: [], from1904: false, count: new CellCount(), tab: "S1" });
  expect(rows).toEqual([{ cells: ["=165+40", "205"], row: 1 }]);
});
