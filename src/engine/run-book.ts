import { analyses } from "../../analyses/index.ts";
import type { Analysis, AnsweredQuestion } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { doubtfulTrays, unflaggedTrays } from "../records/doubtful-trays.ts";
import { Memo } from "../records/memo.ts";
import type { SheetSource } from "../records/sheet.ts";
import { allowForManyQuestions } from "./allow-for-tests.ts";
import { answerOf, besideUnflagged, outcomeOf } from "./ask-question.ts";
import { type ReadOptions, readBook } from "./read-book.ts";
import { trialOf } from "./trial-of.ts";

/** A step of asking a book's questions. */
export type AskingStep =
  /** `done`: how many were asked before it, of how many */
  | { kind: "asking"; question: string; done: number; of: number }
  /** an answer taken alone: not yet held beside the other tests of the report, nor without flagged trays */
  | { kind: "answered"; answer: AnsweredQuestion };

/**
 * Asks questions of a cleaned book one after the other, each on its own. What a large book's trays share is let go before
 * the headline questions are asked again without the flagged ones; what those share with an answer before them stays.
 * @returns the answers of a whole report, allowed for how many tests were made
 */
export function* askInTurn(
  book: Book,
  questions: ReadonlyArray<Analysis> = analyses,
): Generator<AskingStep, AnsweredQuestion[]> {
  const flagged = doubtfulTrays(book.trays);
  const again = flagged.length === 0 ? [] : questions.filter(({ headline }) => headline);
  const answers = new Map<Analysis, AnsweredQuestion>();
  const of = questions.length + again.length;
  const memo = new Memo();
  let [done, trial] = [0, trialOf(book, book.trays, memo)];
  for (const analysis of questions) {
    yield { kind: "asking", question: analysis.question, done: done++, of };
    const answer = answerOf(analysis, outcomeOf(analysis, trial));
    answers.set(analysis, answer);
    yield { kind: "answered", answer };
  }
  if (again.length > 0) {
    const unflagged = unflaggedTrays(book.trays, memo);
    memo.forget(book.trays);
    trial = trialOf(book, unflagged, memo);
  }
  for (const analysis of again) {
    yield { kind: "asking", question: analysis.question, done: done++, of };
    answers.set(analysis, besideUnflagged(answers.get(analysis)!, flagged, outcomeOf(analysis, trial)));
  }
  return allowForManyQuestions([...answers.values()], book.settings.significanceLevel, trial.reading);
}

/** What one run of a book gave. */
export interface BookRun {
  book: Book;
  /** in the order of the report; none where the book has no trays */
  answers: AnsweredQuestion[];
}

/** What may be passed to and asked of a run. */
export interface RunOptions extends ReadOptions {
  /** called with the cleaned book before anything is asked of it; may set what the book leaves open */
  cleaned?: (book: Book) => void | Promise<void>;
  /** called at every step of asking; awaited, and what it throws ends the run */
  step?: (step: AskingStep) => void | Promise<void>;
}

/**
 * One run of a book: its sheets are cleaned, its questions asked, and the answers allowed for how many were asked.
 * @param sources the book's sheets in any order
 * @throws what reading a source's bytes throws, and what an option throws; no content of a sheet makes it throw
 * @example (await runBook(sources, { name: "spring" })).book.trays.length // 1
 */
export async function runBook(sources: ReadonlyArray<SheetSource>, options: RunOptions = {}): Promise<BookRun> {
  const book = await readBook(sources, options);
  await options.cleaned?.(book);
  if (book.trays.length === 0) return { book, answers: [] };
  const asking = askInTurn(book);
  let step = asking.next();
  while (!step.done) {
    await options.step?.(step.value);
    step = asking.next();
  }
  return { book, answers: step.value };
}
