import Papa from "papaparse";
import { mayHoldGuards, withoutGuard } from "../formula-guard.ts";

/** Called once per record, blank ones too; returning false ends the reading. `unclosedQuote` marks a line read as it stands. */
export type VisitRecord = (cells: string[], row: number, unclosedQuote: boolean) => boolean | undefined;

/** How records are read. */
export interface RecordOptions {
  delimiter: string;
  /** cells a complete row has; tells a quote that was never closed from a quoted cell of several lines. 0 when not known */
  width?: number;
  /** characters gathered before a stretch is parsed */
  stretch?: number;
  /** spaces between a delimiter and a quotation mark mean nothing, as in `A1, "good, dense"` */
  skipSpace?: boolean;
  /** a backslash before a delimiter makes it part of the cell, as in `Tray\,no` */
  escapes?: boolean;
}

interface Parsed {
  data: string[][];
  errors: { code: string; row?: number }[];
  meta: { cursor: number };
}

/** Stands for an escaped delimiter while a text is cut into cells: Unicode keeps it out of any text. */
const escaped = "\ufdd0";

/** A row this long that still waits for its closing quote will not get it. */
const longestRow = 1 << 18;
/** A stretch this long without a single complete row is read as it stands, for want of memory. */
const longestText = 1 << 26;
/** After this many quotes that were never closed, quotes in the file mean something else: inches, perhaps. */
const mostUnclosed = 100;

function startOf(text: string, record: number, delimiter: string): number {
  if (record === 0) return 0;
  const upTo = new Papa.Parser({ delimiter, newline: "\n", preview: record, fastMode: false });
  const { meta }: Parsed = upTo.parse(text, 0, true);
  return meta.cursor;
}

function lineAt(text: string, start: number, delimiter: string): { cells: string[]; end: number } {
  const newline = text.indexOf("\n", start);
  const end = newline === -1 ? text.length : newline;
  const line = text.slice(start, end);
  const cells = (line.endsWith("\r") ? line.slice(0, -1) : line).split(delimiter);
  return { cells, end: Math.min(end + 1, text.length) };
}

/** The first record that holds lines it should not: a quote in it was not closed. */
function firstSwallower(
  { data, errors }: Parsed,
  text: string,
  isEnd: boolean,
  { delimiter, width = 0 }: RecordOptions,
): number {
  for (const error of errors) {
    const index = error.row ?? data.length;
    const record = data[index];
    if (isEnd && index === data.length - 1 && error.code === "MissingQuotes") return index;
    if (record?.some((cell) => cell.includes("\n"))) {
      // unless it makes a whole row and its first line alone does not
      if (record.length !== width || lineAt(text, startOf(text, index, delimiter), delimiter).cells.length === width)
        return index;
    }
  }
  return -1;
}

/** Reads the records of text as it comes in; `going` until the visitor has had enough. */
class RecordReader {
  going = true;
  private row = 0;
  private unclosed = 0;
  private readonly parser: Papa.Parser;
  private readonly literal: Papa.Parser;

  constructor(
    private readonly options: RecordOptions,
    private readonly visit: VisitRecord,
  ) {
    const { delimiter } = options;
    this.parser = new Papa.Parser({ delimiter, newline: "\n" });
    this.literal = new Papa.Parser({ delimiter, newline: "\n", fastMode: true });
  }

  inOneDialect(text: string): string {
    const { skipSpace, escapes, delimiter } = this.options;
    const ended = withLineFeeds(text);
    const plain = escapes ? ended.replaceAll(`\\${delimiter}`, escaped) : ended;
    return skipSpace ? withoutSpaceBeforeQuotes(plain, delimiter) : plain;
  }

  /** Takes out of the cells of a row, in place, what only serves to write them down. */
  private plainCells(cells: string[], guards: boolean): string[] {
    const { escapes, delimiter } = this.options;
    if (!guards && !escapes) return cells;
    for (let at = 0; at < cells.length; at++) {
      if (escapes) cells[at] = cells[at]!.replaceAll(escaped, delimiter);
      if (guards) cells[at] = withoutGuard(cells[at]!);
    }
    return cells;
  }

  private emit(records: ReadonlyArray<string[]>, until: number, guards: boolean): void {
    for (let index = 0; index < until && this.going; index++) {
      this.going = this.visit(this.plainCells(records[index]!, guards), ++this.row, false) !== false;
    }
  }

