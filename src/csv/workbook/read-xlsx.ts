import type { Merge, SheetRow } from "../shape/grid.ts";
import type { CellNote } from "./notes-on-cells.ts";
import { dateText, percentText, plainNumberText } from "./plain-cell-text.ts";
import { readXml } from "./read-xml.ts";
import type { CellCount } from "./workbook-limit.ts";
import type { NumberFormat } from "./xlsx-format.ts";
import { xlsxPrefixes } from "./xlsx-parts.ts";
import type { CellStyle } from "./xlsx-styles.ts";

/** What the cells of a sheet refer to in the rest of the workbook. */
export interface XlsxContext {
  strings: ReadonlyArray<string>;
  styles: ReadonlyArray<CellStyle>;
  from1904: boolean;
  /** of the whole workbook */
  count: CellCount;
  /** the sheet's name */
  tab: string;
}

const mostRows = 1_048_576;
const mostColumns = 16_384;
const dayMilliseconds = 86_400_000;

/** "_x000D_" stands for a carriage return, and so for all characters XML cannot hold. */
const unescaped = (text: string): string =>
  text.includes("_x")
    ? text.replace(/_x([\dA-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    : text;

/** The texts that cells of a workbook share. Readings printed above Asian characters are left out. */
export function sharedStrings(xml: string | undefined): string[] {
  const strings: string[] = [];
  if (xml === undefined) return strings;
  let text = "";
  let inText = false;
  let inReading = false;
  readXml(xml, xlsxPrefixes, {
    open: (name) => {
      if (name === "s:si") text = "";
      else if (name === "s:rPh") inReading = true;
      else if (name === "s:t") inText = !inReading;
    },
    close: (name) => {
      if (name === "s:si") strings.push(unescaped(text));
      else if (name === "s:rPh") inReading = false;
      else if (name === "s:t") inText = false;
    },
    text: (part) => {
      if (inText) text += part;
    },
  });
  return strings;
}

function numberText(value: number, format: NumberFormat | undefined): string {
  if (format === undefined) return plainNumberText(value);
  if (format.percent) return percentText(value);
  const gap = /^\p{L}/u.test(format.after) ? " " : "";
  return `${format.before}${plainNumberText(value)}${gap}${format.after}`;
}

/** A day count as a date. Serial 60 of the 1900 system is 29 February 1900, which never was. */
function serialText(serial: number, from1904: boolean): string {
  const zero = from1904
    ? Date.UTC(1904, 0, 1)
    : serial < 60 && serial >= 1
      ? Date.UTC(1899, 11, 31)
      : Date.UTC(1899, 11, 30);
  return dateText(new Date(zero + serial * dayMilliseconds));
}

/** "2021-01-01T10:10:10", "10:10:10" or "PT10H10M10S" without what a person would not type. */
function isoText(value: string): string {
  const duration = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?$/.exec(value);
  if (duration !== null) return `${(duration[1] ?? "0").padStart(2, "0")}:${(duration[2] ?? "0").padStart(2, "0")}`;
  const time = /^T?(\d{1,2}:\d\d)(?::(\d\d)(?:\.\d+)?)?Z?$/.exec(value);
  if (time !== null) return time[2] === undefined || time[2] === "00" ? time[1]! : `${time[1]}:${time[2]}`;
  const date = new Date(/Z$|[+-]\d\d:\d\d$/.test(value) ? value : `${value}${value.includes("T") ? "Z" : ""}`);
  return Number.isNaN(date.getTime()) ? value : dateText(date);
}

interface OpenCell {
  row: number;
  column: number;
  type: string;
  style: number;
  value: string;
  inline: string;
  /** undefined where the cell has none */
  formula: string | undefined;
}

const struck = { text: undefined };

const openCell = (row: number, column: number, { t = "n", s }: Readonly<Record<string, string>>): OpenCell => ({
  ...{ row, column, type: t, style: Number(s || -1) },
  ...{ value: "", inline: "", formula: undefined },
});

function cellText(cell: OpenCell, { strings, styles, from1904 }: Omit<XlsxContext, "count" | "tab">): string {
  const { type, value } = cell;
  if (type === "inlineStr") return unescaped(cell.inline === "" ? value : cell.inline);
  if (type === "s") return value.trim() === "" ? "" : (strings[Number(value)] ?? "");
  if (type === "str") return unescaped(value);
  if (type === "e") return value;
  if (type === "b") return value.trim() === "1" || /^true$/i.test(value.trim()) ? "TRUE" : "FALSE";
  if (type === "d") return isoText(value.trim());
  // a formula that was written and never worked out has no value: it is shown, not lost
  if (value.trim() === "" && cell.formula !== undefined) return `=${cell.formula.trim() || "formula"}`;
  if (value.trim() === "") return cell.inline;
  const number = Number(value);
  if (Number.isNaN(number)) return value;
  const style = styles[cell.style];
  return style?.isDate ? serialText(number, from1904) : numberText(number, style?.format);
}

const address = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/i;

function placeOf(reference: string): { row: number; column: number } | undefined {
  const match = address.exec(reference);
  if (match === null) return undefined;
  const letters = match[1]!;
  let column = 0;
  for (let at = 0; at < letters.length; at++) column = column * 26 + (letters.charCodeAt(at) & 31);
  return { row: Number(match[2]), column: column - 1 };
}

function mergeOf(reference: string | undefined): Merge | undefined {
  const [from, to] = (reference ?? "").split(":").map(placeOf);
  if (from === undefined || to === undefined) return undefined;
  return { top: from.row, bottom: to.row, left: from.column, right: to.column };
}

/**
 * The notes pinned to cells of a sheet.
 * @source ECMA-376 part 1, 18.7.3 (comment)
 */
export function xlsxNotes(xml: string | undefined): CellNote[] {
  const notes: CellNote[] = [];
  if (xml === undefined) return notes;
  let note: { row: number; column: number; text: string } | undefined;
  let inText = false;
  readXml(xml, xlsxPrefixes, {
    open: (name, { ref }) => {
      const place = name === "s:comment" ? placeOf(ref ?? "") : undefined;
      if (place !== undefined) {
        note = { ...place, text: "" };
        notes.push(note);
      }
      inText = name === "s:t";
    },
    close: () => {
      inText = false;
    },
    text: (part) => {
      if (inText && note !== undefined) note.text += part;
    },
  });
  return notes;
}

/** One sheet of a workbook. Rows without anything are left out, their numbers are not. */
export interface XlsxSheet {
  rows: SheetRow[];
  merges: Merge[];
  /** its cells that are struck through */
  notes: CellNote[];
}

/**
 * The cells of one sheet of an .xlsx workbook as the text a person would type: dates as ISO 8601, numbers unrounded,
 * with the percent sign, unit or currency their format shows. Cells may be without addresses, and in any order.
 * @param sheet the worksheet's XML
 * @throws WorkbookLimit where there are more cells than are read; Error where it is not well-formed, or has cells outside of
 *   any sheet
 * @source ECMA-376 part 1, 18.3.1.4 (c), 18.3.1.55 (mergeCell), 18.18.11 (cell types)
 */
export function readXlsxSheet(sheet: string, context: XlsxContext): XlsxSheet {
  const byRow = new Map<number, { cells: string[]; filled: number }>();
  const merges: Merge[] = [];
  const notes: CellNote[] = [];
  let row = 0;
  let column = -1;
  let cell: OpenCell | undefined;
  let into: "value" | "inline" | "formula" | undefined;

  function endCell(ended: OpenCell): void {
    const text = cellText(ended, context);
    if (text === "") return;
    if (context.styles[ended.style]?.isStruck === true) notes.push({ ...struck, row: ended.row, column: ended.column });
    const own = byRow.get(ended.row) ?? { cells: [], filled: 0 };
    if (own.filled === 0) byRow.set(ended.row, own);
    const { cells } = own;
    context.count.addToRow(++own.filled, context.tab, ended.row);
    context.count.add(Math.max(0, ended.column + 1 - cells.length), ended.row);
    while (cells.length < ended.column) cells.push("");
    cells[ended.column] = text;
  }

  readXml(sheet, xlsxPrefixes, {
    open: (name, attributes) => {
      if (name === "s:row") {
        row = attributes.r === undefined ? row + 1 : Number(attributes.r);
        column = -1;
        if (!(row >= 1 && row <= mostRows)) throw new Error("a row lies outside the sheet");
      } else if (name === "s:c") {
        const place = attributes.r === undefined ? undefined : placeOf(attributes.r);
        if (attributes.r !== undefined && place === undefined) throw new Error("a cell lies outside the sheet");
        column = place?.column ?? column + 1;
        const at = place?.row ?? row;
        if (at < 1 || at > mostRows || column >= mostColumns) throw new Error("a cell lies outside the sheet");
        cell = openCell(at, column, attributes);
      } else if (name === "s:v") into = "value";
      else if (name === "s:f" && cell !== undefined) {
        cell.formula = "";
        into = "formula";
      } else if (name === "s:t" && cell !== undefined) into = "inline";
      else if (name === "s:rPh") into = undefined;
      else if (name === "s:mergeCell") {
        const merge = mergeOf(attributes.ref);
        if (merge !== undefined) merges.push(merge);
      }
    },
    close: (name) => {
      if (name === "s:v" || name === "s:t" || name === "s:f") into = undefined;
      else if (name === "s:c" && cell !== undefined) {
        endCell(cell);
        cell = undefined;
      }
    },
    text: (part) => {
      if (cell !== undefined && into !== undefined) cell[into] = `${cell[into] ?? ""}${part}`;
    },
  });
  const rows = [...byRow].map(([number, { cells }]) => ({ cells, row: number }));
  return { rows: rows.sort((a, b) => a.row - b.row), merges, notes };
}
