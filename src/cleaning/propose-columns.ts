import { writeCsv } from "../csv/write-csv.ts";
import type { Book } from "../records/book.ts";

/**
 * The text of a columns.csv that pins how a book's columns were read, for the grower to keep or correct. Columns that
 * were asked about stand in it as unread.
 */
export function proposeColumns({ columns }: Book): string {
  const rows = columns
    .filter(({ header }) => header !== "")
    .map(({ file, header, field, unit, because }) => [file, header, field, unit, because]);
  return writeCsv([["file", "header", "field", "unit", "note"], ...rows], { guard: true });
}