  /** Emits the records of a stretch in one dialect and gives back what is left of it. */
  consume(stretch: string, isEnd: boolean): string {
    const { delimiter } = this.options;
    let text = stretch;
    while (this.going && text !== "") {
      const quotesHonoured = this.unclosed < mostUnclosed;
      const guards = mayHoldGuards(text);
      const parsed: Parsed = (quotesHonoured ? this.parser : this.literal).parse(text, 0, !isEnd);
      let swallower =
        quotesHonoured && parsed.errors.length > 0 ? firstSwallower(parsed, text, isEnd, this.options) : -1;
      this.emit(parsed.data, swallower === -1 ? parsed.data.length : swallower, guards);
      let start = 0;
      if (swallower === -1) {
        if (isEnd) return "";
        text = text.slice(parsed.meta.cursor);
        const waitsForQuote = quotesHonoured && text.length > longestRow && text.includes("\n");
        if (!waitsForQuote && text.length <= longestText) return text;
        swallower = 0;
      } else start = startOf(text, swallower, delimiter);
      if (!this.going) return "";
      const line = lineAt(text, start, delimiter);
      this.unclosed++;
      this.going = this.visit(this.plainCells(line.cells, guards), ++this.row, true) !== false;
      // what was taken for the inside of a quoted cell was not
      text = this.inOneDialect(text.slice(line.end));
      // rows are whole again up to the last one
      if (isEnd) return this.consume(this.consume(text, false), true);
    }
    return text;
  }
}

/**
 * Reads delimited text record by record, without holding more than a stretch of it. Quoted cells may hold delimiters,
 * doubled quotes and line breaks; CR LF, CR and LF all end a row. The row number counts records as a spreadsheet
 * shows them: a line break inside quotes does not advance it, a blank line does, and is kept as it was typed.
 *
 * A quote at the start of a cell that is never closed would swallow rows; such a line is read as it stands, and the
 * next line is a row again.
 * @param pieces the text in pieces of any size
 */
export function readRecords(pieces: Iterable<string>, options: RecordOptions, visit: VisitRecord): void {
  const { stretch = 1 << 15 } = options;
  const reader = new RecordReader(options, visit);
  let gathered = "";
  let heldReturn = "";
  let enough = stretch;
  for (const piece of inStretches(pieces, stretch)) {
    gathered += heldReturn + piece;
    heldReturn = "";
    if (gathered.length < enough) continue;
    // a CR at the very end may be half of a CR LF
    if (gathered.endsWith("\r")) {
      heldReturn = "\r";
      gathered = gathered.slice(0, -1);
    }
    gathered = reader.consume(reader.inOneDialect(gathered), false);
    if (!reader.going) return;
    // doubling keeps the time in proportion to the text when one row is very long
    enough = Math.max(gathered.length + stretch, 2 * gathered.length);
  }
  const rest = reader.inOneDialect(gathered + heldReturn);
  // the last row's own line end begins no further row
  const last = reader.consume(rest, false);
  if (reader.going && last !== "") reader.consume(last, true);
}

/** Cut up, because records of a short stretch are gone again before the collector of memory has to move them. */
function* inStretches(pieces: Iterable<string>, stretch: number): Generator<string> {
  for (const piece of pieces) {
    if (piece.length <= stretch) yield piece;
    else for (let at = 0; at < piece.length; at += stretch) yield piece.slice(at, at + stretch);
  }
}

const oneFeed = (text: string): string => text.replaceAll("\r\n", "\n").replaceAll("\r", "\n");

/** Every row ended by a line feed. Inside quotation marks CR LF stays as it is; a text begins outside of them. */
function withLineFeeds(text: string): string {
  if (!text.includes("\r")) return text;
  if (!text.includes('"')) return oneFeed(text);
  const parts = text.split('"');
  for (let index = 0; index < parts.length; index++) {
    if (parts[index]!.includes("\r")) {
      parts[index] = index % 2 === 0 ? oneFeed(parts[index]!) : parts[index]!.replace(/\r(?!\n)/g, "\n");
    }
  }
  return parts.join('"');
}

/** Takes out spaces between a delimiter and the quotation mark that opens a cell. */
function withoutSpaceBeforeQuotes(text: string, delimiter: string): string {
  if (!text.includes(' "')) return text;
  const parts = text.split('"');
  for (let index = 0; index < parts.length - 1; index += 2) {
    const part = parts[index]!;
    const bare = part.trimEnd();
    if (part.length > bare.length && bare.endsWith(delimiter) && !part.slice(bare.length).includes("\n"))
      parts[index] = bare;
  }
  return parts.join('"');
}
