import { renderToString } from "preact-render-to-string";
import type { AnsweredQuestion } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import type { DrawnChart } from "./charts/draw-chart.ts";
import { drawCharts } from "./draw-charts.ts";
import { titleOf } from "./front/book-head.tsx";
import { type LiveParts, LiveScripts, requireInert } from "./live-scripts.tsx";
import { reportFacts } from "./report-facts.ts";
import { ReportPage } from "./report-page.tsx";
import { shortMarkup } from "./short-markup.ts";
import { stylesheet } from "./style/stylesheet.ts";

/** Nothing may be loaded or run: the page brings its own style, and its charts as images. */
const contentPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** Only these very scripts may run, and a worker made from them; no network, no code from text. */
const livePolicy = (hashes: ReadonlyArray<string>): string =>
  [
    "default-src 'none'",
    `script-src ${hashes.map((hash) => `'${hash}'`).join(" ")}`,
    "style-src 'unsafe-inline'",
    "img-src data:",
    "worker-src blob:",
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types gramwright-live",
  ].join("; ");

/** The hash by which a content policy knows a script. */
async function scriptHash(script: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(script));
  return `sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}`;
}

/**
 * The report on a book as one HTML file that needs no network and no script. Same input, same bytes.
 * @param input.book the cleaned book; @param input.answers its questions answered
 * @param input.generator the version printed at the foot
 * @param input.live makes its sheets live where scripts may run; the page reads the same without
 * @param input.drawn its charts, where they are drawn already
 * @throws RangeError if an answer holds something that is not a number, or a live part could end its own element
 */
export async function renderReport(input: {
  book: Book;
  answers: ReadonlyArray<AnsweredQuestion>;
  generator: { version: string };
  live?: LiveParts;
  drawn?: ReadonlyMap<string, DrawnChart>;
}): Promise<string> {
  const { book, answers, generator, live } = input;
  if (live !== undefined) requireInert(live);
  const policy =
    live === undefined
      ? contentPolicy
      : livePolicy([await scriptHash(live.script), ...(live.programHash === undefined ? [] : [live.programHash])]);
  const { drawn = await drawCharts(book, answers) } = input;
  const body = shortMarkup(
    renderToString(
      <ReportPage book={book} answers={answers} drawn={drawn} generator={generator} isLive={live !== undefined} />,
    ),
  );
  const scripts = live === undefined ? "" : renderToString(<LiveScripts live={live} />);
  const page = renderToString(
    <html lang="en" data-doses={reportFacts(book, false).levels.values.length}>
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="generator" content={`Gramwright ${generator.version}`} />
        <title>{titleOf(book)}</title>
        {/* our own text, in which nothing needs escaping */}
        <style>{stylesheet}</style>
        {live?.styles === undefined ? null : <style>{live.styles}</style>}
      </head>
      {/* rendered above, where its texts were escaped */}
      <body dangerouslySetInnerHTML={{ __html: body + scripts }} />
    </html>,
  );
  return `<!DOCTYPE html>\n${page}\n`;
}
