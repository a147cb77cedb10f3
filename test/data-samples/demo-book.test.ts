import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { demoFiles } from "../../data-samples/demo-book.ts";
import { firstYearFiles } from "../../data-samples/first-year.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { sentenceOf } from "../../src/engine/ask-question.ts";
import type { Book } from "../../src/records/book.ts";
import { sheet } from "../cleaning/book-of.ts";
import { answerQuestions } from "../engine/answer-questions.ts";

const files = { ...demoFiles(), ...firstYearFiles() };

const bookOf = (name: string): Promise<Book> => {
  const sources = Object.entries(files)
    .filter(([path]) => path.startsWith(`${name}/`))
    .map(([path, text]) => sheet(path.slice(name.length + 1), text));
  return cleanBook(sources, { name });
};

test("the committed sample books are what the seeded generator writes", () => {
  for (const [path, text] of Object.entries(files)) {
    expect(readFileSync(new URL(`../../data-samples/${path}`, import.meta.url), "utf8"), path).toBe(text);
  }
});

test("the tidy book has nothing wrong with it; the demo is as big as it says", async () => {
  const book = await bookOf("demo-book");
  expect(book.issues.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(book.trays.length).toBe(96);
  expect(new Set(book.trays.map(({ batch }) => batch)).size).toBe(8);
  expect(new Set(book.trays.map(({ inoculumMillilitres }) => inoculumMillilitres)).size).toBe(4);
  const outcomes = new Set(book.trays.map(({ outcome }) => outcome));
  expect(outcomes).toEqual(new Set(["good", "contaminated", "growing"]));
});

test("the first year has nothing wrong with it: six trays a load, a bad cook in May, trays that still grow", async () => {
  const book = await bookOf("first-year");
  expect(book.issues.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(book.trays.length).toBe(156);
  const cooks = new Map<string, number>();
  for (const { batch } of book.trays) cooks.set(batch!, (cooks.get(batch!) ?? 0) + 1);
  expect(new Set(cooks.values())).toEqual(new Set([6]));
  expect(
    book.trays.filter(({ batch, outcome }) => batch === "C10" && outcome === "contaminated").length,
  ).toBeGreaterThan(3);
  expect(book.trays.filter(({ outcome }) => outcome === "growing").length).toBeGreaterThan(10);
});

test("as typed and tidy give the same records and answers to the last digit, flagged trays left out", async () => {
  const [tidy, typed] = await Promise.all([bookOf("demo-book"), bookOf("as-typed-book")]);
  const flagged = new Set(
    [...tidy.trays, ...typed.trays].flatMap(({ flags, trayId }) => (flags.length > 0 ? [trayId] : [])),
  );
  expect(flagged.size).toBeGreaterThan(0);
  expect(flagged.size).toBeLessThan(10);
  const facts = ({ trays }: Book) =>
    trays
      .filter(({ trayId }) => !flagged.has(trayId))
      .map(({ file: _f, row: _r, sources: _, note: __, ...fact }) => fact)
      .sort((a, b) => (a.trayId < b.trayId ? -1 : 1));
  expect(facts(typed)).toEqual(facts(tidy));
  const unflagged = (book: Book): Book => ({ ...book, trays: book.trays.filter(({ trayId }) => !flagged.has(trayId)) });
  const answers = (book: Book) =>
    answerQuestions(unflagged(book)).map(({ id, outcome }) => ({
      id,
      sentence: sentenceOf(outcome),
      estimates: outcome.estimates,
    }));
  expect(answers(typed)).toEqual(answers(tidy));
});
