import { readXml } from "./read-xml.ts";
import { builtInPercent, type NumberFormat, numberFormat } from "./xlsx-format.ts";

/** The sheets of a workbook in their order. */
export interface WorkbookSheet {
  name: string;
  /** the archive's entry */
  entry: string;
  /** left out of sight in the workbook */
  hidden: boolean;
}

const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const prefixes: Readonly<Record<string, string>> = {
  "http://schemas.openxmlformats.org/spreadsheetml/2006/main": "s",
  "http://purl.oclc.org/ooxml/spreadsheetml/main": "s",
  [relations]: "r",
  "http://purl.oclc.org/ooxml/officeDocument/relationships": "r",
  "http://schemas.openxmlformats.org/package/2006/relationships": "p",
};

/** Entries of an .xlsx archive that hold its sheets and how they are formatted. */
export const isXlsxPart = (name: string): boolean => /\.(?:xml|rels)$/i.test(name) && /^(?:xl|_rels)\//i.test(name);

const resolved = (target: string): string =>
  target.startsWith("/") ? target.slice(1) : `xl/${target.replace(/^\.\//, "")}`;

/** @throws Error where the workbook's list of sheets is missing or damaged */
export function xlsxSheets(part: (entry: string) => string | undefined): WorkbookSheet[] {
  const book = part("xl/workbook.xml");
  if (book === undefined) throw new Error("the list of sheets is missing");
  const targets = new Map<string, string>();
  readXml(part("xl/_rels/workbook.xml.rels") ?? "<none/>", prefixes, {
    open: (name, { Id, Target }) => {
      if (name === "p:Relationship" && Id !== undefined && Target !== undefined) targets.set(Id, resolved(Target));
    },
  });
  const sheets: WorkbookSheet[] = [];
  readXml(book, prefixes, {
    open: (tag, attributes) => {
      const entry = targets.get(attributes["r:id"] ?? "");
      const name = attributes.name;
      if (tag !== "s:sheet" || entry === undefined || name === undefined) return;
      // chart sheets and macro sheets hold no cells
      if (/worksheets\//i.test(entry)) sheets.push({ name, entry, hidden: /hidden/i.test(attributes.state ?? "") });
    },
  });
  return sheets;
}

function formatsOf(styles: string): (NumberFormat | undefined)[] {
  const codes = new Map<number, string>();
  const formats: (NumberFormat | undefined)[] = [];
  let inCellFormats = false;
  readXml(styles, prefixes, {
    open: (name, { numFmtId, formatCode }) => {
      if (name === "s:numFmt" && formatCode !== undefined) codes.set(Number(numFmtId), formatCode);
      else if (name === "s:cellXfs") inCellFormats = true;
      else if (name === "s:xf" && inCellFormats) {
        const id = Number(numFmtId ?? 0);
        const code = codes.get(id);
        if (code !== undefined) formats.push(numberFormat(code));
        else formats.push(builtInPercent.has(id) ? { percent: true, before: "", after: "" } : undefined);
      }
    },
    close: (name) => {
      if (name === "s:cellXfs") inCellFormats = false;
    },
  });
  return formats;
}

/** Cells whose text the number alone does not give: by row, then column, both from 0. */
export interface XlsxExtras {
  formats: Map<number, Map<number, NumberFormat>>;
  errors: Map<number, Map<number, string>>;
}

const address = /^([A-Z]{1,3})(\d{1,7})$/;

function columnNumber(letters: string): number {
  let column = 0;
  for (let index = 0; index < letters.length; index++) column = column * 26 + letters.charCodeAt(index) - 64;
  return column - 1;
}

function put<T>(cells: Map<number, Map<number, T>>, row: number, column: number, value: T): void {
  const inRow = cells.get(row);
  if (inRow === undefined) cells.set(row, new Map([[column, value]]));
  else inRow.set(column, value);
}

/**
 * What a sheet of a workbook holds besides values: spreadsheet errors such as #REF!, and formats that show a number as
 * a percentage, with a unit or with a currency sign.
 * @throws Error where the sheet is damaged: not well-formed, or with cells outside of any sheet
 */
export function xlsxExtras(sheet: string, styles: string | undefined): XlsxExtras {
  const formatByStyle = styles === undefined ? [] : formatsOf(styles);
  const extras: XlsxExtras = { formats: new Map(), errors: new Map() };
  let cell: { row: number; column: number; isError: boolean } | undefined;
  let inValue = false;
  let text = "";
  readXml(sheet, prefixes, {
    open: (name, attributes) => {
      if (name === "s:row" && Number(attributes.r ?? 1) > 1_048_576) throw new Error("a row lies outside the sheet");
      if (name === "s:v") {
        inValue = true;
        text = "";
      }
      if (name !== "s:c") return;
      const [, letters = "", digits = ""] = address.exec(attributes.r ?? "") ?? [];
      const row = Number(digits) - 1;
      const column = columnNumber(letters);
      if (row < 0 || row >= 1_048_576 || column < 0 || column >= 16_384)
        throw new Error("a cell lies outside the sheet");
      cell = { row, column, isError: attributes.t === "e" };
      const format = formatByStyle[Number(attributes.s ?? -1)];
      const isNumber = attributes.t === undefined || attributes.t === "n";
      if (isNumber && format !== undefined && (format.percent || format.before !== "" || format.after !== "")) {
        put(extras.formats, row, column, format);
      }
    },
    close: (name) => {
      if (name === "s:v") {
        inValue = false;
        if (cell?.isError) put(extras.errors, cell.row, cell.column, text);
      } else if (name === "s:c") cell = undefined;
    },
    text: (part) => {
      if (inValue) text += part;
    },
  });
  return extras;
}
