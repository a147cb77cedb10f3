import { liveParts } from "../../src/live/live-parts.ts";
import type { Book } from "../../src/records/book.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { builtFile } from "../built-file.ts";
import { answerQuestions } from "../engine/answer-questions.ts";

/** A book's report with live sheets; their program is the built one, of the sources as they are. */
export async function liveReport(book: Book): Promise<string> {
  builtFile("live.json");
  return renderReport({
    book,
    answers: answerQuestions(book),
    generator: { version: "1.2.3" },
    live: liveParts(book)!,
  });
}
