import type { Trial } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { Memo } from "../records/memo.ts";
import type { Tray } from "../records/tray.ts";
import { readingOfBook } from "./book-readings.ts";

/**
 * What an analysis gets to see of a book.
 * @param trays some of the book's trays; all of them unless given
 * @param memo keeps what questions share; a new one unless given
 */
export function trialOf(book: Book, trays: ReadonlyArray<Tray> = book.trays, memo = new Memo()): Trial {
  const reading = readingOfBook(book);
  return {
    trays,
    ...(book.costLines === undefined ? {} : { costLines: book.costLines }),
    ...(book.products === undefined ? {} : { products: book.products }),
    ...(book.unread === undefined ? {} : { unread: book.unread }),
    settings: book.settings,
    temperatureLog: book.temperatureLog,
    issues: book.issues,
    memo,
    ...(reading === undefined ? {} : { reading }),
    ...(book.readings === undefined ? {} : { readings: book.readings }),
  };
}

/** The trays of a book without a flagged cell; the very same list each time a memo is asked. */
export const unflaggedTrays = (trays: ReadonlyArray<Tray>, memo = new Memo()): ReadonlyArray<Tray> =>
  memo.once([trays], "trays without a flag", () => trays.filter(({ flags }) => flags.length === 0));
