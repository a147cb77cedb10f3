import { expect, test } from "vitest";
import type { AnswerLine, WorkNews } from "../../src/page/worker/messages.ts";
import { answerLine, workOnBook } from "../../src/page/worker/work-on-book.ts";
import { bookWithFallenAnswer } from "../simulation/weak-trial.ts";

test("the page tells what the command line tells, an answer that does not stand among all of them too", async () => {
  const { source, book, together } = await bookWithFallenAnswer();
  const reported = new Map<string, AnswerLine>();
  const news: WorkNews[] = [];
  await workOnBook([source], [], undefined, (piece) => void news.push(piece));
  for (const piece of news) if (piece.kind === "answer") reported.set(piece.line.question, piece.line);
  expect([...reported.values()]).toEqual(together.map((answer) => answerLine(answer, book.settings)));
  const report = news.find((piece) => piece.kind === "report")!;
  expect(report.report).toContain("beside the others it takes a p below");
});
