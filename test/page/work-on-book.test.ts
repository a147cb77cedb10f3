import { expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import type { AnswerLine, WorkNews } from "../../src/page/worker/messages.ts";
import { answerLine, workOnBook } from "../../src/page/worker/work-on-book.ts";
import { sheet } from "../cleaning/book-of.ts";
import { hostileSheet, riskyCells } from "../cli/hostile-sheet.ts";
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

test("a hostile sheet: all trays read, and no saved cell starts with what a spreadsheet program would run", async () => {
  const book = await cleanBook([sheet("<img src=x onerror=hit=1>.csv", hostileSheet())]);
  expect(book.trays).toHaveLength(24);
  for (const text of [cleanedHarvestCsv(book), issuesCsv(book.issues)]) {
    const { cells, risky } = riskyCells(text);
    expect(cells).toBeGreaterThan(1000);
    expect(risky.slice(0, 5)).toEqual([]);
  }
});

test("ten thousand hostile columns: no sheet a person typed, refused with the reason", async () => {
  const { trays, issues } = await cleanBook([sheet("wide.csv", hostileSheet(10_000))]);
  expect(trays).toEqual([]);
  expect(
    issues.filter(({ severity }) => severity === "error").map(({ file, reason }) => `${file}: ${reason}`),
  ).toContainEqual(expect.stringMatching(/^wide\.csv: one of its first lines is longer/));
});
