import type { Trial } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { Memo } from "../records/memo.ts";
import { trialInBook } from "../records/planned-trial.ts";
import type { Settings } from "../records/setting.ts";
import type { Tray } from "../records/tray.ts";
import { readingOfBook } from "./book-readings.ts";

/**
 * The settings of a book, with what the plan's own sheet says of a trial that came back filled in: what it varied is asked
 * first, and its planned cooks are those to wait for; that they were drawn by lot holds where the book is that trial and nothing
 * else.
 */
const settingsOfTrial = ({ trays, settings }: Book, memo: Memo): Settings =>
  memo.once([trays, settings], "settings with those of the plan", () => {
    const found = trialInBook(trays);
    if (found === undefined) return settings;
    const { trial, isWholeBook } = found;
    return {
      ...settings,
      ...(settings.varied === "" ? { varied: trial.varies } : {}),
      ...(settings.plannedCooks === 0 ? { plannedCooks: trial.cooks } : {}),
      ...(isWholeBook && settings.dosesDrawnByLot === "" ? { dosesDrawnByLot: "yes" as const } : {}),
    };
  });

/**
 * What an analysis gets to see of a book.
 * @param trays some of the book's trays; all of them unless given
 * @param memo keeps what questions share; a new one unless given
 */
export function trialOf(book: Book, trays: ReadonlyArray<Tray> = book.trays, memo = new Memo()): Trial {
  const settings = settingsOfTrial(book, memo);
  const reading = readingOfBook({ ...book, settings });
  return {
    trays,
    ...(book.costLines === undefined ? {} : { costLines: book.costLines }),
    ...(book.products === undefined ? {} : { products: book.products }),
    ...(book.unread === undefined ? {} : { unread: book.unread }),
    settings,
    temperatureLog: book.temperatureLog,
    issues: book.issues,
    memo,
    ...(reading === undefined ? {} : { reading }),
    ...(book.readings === undefined ? {} : { readings: book.readings }),
  };
}
