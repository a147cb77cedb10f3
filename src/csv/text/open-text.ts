import type { SheetSource } from "../../records/sheet.ts";
import { textKind } from "../file-kind.ts";
import { notASheet } from "../not-a-sheet.ts";
import { shapeSheet } from "../shape/shape-sheet.ts";
import { openShape, type ShapeSettings, type SheetWords } from "../shape/sheet-words.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { sheetIssue } from "../sheet-issue.ts";
import { decodeText } from "./decode-text.ts";
import { detectDelimiter } from "./detect-delimiter.ts";
import { detectEncoding } from "./detect-encoding.ts";
import { readRecords, type VisitRecord } from "./read-records.ts";

const sampleCharacters = 1 << 16;

function sampleOf(pieces: Iterable<string>): string {
  let sample = "";
  for (const piece of pieces) {
    sample += piece;
    if (sample.length >= sampleCharacters) return sample.slice(0, sample.lastIndexOf("\n") + 1 || sample.length);
  }
  return sample;
}

/** Cells most rows of the sample have. */
function usualWidth(sample: string, delimiter: string): number {
  const counts = new Map<number, number>();
  let rows = 0;
  readRecords([sample], { delimiter }, ({ length }) => {
    if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
    return ++rows < 200;
  });
  let width = 0;
  for (const [length, count] of counts) if (count > (counts.get(width) ?? 0)) width = length;
  return width;
}

/** Opens a delimited text file: encoding, delimiter, then its tables. */
export function openText(
  source: SheetSource,
  head: Uint8Array,
  { words, shapeOf }: { words?: SheetWords; shapeOf?: (file: string) => ShapeSettings },
): OpenedSheet {
  const file = source.path;
  const { encoding, because, damaged } = detectEncoding(source, head);
  const pieces = () => decodeText(source.chunks(), encoding);
  const sample = sampleOf(pieces());
  const kind = textKind(sample);
  if (kind === "web page" || kind === "XML" || kind === "JSON" || kind === "unknown") {
    return { tables: [], issues: [notASheet(file, kind)], leftOut: [] };
  }
  const delimiter = detectDelimiter(sample);
  const width = usualWidth(sample, delimiter);
  const grid = {
    file,
    merges: [],
    delimited: true,
    forEachRecord: (visit: VisitRecord) => readRecords(pieces(), { delimiter, width }, visit),
  };
  const opened = shapeSheet(grid, { words, settings: shapeOf?.(file) ?? openShape });
  if (because === "not UTF-8") {
    opened.issues.unshift(
      sheetIssue({
        file,
        rule: "encoding",
        severity: "note",
        result: "windows-1252",
        reason: "the file is not UTF-8 and was read as Windows-1252; look whether letters with accents are right",
        action: "Save the sheet as CSV UTF-8 if they are not",
      }),
    );
  }
  if (damaged) {
    opened.issues.unshift(
      sheetIssue({
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
