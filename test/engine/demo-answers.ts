import { demoFiles } from "../../data-samples/demo-book.ts";
import type { AnsweredQuestion } from "../../src/analysis.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import type { Book } from "../../src/records/book.ts";
import { sheet } from "../cleaning/book-of.ts";
import { answerQuestions } from "./answer-questions.ts";

/** Sheets by their path, as a book's folder gives them. */
export const sheetSources = (files: Readonly<Record<string, string>>) =>
  Object.entries(files).map(([path, text]) => sheet(path, text));

async function answered(): Promise<{ book: Book; answers: AnsweredQuestion[] }> {
  const demo = Object.entries(demoFiles()).filter(([path]) => /^demo-book\/.*\.csv$/.test(path));
  const files = Object.fromEntries(demo.map(([path, text]) => [path.replace("demo-book/", ""), text]));
  const book = await cleanBook(sheetSources(files), { name: "demo-book" });
  return { book, answers: answerQuestions(book) };
}

let kept: ReturnType<typeof answered> | undefined;

/** The demo book, cleaned and with every question answered: once for all files of a worker, which only look at it. */
export function demoAnswers(): ReturnType<typeof answered> {
  kept ??= answered();
  return kept;
}
