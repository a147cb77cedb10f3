import { fileURLToPath } from "node:url";
import { buildLive } from "../../src/build/build-live.mjs";
import { answerQuestions } from "../../src/engine/run-book.ts";
import { livePartsOf } from "../../src/live/model/book-parts.ts";
import type { Book } from "../../src/records/book.ts";
import { renderReport } from "../../src/report/render-report.tsx";

const built = buildLive({ root: fileURLToPath(new URL("../../", import.meta.url)), version: "1.2.3" });

/** A book's report with live sheets, built from the sources as they are. */
export async function liveReport(book: Book): Promise<string> {
  const { parts } = await built;
  const answers = answerQuestions(book);
  const live = livePartsOf(book, parts)!;
  return renderReport({ book, answers, generator: { version: "1.2.3" }, live });
}
