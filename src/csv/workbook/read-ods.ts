import type { Merge, SheetRow } from "../shape/grid.ts";
import { percentText, plainNumberText } from "./plain-cell-text.ts";
import { readXml } from "./read-xml.ts";

const urn = "urn:oasis:names:tc:opendocument:xmlns";
const prefixes: Readonly<Record<string, string>> = {
  [`${urn}:office:1.0`]: "office",
  [`${urn}:table:1.0`]: "table",
  [`${urn}:text:1.0`]: "text",
  [`${urn}:style:1.0`]: "style",
  "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0": "calcext",
};

/** One table of an OpenDocument spreadsheet; rows without any text are left out, their numbers are not. */
export interface OdsTable {
  name: string;
  rows: SheetRow[];
  merges: Merge[];
  /** left out of sight */
  hidden: boolean;
}

const mostRows = 1_048_576;
const mostColumns = 16_384;
/** Cells that repetition may make of one document; more is an attack, or no sheet of a person. */
const mostCells = 20_000_000;

/** "PT13H30M00S" is "13:30"; whole days count into the hours. */
function timeText(duration: string): string {
  const [, days = "0", hours = "0", minutes = "0", seconds = "0"] =
    /^-?P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?$/.exec(duration) ?? [];
  const total = Math.round(((Number(days) * 24 + Number(hours)) * 60 + Number(minutes)) * 60 + Number(seconds));
  const two = (value: number) => String(value).padStart(2, "0");
  const time = `${two(Math.floor(total / 3600))}:${two(Math.floor(total / 60) % 60)}`;
  return total % 60 === 0 ? time : `${time}:${two(total % 60)}`;
}

/** "2026-03-04T13:30:00" without seconds that are 0, and without a time of midnight. */
const dayText = (value: string): string =>
  value
    .replace(/(?:\.0+)?Z?$/, "")
    .replace(/:00$/, "")
    .replace(/T00:00$/, "");

const shownUnit = /^[^\p{L}°]*\d[\d.,\s\u00a0]*([\p{L}°][\p{L}°/. ]{0,9})$/u;

/** What a person would type for a cell of that type; `shown` is its text as displayed. */
function cellText(attributes: Readonly<Record<string, string>>, shown: string): string {
  const value = Number(attributes["office:value"]);
  if (attributes["calcext:value-type"] === "error") return shown;
  switch (attributes["office:value-type"]) {
    case "float": {
      const unit = (shown.length < 60 ? shownUnit.exec(shown)?.[1] : undefined) ?? "";
      return Number.isFinite(value) ? `${plainNumberText(value)}${unit === "" ? "" : ` ${unit}`}` : shown;
    }
    case "percentage":
      return Number.isFinite(value) ? percentText(value) : shown;
    case "currency": {
      const code = attributes["office:currency"] ?? "";
      return Number.isFinite(value) ? `${plainNumberText(value)}${code === "" ? "" : ` ${code}`}` : shown;
    }
    case "date":
      return dayText(attributes["office:date-value"] ?? shown);
    case "time":
      return timeText(attributes["office:time-value"] ?? "");
    case "boolean":
      return attributes["office:boolean-value"] === "true" ? "TRUE" : "FALSE";
    default:
      return shown === "" ? (attributes["office:string-value"] ?? "") : shown;
  }
}

const repeated = (count: string | undefined): number =>
  Math.min(Math.max(1, Math.floor(Number(count ?? 1)) || 1), mostRows);

/**
 * The tables of an OpenDocument spreadsheet, cells as the text a person would type: dates as ISO 8601, numbers
 * unrounded, with the percent sign, unit or currency shown. Notes pinned to cells are not read.
 * @param content the archive's content.xml
 * @throws Error where it is not well-formed or holds more cells than a sheet can
 * @source OpenDocument 1.2 part 1, 9.1 (tables), 19.385 (office:value-type)
 */
export function readOds(content: string): OdsTable[] {
  const tables: OdsTable[] = [];
  let table: OdsTable | undefined;
  let rowNumber = 0;
  let rowRepeats = 1;
  let cells: string[] = [];
  let column = 0;
  let cell: Readonly<Record<string, string>> | undefined;
  let text = "";
  let paragraphs = 0;
  let inParagraph = 0;
  let ignored = 0;
  let total = 0;
  const hiddenStyles = new Set<string>();
  let style = "";

  function endCell(attributes: Readonly<Record<string, string>>): void {
    const filling = cellText(attributes, text);
    const repeats = Math.min(repeated(attributes["table:number-columns-repeated"]), mostColumns - column);
    if (filling !== "") {
      total += repeats * rowRepeats;
      if (total > mostCells) throw new Error("it holds more cells than a sheet can");
      while (cells.length < column) cells.push("");
      for (let index = 0; index < repeats; index++) cells.push(filling);
    }
    const down = Number(attributes["table:number-rows-spanned"] ?? 1);
    const across = Number(attributes["table:number-columns-spanned"] ?? 1);
    if (table !== undefined && (down > 1 || across > 1)) {
      const top = rowNumber + 1;
      table.merges.push({ top, bottom: top + (down || 1) - 1, left: column, right: column + (across || 1) - 1 });
    }
    column += repeats;
  }

  readXml(content, prefixes, {
    open: (name, attributes) => {
      // a note, a drawing or a table inside a cell is not its text
      if (ignored > 0 || name === "office:annotation" || name.startsWith("draw:") || (cell && name === "table:table")) {
        ignored++;
        return;
      }
      if (name === "style:style") style = attributes["style:name"] ?? "";
      else if (name === "style:table-properties" && attributes["table:display"] === "false") hiddenStyles.add(style);
      else if (name === "table:table") {
        table = {
          name: attributes["table:name"] ?? "",
          rows: [],
          merges: [],
          hidden: hiddenStyles.has(attributes["table:style-name"] ?? ""),
        };
        tables.push(table);
        rowNumber = 0;
      } else if (name === "table:table-row") {
        rowRepeats = repeated(attributes["table:number-rows-repeated"]);
        cells = [];
        column = 0;
      } else if (name === "table:table-cell" || name === "table:covered-table-cell") {
        cell = attributes;
        text = "";
        paragraphs = 0;
      } else if (cell !== undefined && (name === "text:p" || name === "text:h")) {
        if (paragraphs++ > 0) text += "\n";
        inParagraph++;
      } else if (inParagraph > 0 && name === "text:s")
        text += " ".repeat(Math.min(repeated(attributes["text:c"]), 1000));
      else if (inParagraph > 0 && name === "text:tab") text += "\t";
      else if (inParagraph > 0 && name === "text:line-break") text += "\n";
    },
    close: (name) => {
      if (ignored > 0) {
        ignored--;
        return;
      }
      if (name === "text:p" || name === "text:h") inParagraph = Math.max(0, inParagraph - 1);
      else if ((name === "table:table-cell" || name === "table:covered-table-cell") && cell !== undefined) {
        endCell(cell);
        cell = undefined;
      } else if (name === "table:table-row" && table !== undefined) {
        const repeats = cells.length === 0 ? 0 : Math.min(rowRepeats, mostRows - rowNumber);
        for (let index = 1; index <= repeats; index++) table.rows.push({ cells: [...cells], row: rowNumber + index });
        rowNumber = Math.min(rowNumber + rowRepeats, mostRows);
      } else if (name === "table:table") table = undefined;
    },
    text: (part) => {
      if (inParagraph > 0 && ignored === 0) text += part;
    },
  });
  return tables;
}
