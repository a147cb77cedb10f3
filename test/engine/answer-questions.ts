import type { Analysis, AnsweredQuestion } from "../../src/analysis.ts";
import { askInTurn } from "../../src/engine/run-book.ts";
import type { Book } from "../../src/records/book.ts";

/** Asks questions of a cleaned book: the answers of a whole report, all at once. */
export function answerQuestions(book: Book, questions?: ReadonlyArray<Analysis>): AnsweredQuestion[] {
  const asking = askInTurn(book, questions);
  let step = asking.next();
  while (!step.done) step = asking.next();
  return step.value;
}
