import type { AnsweredQuestion } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { surenessOf } from "../report/sureness.tsx";
import { sentenceOf } from "./engine.ts";

/** The headline answers as lines for a terminal, each with how sure it is. */
export const headlineLines = (book: Book, answers: ReadonlyArray<AnsweredQuestion>): string[] =>
  answers
    .filter(({ headline }) => headline)
    .map(({ outcome }) => `  [${surenessOf(outcome)}] ${sentenceText(sentenceOf(outcome), book.settings)}`);
