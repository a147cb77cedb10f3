import { readXml } from "./read-xml.ts";
import { builtInPercent, type NumberFormat, numberFormat } from "./xlsx-format.ts";
import { xlsxPrefixes } from "./xlsx-parts.ts";

/** What a cell's style says of its number. */
export interface CellStyle {
  /** the number is shown as a date or a time */
  isDate: boolean;
  format: NumberFormat | undefined;
  isStruck: boolean;
}

/** Formats for dates and times that a workbook need not spell out (ECMA-376 part 1, 18.8.30). */
const builtInDate = (id: number): boolean =>
  (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);

/** Whether a number format shows a date or a time. @example isDateFormat("dd/mm/yy") // true */
function isDateFormat(code: string): boolean {
  const section = code.split(";")[0] ?? "";
  if (/\[(?:h+|m+|s+)\]/i.test(section)) return true;
  const bare = section.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, "");
  return /[dmyhs]/i.test(bare) && !/[#0?]/.test(bare.replace(/[hms:.]+0+/gi, "")) && !/general/i.test(bare);
}

/** The styles of a workbook's cells, in their order. */
export function cellStyles(styles: string | undefined): CellStyle[] {
  const codes = new Map<number, string>();
  const found: CellStyle[] = [];
  if (styles === undefined) return found;
  let inCellFormats = false;
  const struck: boolean[] = [];
  let inFonts = false;
  readXml(styles, xlsxPrefixes, {
    open: (name, { numFmtId, formatCode, fontId, val }) => {
      if (name === "s:numFmt" && formatCode !== undefined) codes.set(Number(numFmtId), formatCode);
      else if (name === "s:cellXfs") inCellFormats = true;
      else if (name === "s:fonts") inFonts = true;
      else if (name === "s:font" && inFonts) struck.push(false);
      else if (name === "s:strike" && inFonts) struck[struck.length - 1] = !/^(?:0|false)$/.test(val ?? "");
      else if (name === "s:xf" && inCellFormats) {
        const id = Number(numFmtId ?? 0);
        const code = codes.get(id);
        const isStruck = struck[Number(fontId ?? 0)] === true;
        if (code !== undefined) found.push({ isDate: isDateFormat(code), format: numberFormat(code), isStruck });
        else if (builtInPercent.has(id))
          found.push({ isDate: false, format: { percent: true, before: "", after: "" }, isStruck });
        else found.push({ isDate: builtInDate(id), format: undefined, isStruck });
      }
    },
    close: (name) => {
      if (name === "s:cellXfs") inCellFormats = false;
      else if (name === "s:fonts") inFonts = false;
    },
  });
  return found;
}
