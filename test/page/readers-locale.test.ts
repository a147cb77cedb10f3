import { expect, test } from "vitest";
import { numberLocale, writeNumbersFor } from "../../src/page/worker/readers-locale.ts";
import type { Book } from "../../src/records/book.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";

const emptyBook = (locale: string): Book => ({
  ...{ name: "book", settings: { ...defaultSettings, locale }, trays: [], harvestFiles: [] },
  ...{ temperatureLog: [], columns: [], issues: [], leftOut: [] },
});

test.each([
  ["de-DE", "de-DE"],
  // CLDR: Egypt writes Arabic digits unless said otherwise
  ["ar-EG", "ar-EG-u-nu-latn"],
  ["", undefined],
  ["en_US.UTF-8", undefined],
  ["C", undefined],
])("the tag %j writes numbers as %j", (tag, expected) => {
  expect(numberLocale(tag)).toBe(expected);
});

test("only a browser that writes numbers otherwise than the book is written", () => {
  const book = emptyBook("en-GB");
  writeNumbersFor(book, "en-IE");
  expect([book.settings.locale, book.issues.length]).toEqual(["en-GB", 0]);
  writeNumbersFor(book, "de-CH");
  expect(book.settings.locale).toBe("de-CH");
  expect(book.issues).toMatchObject([{ severity: "note", setting: "locale", result: "de-CH", file: "settings.csv" }]);
});
