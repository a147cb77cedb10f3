import type { SheetSource } from "../../records/sheet.ts";
import { allBytes } from "../all-bytes.ts";
import { notASheet } from "../not-a-sheet.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { largestArchive } from "./workbook-limit.ts";

/** Whether the bytes hold a directory entry of that name, which such files write in UTF-16. */
function hasEntry(bytes: Uint8Array, name: string): boolean {
  const first = name.charCodeAt(0);
  for (let at = bytes.indexOf(first); at !== -1; at = bytes.indexOf(first, at + 1)) {
    let index = 0;
    while (index < name.length && bytes[at + 2 * index] === name.charCodeAt(index) && bytes[at + 2 * index + 1] === 0) {
      index++;
    }
    if (index === name.length) return true;
  }
  return false;
}

/**
 * Says what a compound file is: an encrypted workbook, a workbook of the old kind, or an old document.
 * @source [MS-OFFCRYPTO] 2.3.4.4 (the stream EncryptedPackage); [MS-XLS] 2.1.2 (the stream Workbook; from memory)
 */
export function openCompound(source: SheetSource): OpenedSheet {
  const bytes = allBytes(source, largestArchive);
  const why = hasEntry(bytes, "EncryptedPackage")
    ? "protected workbook"
    : hasEntry(bytes, "WordDocument")
      ? "text document"
      : hasEntry(bytes, "PowerPoint Document")
        ? "slides"
        : hasEntry(bytes, "Workbook") || hasEntry(bytes, "Book")
          ? "old workbook"
          : "unknown";
  return { tables: [], issues: [notASheet(source.path, why)], leftOut: [] };
}
