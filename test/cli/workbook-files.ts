import { strToU8, zipSync } from "fflate";
import Papa from "papaparse";

const declaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const documents = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`).replace(/\r?\n/g, "&#10;");

const rowsOf = (csv: string): string[][] => Papa.parse<string[]>(csv.replace(/^\uFEFF/, "")).data;

/** A number as a spreadsheet program would store it. */
const isNumber = (text: string): boolean => /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/.test(text);

/**
 * A workbook (ISO/IEC 29500) holding the cells of a CSV text in its one sheet: numbers as numbers, all else as text.
 * @returns the bytes of the .xlsx file
 */
export function xlsxOf(csv: string, sheetName = "Sheet1"): Uint8Array {
  const cell = (text: string): string =>
    text === ""
      ? "<c/>"
      : isNumber(text)
        ? `<c><v>${text}</v></c>`
        : `<c t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`;
  const letters = (column: number): string =>
    column < 26 ? String.fromCharCode(65 + column) : `${letters(Math.floor(column / 26) - 1)}${letters(column % 26)}`;
  const rows = rowsOf(csv).map((cells, row) => {
    const inner = cells.map((text, column) => cell(text).replace("<c", `<c r="${letters(column)}${row + 1}"`)).join("");
    return `<row r="${row + 1}">${inner}</row>`;
  });
  const parts = {
    "[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
    "_rels/.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="${documents}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${documents}"><sheets><sheet name="${escaped(sheetName)}" sheetId="1" r:id="r1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="${documents}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": `<worksheet xmlns="${main}"><sheetData>${rows.join("")}</sheetData></worksheet>`,
  };
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strToU8(declaration + xml)])));
}

/**
 * An OpenDocument spreadsheet (ISO/IEC 26300) holding the cells of a CSV text.
 * @returns the bytes of the .ods file
 */
export function odsOf(csv: string, sheetName = "Sheet1"): Uint8Array {
  const paragraphs = (text: string): string =>
    text
      .split(/\r?\n/)
      .map((line) => `<text:p>${escaped(line)}</text:p>`)
      .join("");
  const cell = (text: string): string =>
    text === ""
      ? "<table:table-cell/>"
      : `<table:table-cell ${isNumber(text) ? `office:value-type="float" office:value="${text}"` : 'office:value-type="string"'}>${paragraphs(text)}</table:table-cell>`;
  const rows = rowsOf(csv).map((cells) => `<table:table-row>${cells.map(cell).join("")}</table:table-row>`);
  const names = ["office", "table", "text"].map(
    (name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`,
  );
  const mimetype = "application/vnd.oasis.opendocument.spreadsheet";
  return zipSync({
    mimetype: [strToU8(mimetype), { level: 0 }],
    "META-INF/manifest.xml": strToU8(
      `${declaration}<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"><manifest:file-entry manifest:full-path="/" manifest:media-type="${mimetype}"/></manifest:manifest>`,
    ),
    "content.xml": strToU8(
      `${declaration}<office:document-content ${names.join(" ")}><office:body><office:spreadsheet><table:table table:name="${escaped(sheetName)}">${rows.join("")}</table:table></office:spreadsheet></office:body></office:document-content>`,
    ),
  });
}
