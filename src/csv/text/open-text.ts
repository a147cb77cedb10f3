import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { SheetSource } from "../../records/sheet.ts";
import { textKind } from "../file-kind.ts";
import { notASheet } from "../not-a-sheet.ts";
import { shapeSheet } from "../shape/shape-sheet.ts";
import { openShape, type ShapeSettings, type SheetWords } from "../shape/sheet-words.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { decodeText } from "./decode-text.ts";
import { delimiters, detectDelimiter, escapesDelimiters, spacesBeforeQuotes } from "./detect-delimiter.ts";
import { detectEncoding, startOfText } from "./detect-encoding.ts";
import { readRecords, type VisitRecord } from "./read-records.ts";

const sampleCharacters = 1 << 16;
const encodingNames: Readonly<Record<string, string>> = {
  "windows-1252": "Windows-1252",
  "windows-1250": "Windows-1250",
  "iso-8859-2": "ISO 8859-2",
};

function sampleOf(pieces: Iterable<string>): string {
  let sample = "";
  for (const piece of pieces) {
    sample += piece;
    if (sample.length >= sampleCharacters) return sample.slice(0, sample.lastIndexOf("\n") + 1 || sample.length);
  }
  return sample;
}

/** More cells than anyone has trays in one sheet, or more characters than they hold, and a line is no row of a sheet. */
const mostCells = 4096;
const longestLine = 1 << 22;
/** characters at the start of a text whose lines are looked at */
const lookedAt = 1 << 20;

/** Whether one of the first lines of a text goes on beyond what a sheet's can; read no further than that. */
function hasEndlessLine(pieces: Iterable<string>, delimiter: string): boolean {
  let [read, characters, cells] = [0, 0, 1];
  for (const piece of pieces) {
    const parts = piece.split(/[\r\n]/);
    for (const [index, part] of parts.entries()) {
      if (index > 0) [characters, cells] = [0, 1];
      characters += part.length;
      for (let at = part.indexOf(delimiter); at !== -1; at = part.indexOf(delimiter, at + 1)) cells++;
      if (cells > mostCells || characters > longestLine) return true;
    }
    read += piece.length;
    if (read > lookedAt && parts.length > 1) return false;
  }
  return false;
}

/** Cells most rows of the sample have. */
function usualWidth(sample: string, delimiter: string, escapes: boolean): number {
  const counts = new Map<number, number>();
  let rows = 0;
  readRecords([sample], { delimiter, escapes }, ({ length }) => {
    if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
    return ++rows < 200;
  });
  let width = 0;
  for (const [length, count] of counts) if (count > (counts.get(width) ?? 0)) width = length;
  return width;
}

/** What cells are apart by in a text that has none of the delimiters that are read: most lines have as many parts. */
function unreadDelimiter(sample: string): "spaces" | "#" | ":" | "/" | "^" | "~" | undefined {
  if (delimiters.some((delimiter) => sample.includes(delimiter))) return undefined;
  const lines = sample
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .slice(0, 50);
  if (lines.length < 2) return undefined;
  const cut = { spaces: / +/, "#": "#", ":": ":", "/": "/", "^": "^", "~": "~" } as const;
  for (const [name, by] of Object.entries(cut) as [keyof typeof cut, string | RegExp][]) {
    const parts = lines.map((line) => line.split(by));
    const width = parts[0]!.length;
    const alike = parts.filter(({ length }) => length === width).length;
    const numbers = parts
      .slice(1)
      .filter((cells) => cells.some((cell) => /^\d+(?:[.,]\d+)?$/.test(cell.trim()))).length;
    if (width >= 3 && alike >= 0.8 * lines.length && numbers >= 0.5 * (lines.length - 1)) return name;
  }
  return undefined;
}

const otherDelimiter = (file: string, delimiter: string, sample: string): Issue =>
  logEntry({
    file,
    row: 1,
    rule: "unread-delimiter",
    severity: "error",
    raw: sample.split(/[\r\n]/)[0]!.slice(0, 100),
    reason: `the cells seem to be apart by ${delimiter === "spaces" ? "spaces" : `the sign ${delimiter}`}, which may as well stand inside a cell; nothing was read`,
    expected: "cells apart by a comma, a semicolon, a tab or a bar",
    action: "Open it in a spreadsheet program, say there what the cells are apart by, and save it as CSV (UTF-8)",
  });

/** Opens a delimited text file: encoding, delimiter, then its tables. */
export function openText(
  source: SheetSource,
  head: Uint8Array,
  { words, shapeOf }: { words?: SheetWords; shapeOf?: (file: string) => ShapeSettings },
): OpenedSheet {
  const file = source.path;
  // a large file that is no text is not read to its end to know that
  if (textKind(startOfText(head)) === "unknown")
    return { tables: [], issues: [notASheet(file, "unknown")], leftOut: [] };
  const { encoding, because, damaged } = detectEncoding(source, head);
  const pieces = () => decodeText(source.chunks(), encoding);
  const sample = sampleOf(pieces());
  const kind = textKind(sample);
  if (kind === "web page" || kind === "XML" || kind === "JSON" || kind === "unknown") {
    return { tables: [], issues: [notASheet(file, kind)], leftOut: [] };
  }
  const delimiter = detectDelimiter(sample);
  if (hasEndlessLine(pieces(), delimiter))
    return { tables: [], issues: [notASheet(file, "endless line")], leftOut: [] };
  const escapes = escapesDelimiters(sample, delimiter);
  const width = usualWidth(sample, delimiter, escapes);
  const other = width <= 1 ? unreadDelimiter(sample) : undefined;
  if (other !== undefined) return { tables: [], issues: [otherDelimiter(file, other, sample)], leftOut: [] };
  const skipSpace = spacesBeforeQuotes(sample, delimiter);
  const grid = {
    file,
    merges: [],
    delimited: true,
    forEachRecord: (visit: VisitRecord) => readRecords(pieces(), { delimiter, width, skipSpace, escapes }, visit),
  };
  const opened = shapeSheet(grid, { words, settings: shapeOf?.(file) ?? openShape });
  if (because === "not UTF-8") {
    opened.issues.unshift(
      logEntry({
        file,
        rule: "encoding",
        severity: "note",
        result: encoding,
        reason: `the file is not UTF-8 and was read as ${encodingNames[encoding] ?? encoding}; look whether letters with accents are right`,
        action: "Save the sheet as CSV UTF-8 if they are not",
      }),
    );
  }
  if (escapes) {
    opened.issues.unshift(
      logEntry({
        file,
        rule: "escaped-separator",
        severity: "note",
        raw: `\\${delimiter}`,
        result: delimiter,
        reason: "a backslash before a separator is read as making it part of the cell",
        action: "Put such cells into quotation marks instead if they are read wrongly",
      }),
    );
  }
  if (damaged) {
    opened.issues.unshift(
      logEntry({
        file,
        rule: "damaged-text",
        severity: "warning",
        reason: "some bytes of the file are no characters; they show as \uFFFD",
        expected: "text saved as UTF-8",
        action: "Save the sheet again as CSV UTF-8 from the program it was made in",
      }),
    );
  }
  return opened;
}
