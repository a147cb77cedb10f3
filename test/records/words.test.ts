import { describe, expect, test } from "vitest";
import { harvestFields } from "../../src/records/harvest-field.ts";
import { meaningsOf, meaningsOfPhrase } from "../../src/records/words/field-phrases.ts";
import { flushInHeader } from "../../src/records/words/flush-words.ts";
import { fold } from "../../src/records/words/fold.ts";
import { wordsOf } from "../../src/records/words/header-words.ts";
import { languages, placesOf } from "../../src/records/words/languages.ts";
import { summaryKind } from "../../src/records/words/summary-label.ts";

describe("words in eight languages", () => {
  test("every column has a name in every language, and each name is known for its column", () => {
    for (const { language, fields } of languages) {
      for (const { key } of harvestFields) {
        expect(fields[key], `${language} ${key}`).not.toBe("");
        for (const typed of fields[key].split("|").map((phrase) => phrase.replace(/^\?/, ""))) {
          const found = [...meaningsOfPhrase(typed), ...meaningsOf(wordsOf(typed))].map(({ field }) => field);
          expect(found, `${language} ${typed}`).toContain(key);
        }
      }
    }
  });

  test("months are those of Unicode CLDR, as the runtime has them, in their usual forms", () => {
    const months = placesOf((words) => words.months);
    const forms: Intl.DateTimeFormatOptions[] = [
      { month: "long" },
      { month: "long", day: "numeric" },
      { month: "short" },
      { month: "short", day: "numeric" },
    ];
    for (const tag of ["en-GB", "en-US", "de", "de-AT", "fr", "es", "it", "nl", "pl", "pt-BR"]) {
      for (let month = 0; month < 12; month++) {
        for (const form of forms) {
          const parts = new Intl.DateTimeFormat(tag, { ...form, timeZone: "UTC" }).formatToParts(
            new Date(Date.UTC(2026, month, 15)),
          );
          const name = parts.find(({ type }) => type === "month")!.value;
          expect(months.get(fold(name)), `${tag} ${name}`).toBe(month);
        }
      }
    }
  });

  test("a month's name stands for one month in all languages", () => {
    const seen = new Map<string, number>();
    for (const { months } of languages) {
      months.split("|").forEach((entry, place) => {
        for (const word of entry.split(",").map(fold)) {
          expect(seen.get(word) ?? place, word).toBe(place);
          seen.set(word, place);
        }
      });
    }
  });
});

// an accented letter is its letter and a mark (Unicode Standard Annex 15), and keeps a text from being left as it is
test("a text that folding may leave as it is comes out as one that it goes through", () => {
  const typed = languages.flatMap(({ fields }) => harvestFields.flatMap(({ key }) => fields[key].split("|")));
  for (const text of [...typed, "Dry Weight 12%", "two  spaces", " around ", "a#b", "n°"].filter((any) => any !== "")) {
    expect(fold(text), text).toBe(fold(`${text} é`).replace(/ ?e$/, ""));
  }
});

test.each([
  ["Total", "sum"],
  ["TOTAL:", "sum"],
  ["Subtotal A", "sum"],
  ["Σ", "sum"],
  ["Σ fresh", "sum"],
  ["Summe", "sum"],
  ["Zwischensumme", "sum"],
  ["Cook 1 total", "sum"],
  ["Razem", "sum"],
  ["Somme", "sum"],
  ["Totale", "sum"],
  ["Totaal", "sum"],
  ["Soma", "sum"],
  ["Avg/tray", "mean"],
  ["Ø", "mean"],
  ["Durchschnitt", "mean"],
  ["Moyenne", "mean"],
  ["Promedio", "mean"],
  ["Średnia", "mean"],
  ["Gemiddelde", "mean"],
  ["Std dev", "spread"],
  ["Standardabweichung", "spread"],
  ["écart-type", "spread"],
  ["Mediana", "median"],
  ["T1", undefined],
  ["N 4", undefined],
  ["Tote", undefined],
  ["totally green", undefined],
])("a row labelled %j: %s", (cell, kind) => {
  expect(summaryKind(cell)).toBe(kind);
});

test.each([
  ["Flush1_g", 1, "g"],
  ["1st pick", 1, ""],
  ["flush 2 fresh", 2, "fresh"],
  ["F3 dry", 3, "dry"],
  ["2. Welle g", 2, "g"],
  ["première volée", 1, ""],
  ["2ª cosecha peso", 2, "peso"],
  ["1a raccolta", 1, ""],
  ["2e vlucht", 2, ""],
  ["I rzut", 1, ""],
  ["Fluxo 2", 2, ""],
])("a column %j is of flush %i", (header, flush, rest) => {
  expect(flushInHeader(header)).toEqual({ flush, rest });
});

test("a column that names flushes and none of them is of no one flush", () => {
  for (const header of ["Flush", "Flush #", "harvest date", "Fresh g", "F"])
    expect(flushInHeader(header), header).toBeUndefined();
});
