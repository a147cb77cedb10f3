import { expect, test } from "vitest";
import { analyses } from "../../analyses/index.ts";
import type { Analysis } from "../../src/analysis.ts";
import { KeptAnswers } from "../../src/engine/kept-answers.ts";
import type { Book } from "../../src/records/book.ts";
import { bookInFolder } from "../live/book-in-folder.ts";
import { answerQuestions } from "./answer-questions.ts";

const demo = bookInFolder("data-samples/demo-book");
const named = (id: string): Analysis => analyses.find((analysis) => analysis.id === id)!;

test("asked one by one, answers are those of the whole report before they are allowed for each other", async () => {
  const book = await demo;
  const kept = new KeptAnswers();
  const together = answerQuestions(book);
  for (const { id, outcome } of together) {
    const alone = kept.ask(named(id), book).outcome;
    expect(alone.estimates, id).toEqual(outcome.estimates);
    expect(alone.tables, id).toEqual(outcome.tables);
  }
});

test("a question is asked again only where something it looked at has changed", async () => {
  const book = await demo;
  const kept = new KeptAnswers();
  const ask = (id: string, of: Book) => kept.ask(named(id), of);
  const [yields, cost] = [ask("what-changed-the-yield", book), ask("what-does-a-good-gram-cost", book)];
  const dearer: Book = {
    ...book,
    costLines: book.costLines!.map((line, index) => (index === 0 ? { ...line, packPrice: line.packPrice * 2 } : line)),
  };
  expect(ask("what-changed-the-yield", dearer)).toBe(yields);
  expect(ask("what-does-a-good-gram-cost", dearer)).not.toBe(cost);
  // undone
  expect(ask("what-does-a-good-gram-cost", book)).toBe(cost);
  const seeded: Book = { ...book, settings: { ...book.settings, significanceLevel: 0.01 } };
  expect(ask("what-changed-the-yield", seeded)).not.toBe(yields);
  expect(ask("what-changed-the-yield", { ...book, trays: book.trays.slice(1) })).not.toBe(yields);
});
