import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { AnsweredQuestion } from "../analysis.ts";
import { issuesCsv } from "../cleaning/issues-csv.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { answerQuestions } from "./engine.ts";
import { openBook, requireTrays } from "./open-book.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { terminalProgress } from "./progress.ts";
import { version } from "./version.ts";

/** How sure an answer is, in the words the report uses. */
const sureness = ({ outcome }: AnsweredQuestion): string =>
  outcome.kind === "cannot-tell" ? "cannot tell" : outcome.certainty;

/** The answers as data: every number unrounded, every sentence also as text. */
function answersAsData(book: Book, answers: ReadonlyArray<AnsweredQuestion>) {
  return {
    book: book.name,
    trays: book.trays.length,
    seed: book.settings.seed,
    answers: answers.map(({ id, question, headline, outcome, withoutFlagged }) => ({
      id,
      question,
      headline,
      kind: outcome.kind,
      certainty: outcome.kind === "answer" ? outcome.certainty : null,
      text: sentenceText(outcome.kind === "answer" ? outcome.sentence : outcome.reason, book.settings),
      ...(outcome.kind === "cannot-tell" ? { wouldSettle: sentenceText(outcome.wouldSettle, book.settings) } : {}),
      estimates: outcome.estimates,
      tables: outcome.tables,
      excluded: outcome.excluded,
      method: outcome.method.map((sentence) => sentenceText(sentence, book.settings)),
      caveats: outcome.caveats.map((sentence) => sentenceText(sentence, book.settings)),
      ...(withoutFlagged === undefined
        ? {}
        : { withoutFlagged: { ...withoutFlagged, text: sentenceText(withoutFlagged.sentence, book.settings) } }),
    })),
    log: { entries: book.issues.length, errors: book.issues.filter(({ severity }) => severity === "error").length },
  };
}

/** `gramwright report`: cleans, analyses and writes the report and the log beside it. */
export async function reportOnBook(
  path: string,
  options: { out: string; json?: boolean; seed?: number },
): Promise<void> {
  const progress = terminalProgress();
  const book = await openBook(path, progress);
  requireTrays(book, path);
  if (options.seed !== undefined) book.settings = { ...book.settings, seed: options.seed };
  const answers = answerQuestions(book, undefined, (question, done, of) =>
    progress.say(`${done + 1}/${of} ${question}`),
  );
  progress.say("drawing the report");
  const { renderReport } = await import("../report/render-report.tsx");
  const html = await renderReport({ book, answers, generator: { version } });
  const report = join(options.out, `${book.name}-report.html`);
  const log = join(options.out, `${book.name}-log.csv`);
  try {
    mkdirSync(options.out, { recursive: true });
    writeFileSync(report, html);
    writeFileSync(log, issuesCsv(book.issues));
  } catch (error) {
    throw new PlainFailure(`${options.out}: ${fileTrouble(error)}. Give another folder with --out.`);
  } finally {
    progress.done();
  }
  if (options.json) {
    process.stdout.write(`${JSON.stringify(answersAsData(book, answers), null, 2)}\n`);
    return;
  }
  const lines = answers
    .filter(({ headline }) => headline)
    .map((answer) => {
      const { outcome } = answer;
      const sentence = outcome.kind === "answer" ? outcome.sentence : outcome.reason;
      return `  [${sureness(answer)}] ${sentenceText(sentence, book.settings)}`;
    });
  process.stdout.write(`${[report, "", ...lines, "", `Log of every change and flag: ${log}`].join("\n")}\n`);
}
