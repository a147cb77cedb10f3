import type { AnsweredQuestion } from "../analysis.ts";
import { sentenceOf } from "../engine/ask-question.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { certaintyOf } from "../report/front/verdict-mark.tsx";

/** The headline answers as lines for a terminal, each with how sure it is. */
export const headlineLines = (book: Book, answers: ReadonlyArray<AnsweredQuestion>): string[] =>
  answers
    .filter(({ headline }) => headline)
    .map(({ outcome }) => `  [${certaintyOf(outcome)}] ${sentenceText(sentenceOf(outcome), book.settings)}`);
