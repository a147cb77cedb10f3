import { twoDigits } from "../../records/words/digits.ts";
import type { Merge, SheetRow } from "../shape/grid.ts";
import type { CellNote } from "./notes-on-cells.ts";
import { percentText, plainNumberText } from "./plain-cell-text.ts";
import { readXml } from "./read-xml.ts";
import { CellCount, WorkbookLimit } from "./workbook-limit.ts";

type Attributes = Readonly<Record<string, string>>;

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
  notes: CellNote[];
  /** left out of sight */
  hidden: boolean;
}

const mostRows = 1_048_576;
const mostColumns = 16_384;
/** Like rows that are read; more of a row with something in it is a column filled down too far. Common practice, no source. */
const mostAlike = 10_000;

/** "PT13H30M00S" is "13:30"; whole days count into the hours. */
function timeText(duration: string): string {
  const [, days = "0", hours = "0", minutes = "0", seconds = "0"] =
    /^-?P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?$/.exec(duration) ?? [];
  const total = Math.round(((Number(days) * 24 + Number(hours)) * 60 + Number(minutes)) * 60 + Number(seconds));
  const time = `${twoDigits(Math.floor(total / 3600))}:${twoDigits(Math.floor(total / 60) % 60)}`;
  return total % 60 === 0 ? time : `${time}:${twoDigits(total % 60)}`;
}

/** "2026-03-04T13:30:00" without seconds that are 0, and without a time of midnight. */
const dayText = (value: string): string =>
  value
    .replace(/(?:\.0+)?Z?$/, "")
    .replace(/:00$/, "")
    .replace(/T00:00$/, "");

const shownUnit = /^[^\p{L}°]*\d[\d.,\s\u00a0]*([\p{L}°][\p{L}°/. ]{0,9})$/u;

