import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { withAnsweredSettings } from "../../src/engine/answered-settings.ts";
import { sheetQuestions } from "../../src/engine/sheet-questions.ts";
import type { Book } from "../../src/records/book.ts";
import type { Issue } from "../../src/records/issue.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { judgeMutant } from "../layouts/judge-reading.ts";
import { allFacts, bookOf, sheet } from "./book-of.ts";

const kinds: [kind: string, text: string][] = [
  ["dates that can be read two ways", "Tray,LC ml,Inoculated,Fresh g\nT1,10,3/4/26,205\nT2,15,5/4/26,231\n"],
  ["one mark with three digits", 'Tray,LC ml,Fresh g\nT1,10,"5,234"\nT2,15,"5,310"\n'],
  ["syringes of unknown size", "Tray,LC volume,Fresh g\nT1,1 syringe,205\nT2,2 syringes,231\n"],
  ["two columns of fresh weight", "Tray,LC ml,Fresh wt,Harvest weight\nT1,10,205,210\nT2,15,231,240\n"],
  ["a column weighed with its container", "Tray,LC ml,Fresh incl. tray (g)\nT1,10,305\nT2,15,331\n"],
  ["columns of the grower's own words", "Thing,Squirt,Stuff\nQ1,10,205\nQ2,10,198\nQ3,15,231\nQ4,15,229\n"],
  [
    "a column filled here and there",
    "Tray,Dose ml,Fresh g\nT1,10,200\nT2,,205\nT3,,210\nT4,15,220\nT5,,230\nT6,20,240\nT7,,241\nT8,,242\nT9,,243\n",
  ],
];

const isOpen = ({ severity }: Issue): boolean => severity === "error" || severity === "warning";
const answers: Readonly<Record<string, string>> = { syringe_ml: "12" };
const sources = (text: string): SheetSource[] => [sheet("spring.csv", text)];
const complaints = (book: Book): number => book.issues.filter(isOpen).length;

describe("what a remedy says works when it is done so", () => {
  test.each(kinds)("the setting named, in a settings sheet: %s", async (_, text) => {
    const book = await bookOf({ "spring.csv": text });
    const asked = book.issues.filter((issue) => isOpen(issue) && issue.setting !== undefined);
    for (const { setting, rule, action } of asked) {
      expect(action).toContain(setting);
      const [question] = sheetQuestions(book.issues).filter(({ key }) => key === setting);
      const value = question!.choices[0] ?? answers[setting!]!;
      const settled = await bookOf({ "spring.csv": text, "settings.csv": `key,value\n${setting},${value}\n` });
      expect(settled.issues.filter((issue) => issue.rule === rule && isOpen(issue))).toEqual([]);
    }
  });

  test.each(kinds)("the lines for columns.csv, pasted, beside a sheet on top of the book: %s", async (_, text) => {
    const book = await bookOf({ "spring.csv": text });
    for (const { rule, action, column } of book.issues.filter(isOpen)) {
      const block = /^file,header,field.*/ms.exec(action)?.[0];
      const line = /add the line (.+?) (?:\(or |to columns\.csv)/i.exec(action)?.[1];
      if (block === undefined && line === undefined) continue;
      const pins = block ?? `file,header,field\n${line}`;
      for (const place of ["columns.csv", "spring.columns.csv"]) {
        const settled = await bookOf({ "spring.csv": text, [place]: pins });
        expect(settled.issues.filter((issue) => issue.rule === rule && issue.column === column)).toEqual([]);
      }
    }
  });

  test.each(kinds)("each question the page asks, answered by its first choice, is gone: %s", async (_, text) => {
    const book = await bookOf({ "spring.csv": text });
    const questions = sheetQuestions(book.issues, book.columns).filter(({ state }) => state === "open");
    expect(questions.length).toBeGreaterThan(0);
    // of two columns that may be one field, the first is it
    const given = questions.map(({ key, choices }, index) => {
      const isTaken = questions.slice(0, index).some((before) => before.choices[0] === choices[0]);
      return [key, isTaken && key.startsWith("column:") ? "factor" : (choices[0] ?? answers[key]!)] as const;
    });
    const { sources: answered } = await withAnsweredSettings(sources(text), given);
    const settled = await cleanBook(answered);
    expect(complaints(settled)).toBeLessThan(complaints(book));
    const left = sheetQuestions(settled.issues, settled.columns).filter(({ state }) => state === "open");
    expect(left.map(({ key }) => key).filter((key) => given.some(([own]) => own === key))).toEqual([]);
  });

  test("a book without a varied column or a result is an error with lines to paste; growing trays are none", async () => {
    const odd = await bookOf({ "spring.csv": kinds[5]![1] });
    const errors = odd.issues.filter(({ severity }) => severity === "error").map(({ rule }) => rule);
    expect(errors).toEqual(expect.arrayContaining(["no-varied-column", "no-result-column"]));
    const growing = await bookOf({
      "spring.csv": "Tray,LC ml,Inoculated,Fresh g,Outcome\nT1,10,2026-03-02,,\nT2,10,2026-03-02,,\n",
    });
    expect(growing.issues.filter(({ severity }) => severity === "error")).toEqual([]);
  });
});

test("a cleaned sheet read again gives the trays that were read, over 25 layouts", async () => {
  for (let seed = 901; seed <= 925; seed++) {
    const { book } = await judgeMutant(seed);
    if (book.trays.length === 0) continue;
    const again = await bookOf({ "harvests/typed.csv": cleanedHarvestCsv(book) });
    expect(allFacts(again), `seed ${seed}`).toEqual(allFacts(book));
  }
});
