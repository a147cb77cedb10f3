import type { SheetSource } from "../records/sheet.ts";
import { fileKind } from "./file-kind.ts";
import { notASheet } from "./not-a-sheet.ts";
import type { ShapeSettings, SheetWords } from "./shape/sheet-words.ts";
import type { OpenedSheet } from "./shape/table-of.ts";
import { openText } from "./text/open-text.ts";
import { openCompound } from "./workbook/open-compound.ts";
import { openZip } from "./workbook/open-zip.ts";

export type { OpenedSheet } from "./shape/table-of.ts";

/** How a file is opened. */
export interface OpenOptions {
  /** of a workbook; all of its sheets unless given */
  sheetName?: string;
  /** what the trade calls its columns; without it only a header and its rows are looked for */
  words?: SheetWords;
  /** what the book's settings say of the shape of this sheet, or of one of a workbook's */
  shapeOf?: (file: string) => ShapeSettings;
}

const headBytes = 1 << 16;

/** The first bytes of a file, 64 kB or all of it. */
function headOf(source: SheetSource): Uint8Array {
  const parts: Uint8Array[] = [];
  let length = 0;
  for (const chunk of source.chunks()) {
    parts.push(chunk);
    length += chunk.length;
    if (length >= headBytes) break;
  }
  const head = new Uint8Array(Math.min(length, headBytes));
  let at = 0;
  for (const part of parts) {
    head.set(part.subarray(0, head.length - at), at);
    at += Math.min(part.length, head.length - at);
  }
  return head;
}

/**
 * Opens a sheet whatever it is: delimited text in its encoding and dialect, or a workbook. What is not a sheet, is
 * damaged or is protected gives one error that says what it is and what to do; content never makes it throw.
 * @param source bytes that can be read more than once; it must stay readable while the tables are used
 * @throws what `source.chunks()` throws, when the file cannot be read at all
 * @example (await openSheet(source)).tables[0].header // ["tray_id", "fresh_g"]
 */
export async function openSheet(source: SheetSource, options: OpenOptions = {}): Promise<OpenedSheet> {
  const head = headOf(source);
  const kind = fileKind(head);
  if (kind === "text") return openText(source, head, options);
  if (kind === "zip") return openZip(source, options);
  if (kind === "compound") return openCompound(source);
  return { tables: [], issues: [notASheet(source.path, kind)], leftOut: [] };
}