/** What a person would type for a cell of that type; `shown` is its text as displayed. */
function cellText(attributes: Attributes, shown: string): string {
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

const isCell = (name: string): boolean => name === "table:table-cell" || name === "table:covered-table-cell";
const isParagraph = (name: string): boolean => name === "text:p" || name === "text:h";

const isStruck = (attributes: Attributes): boolean =>
  [attributes["style:text-line-through-style"], attributes["style:text-line-through-type"]].some(
    (line) => line !== undefined && line !== "none",
  );

/** The text of one cell as shown: paragraphs are lines; spaces, tabs and line breaks may be elements. */
class ShownText {
  text = "";
  private paragraphs = 0;
  private depth = 0;

  open(name: string, attributes: Attributes): void {
    if (isParagraph(name)) {
      if (this.paragraphs++ > 0) this.text += "\n";
      this.depth++;
    } else if (name === "text:s") this.add(" ".repeat(Math.min(repeated(attributes["text:c"]), 1000)));
    else if (name === "text:tab") this.add("\t");
    else if (name === "text:line-break") this.add("\n");
  }

  close(name: string): void {
    if (isParagraph(name)) this.depth--;
  }

  add(part: string): void {
    if (this.depth > 0) this.text += part;
  }
}

/** Tables as their rows and cells pass by; what a document says is repeated is written out where it holds something. */
class TableRows {
  readonly tables: OdsTable[] = [];
  private table: OdsTable | undefined;
  private rowNumber = 0;
  private rowRepeats = 1;
  private cells: string[] = [];
  private column = 0;
  private readonly count = new CellCount();

  openTable(name: string, hidden: boolean): void {
    this.table = { name, rows: [], merges: [], notes: [], hidden };
    this.tables.push(this.table);
    this.rowNumber = 0;
  }

  closeTable(): void {
    this.table = undefined;
  }

  openRow(attributes: Attributes): void {
    this.rowRepeats = repeated(attributes["table:number-rows-repeated"]);
    this.cells = [];
    this.column = 0;
  }

  closeRow(): void {
    if (this.table === undefined) return;
    const repeats = this.cells.length === 0 ? 0 : Math.min(this.rowRepeats, mostRows - this.rowNumber);
    if (repeats > mostAlike)
      throw new WorkbookLimit("endless row", `tab ${this.table.name}, from row ${this.rowNumber + 1}`);
    this.count.add(repeats * this.cells.length, this.rowNumber + 1);
    this.count.addToRow(this.cells.filter((cell) => cell !== "").length, this.table.name, this.rowNumber + 1);
    for (let index = 1; index <= repeats; index++)
      this.table.rows.push({ cells: [...this.cells], row: this.rowNumber + index });
    this.rowNumber = Math.min(this.rowNumber + this.rowRepeats, mostRows);
  }

  /** Takes what is pinned to the cell that comes next, or that it is struck through. */
  addNote(text: string | undefined): void {
    this.table?.notes.push({ row: this.rowNumber + 1, column: this.column, text });
  }

  addCell(attributes: Attributes, filling: string): void {
    const repeats = Math.min(repeated(attributes["table:number-columns-repeated"]), mostColumns - this.column);
    if (filling !== "") {
      while (this.cells.length < this.column) this.cells.push("");
      for (let index = 0; index < repeats; index++) this.cells.push(filling);
    }
    const down = Number(attributes["table:number-rows-spanned"] ?? 1);
    const across = Number(attributes["table:number-columns-spanned"] ?? 1);
    if (down > 1 || across > 1) {
      const top = this.rowNumber + 1;
      const bottom = top + (down || 1) - 1;
      this.table?.merges.push({ top, bottom, left: this.column, right: this.column + (across || 1) - 1 });
    }
    this.column += repeats;
  }
}

/**
 * The tables of an OpenDocument spreadsheet, cells as the text a person would type: dates as ISO 8601, numbers
 * unrounded, with the percent sign, unit or currency shown; notes pinned to cells, and cells struck through, apart.
 * @param content the archive's content.xml
 * @throws WorkbookLimit where a filled row is repeated to no end or there are more cells than are read; Error where it is not
 *   well-formed
 * @source OpenDocument 1.2 part 1, 9.1 (tables), 19.385 (office:value-type)
 */
export function readOds(content: string): OdsTable[] {
  const rows = new TableRows();
  let cell: { attributes: Attributes; shown: ShownText } | undefined;
  let ignored = 0;
  const hiddenStyles = new Set<string>();
  const struckStyles = new Set<string>();
  let pinned: ShownText | undefined;
  let style = "";
  readXml(content, prefixes, {
    open: (name, attributes) => {
      // a note, a drawing or a table inside a cell is not its text
      if (name === "office:annotation" && cell !== undefined && ignored === 0) pinned = new ShownText();
      else pinned?.open(name, attributes);
      if (ignored > 0 || name === "office:annotation" || name.startsWith("draw:") || (cell && name === "table:table"))
        ignored++;
      else if (name === "style:style") style = attributes["style:name"] ?? "";
      else if (name === "style:table-properties" && attributes["table:display"] === "false") hiddenStyles.add(style);
      else if (name === "style:text-properties" && isStruck(attributes)) struckStyles.add(style);
      else if (name === "table:table")
        rows.openTable(attributes["table:name"] ?? "", hiddenStyles.has(attributes["table:style-name"] ?? ""));
      else if (name === "table:table-row") rows.openRow(attributes);
      else if (isCell(name)) cell = { attributes, shown: new ShownText() };
      else cell?.shown.open(name, attributes);
    },
    close: (name) => {
      pinned?.close(name);
      if (name === "office:annotation" && pinned !== undefined) {
        rows.addNote(pinned.text);
        pinned = undefined;
      }
      if (ignored > 0) ignored--;
      else if (name === "table:table") rows.closeTable();
      else if (name === "table:table-row") rows.closeRow();
      else if (cell !== undefined && isCell(name)) {
        const filling = cellText(cell.attributes, cell.shown.text);
        if (filling !== "" && struckStyles.has(cell.attributes["table:style-name"] ?? "")) rows.addNote(undefined);
        rows.addCell(cell.attributes, filling);
        cell = undefined;
      } else cell?.shown.close(name);
    },
    text: (part) => {
      pinned?.add(part);
      if (ignored === 0) cell?.shown.add(part);
    },
  });
  return rows.tables;
}
