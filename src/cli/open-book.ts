import { readBook } from "../engine/read-book.ts";
import type { Book } from "../records/book.ts";
import { counted } from "../records/counted.ts";
import type { PlannedOutput } from "./output/output-place.ts";
import { requirePlaces } from "./output/output-set.ts";
import { PlainFailure } from "./plain-failure.ts";
import type { Progress } from "./progress.ts";
import { type BookFolder, readBookFolder } from "./read-book-folder.ts";
import { requireStated, type Stated, withStated } from "./stated-settings.ts";
import { today } from "./today.ts";

/**
 * A cleaned book from disk, with where its sheets lie.
 * @param given.set settings and columns stated on the command line; they win over the book's own
 * @param given.outputs what will be written from it: a place that cannot be written to is refused before the sheets are read
 * @throws PlainFailure if there is nothing to read, or an output cannot be written
 */
export async function openBookFolder(
  path: string,
  progress: Progress,
  { set = [], outputs = [] }: { set?: ReadonlyArray<Stated>; outputs?: ReadonlyArray<PlannedOutput> } = {},
): Promise<{ book: Book; folder: BookFolder }> {
  const found = readBookFolder(path);
  requirePlaces(outputs, found);
  const folder = await withStated(found, set);
  const book = await readBook(folder.sheets, {
    name: folder.name,
    notRead: folder.notRead,
    today: today(),
    onProgress: ({ file, rows }) => progress.say(`reading ${file}: ${rows.toLocaleString("en")} rows`),
  });
  requireStated(book, set);
  return { book, folder };
}

/** A cleaned book from disk. @throws PlainFailure if there is nothing to read */
export const openBook = async (path: string, progress: Progress): Promise<Book> =>
  (await openBookFolder(path, progress)).book;

/** Fails with one line when a book holds no tray to look at. */
export function requireTrays(book: Book, path: string): void {
  if (book.trays.length > 0) return;
  const worst = book.issues.find(({ severity }) => severity === "error");
  if (worst !== undefined) {
    const place = `${worst.file}${worst.row > 0 ? `, row ${worst.row}` : ""}`;
    throw new PlainFailure(`${place}: ${worst.reason}${worst.action === "" ? "" : `. ${worst.action}`}`, 1);
  }
  const planned = book.planned?.length ?? 0;
  if (planned > 0) {
    const many = counted(planned, "tray is planned and not", "trays are planned and none is");
    throw new PlainFailure(`${path}: ${many} started yet. Run again once one is inoculated.`, 1);
  }
  if (book.harvestFiles.length === 0) {
    throw new PlainFailure(
      `${path}: no harvest sheet was found. Put one (one row per tray) into the book's harvests folder.`,
      1,
    );
  }
  throw new PlainFailure(
    `${path}: the harvest sheets hold no trays yet. Type at least one row per started tray, then run again.`,
    1,
  );
}
