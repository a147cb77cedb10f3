import { writeCsv } from "../csv/write-csv.ts";
import type { Book } from "../records/book.ts";

/** How the note of a column ends that is asked about. */
export const toBeTyped = "type the right one under field";

/**
 * The text of a columns.csv that pins how a book's columns were read, for the grower to keep or correct. A column that is
 * asked about has no field in it yet, and a note that says what it may be.
 */
export function proposeColumns({ columns }: Book): string {
  const rows = columns
    .filter(({ header }) => header !== "")
    .map(({ file, header, field, unit, because, mayBe }) =>
      mayBe === undefined
        ? [file, header, field, unit, because]
        : [file, header, "", "", `could be ${mayBe.join(" or ")}; ${toBeTyped}`],
    );
  return writeCsv([["file", "header", "field", "unit", "note"], ...rows], { guard: true });
}
