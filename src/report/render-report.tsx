import { renderToString } from "preact-render-to-string";
import type { AnsweredQuestion, Chart } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { type Drawing, drawChart } from "./charts/draw-chart.ts";
import { ReportPage, titleOf } from "./report-page.tsx";
import { stylesheet } from "./stylesheet.ts";

/** Nothing may be loaded or run: the page brings its own style, and its charts as images. */
const contentPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/**
 * The report on a book as one HTML file that needs no network and no script. Same input, same bytes.
 * @param input.book the cleaned book; @param input.answers its questions answered
 * @param input.generator the version printed at the foot
 * @throws RangeError if an answer holds something that is not a number
 */
export async function renderReport(input: {
  book: Book;
  answers: ReadonlyArray<AnsweredQuestion>;
  generator: { version: string };
}): Promise<string> {
  const { book, answers, generator } = input;
  const drawings = new Map<Chart, Drawing>();
  for (const chart of answers.flatMap(({ outcome }) => outcome.charts)) {
    if (!drawings.has(chart)) drawings.set(chart, await drawChart(chart, book.settings));
  }
  const page = renderToString(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={contentPolicy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="generator" content={`Gramwright ${generator.version}`} />
        <title>{titleOf(book)}</title>
        {/* our own text, in which nothing needs escaping */}
        <style>{stylesheet}</style>
      </head>
      <body>
        <ReportPage book={book} answers={answers} drawings={drawings} generator={generator} />
      </body>
    </html>,
  );
  return `<!DOCTYPE html>\n${page}\n`;
}
