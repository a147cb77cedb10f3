import type { Book } from "../../records/book.ts";
import { logEntry } from "../../records/log-entry.ts";

/**
 * A reader's language tag for numbers beside English words: its digits are always 0 to 9.
 * @returns undefined where the tag is none, or none the browser knows
 * @example numberLocale("ar-EG") // "ar-EG-u-nu-latn"
 */
export function numberLocale(tag: string): string | undefined {
  try {
    const { numberingSystem, locale } = new Intl.NumberFormat(tag).resolvedOptions();
    if (Intl.NumberFormat.supportedLocalesOf([tag]).length === 0) return undefined;
    return numberingSystem === "latn" ? locale : `${locale.replace(/-u-.*/, "")}-u-nu-latn`;
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Numbers written alike need no word. */
const writesAlike = (a: string, b: string): boolean =>
  [a, b]
    .map((locale) => {
      const options = { style: "currency", currency: "EUR" } as const;
      return [
        new Intl.NumberFormat(locale).format(-1234567.891),
        new Intl.NumberFormat(locale, options).format(-1234.5),
      ];
    })
    .every((texts, _, [first]) => texts.join() === first!.join());

/**
 * A book that states no number format is written as the reader's browser writes numbers; the log says so, and the setting
 * that decides otherwise.
 * @param locale as `numberLocale` gives it
 */
export function writeNumbersFor(book: Book, locale: string): void {
  if (writesAlike(locale, book.settings.locale)) return;
  book.settings = { ...book.settings, locale };
  book.issues.push(
    logEntry({
      file: "settings.csv",
      rule: "locale-of-the-browser",
      severity: "note",
      result: locale,
      reason: "the book states no number format, so numbers are written as this browser does",
      action: "State another locale, such as en-GB, if you like",
      setting: "locale",
    }),
  );
}
