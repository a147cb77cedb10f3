import { fileURLToPath } from "node:url";
import { answerQuestions } from "../../src/entry/engine.ts";
import { writeBookData } from "../../src/entry/live/book-data.ts";
import { buildLive } from "../../src/entry/live/build-live.mjs";
import { liveStyle } from "../../src/entry/live/live-style.ts";
import type { Book } from "../../src/records/book.ts";
import { renderReport } from "../../src/report/render-report.tsx";

const built = buildLive({ root: fileURLToPath(new URL("../../", import.meta.url)), version: "1.2.3" });

/** A book's report with live sheets, built from the sources as they are. */
export async function liveReport(book: Book): Promise<string> {
  const { parts } = await built;
  const answers = answerQuestions(book);
  const live = { ...parts, styles: liveStyle, data: writeBookData(book) };
  return renderReport({ book, answers, generator: { version: "1.2.3" }, live });
}
