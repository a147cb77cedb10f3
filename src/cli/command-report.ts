import { moneyDoubts } from "../../analyses/costs/money-doubts.ts";
import type { AnsweredQuestion } from "../analysis.ts";
import { describeChanges } from "../engine/compare-runs.ts";
import { trialOf } from "../engine/trial-of.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { headlineLines } from "./headline-lines.ts";
import { missingMoneyLines } from "./missing-money-lines.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import { runReport } from "./report-run.ts";

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

/**
 * `gramwright report`: cleans, analyses and writes the report and the log beside it. What is missing from the money is said;
 * the exit code is then 1 only where that was asked for, or where no question has an answer.
 */
export async function reportOnBook(
  path: string,
  options: { out?: string; json?: boolean; seed?: number; plain?: boolean; strict?: boolean },
): Promise<void> {
  const progress = terminalProgress();
  const { book, answers, files, comparison } = await runReport(path, options.out, {
    say: progress.say,
    ...(options.seed === undefined ? {} : { seed: options.seed }),
    ...(options.plain ? { plain: true } : {}),
  });
  progress.done();
  const doubts = moneyDoubts(trialOf(book));
  const isUnread = doubts.length > 0 || book.issues.some(({ severity }) => severity === "error");
  const isAnswered = answers.some(({ outcome }) => outcome.kind === "answer");
  if (!isAnswered || (options.strict && isUnread)) process.exitCode = 1;
  if (options.json) {
    print(`${JSON.stringify(answersAsData(book, answers), null, 2)}\n`);
    return;
  }
  const changes = comparison === undefined ? [] : describeChanges(comparison);
  print(
    `${[
      files.report,
      "",
      ...headlineLines(book, answers),
      ...missingMoneyLines(doubts, book.settings),
      "",
      `Log of every change and flag: ${files.log}`,
      ...(changes.length === 0 ? [] : ["", ...changes]),
    ].join("\n")}\n`,
  );
}
