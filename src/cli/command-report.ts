import { moneyDoubts } from "../../analyses/costs/money-doubts.ts";
import { describeChanges } from "../engine/compare-runs.ts";
import { trialOf } from "../engine/trial-of.ts";
import type { DrawingThread } from "./drawing/drawing-thread.ts";
import { headlineLines } from "./headline-lines.ts";
import { missingMoneyLines } from "./missing-money-lines.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import { runReport } from "./report-run.ts";
import type { Stated } from "./stated-settings.ts";

/**
 * `gramwright report`: cleans, analyses and writes the report and the log beside it. What is missing from the money is said;
 * the exit code is then 1 only where that was asked for, or where no question has an answer.
 * @param thread draws its charts, where it was started before
 */
export async function reportOnBook(
  path: string,
  options: {
    out?: string;
    json?: boolean;
    seed?: number;
    plain?: boolean;
    strict?: boolean;
    set?: ReadonlyArray<Stated>;
  },
  thread?: DrawingThread,
): Promise<void> {
  const progress = terminalProgress();
  const { book, answers, files, snapshot, comparison } = await runReport(path, options.out, {
    say: progress.say,
    thread,
    ...(options.seed === undefined ? {} : { seed: options.seed }),
    ...(options.plain ? { plain: true } : {}),
    ...(options.set === undefined ? {} : { set: options.set }),
  });
  progress.done();
  const doubts = moneyDoubts(trialOf(book));
  const isUnread = doubts.length > 0 || book.issues.some(({ severity }) => severity === "error");
  const isAnswered = answers.some(({ outcome }) => outcome.kind === "answer");
  if (!isAnswered || (options.strict && isUnread)) process.exitCode = 1;
  if (options.json) {
    print(`${JSON.stringify(snapshot, null, 2)}\n`);
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
