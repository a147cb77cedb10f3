import { expect, test } from "vitest";
import { ReportTests } from "../../src/live/model/report-tests.ts";
import { testsOf } from "../../src/report-test.ts";
import { bookWithFallenAnswer, certaintyOf } from "../simulation/weak-trial.ts";

test("answers worked out again one by one are reported as surely as in the saved report", async () => {
  const { book, alone, together } = await bookWithFallenAnswer();
  const rate = book.settings.significanceLevel;
  const saved = () => new Map(together.map((answer) => [answer.id, testsOf(answer)]));
  const reportTests = new ReportTests(saved());
  const shown = alone.map((answer) => reportTests.hear({ answer, drawn: undefined }, rate));
  expect(shown.map((live) => live.length)).toEqual(alone.map(() => 1));
  expect(shown.map(([live]) => certaintyOf(live!.answer))).toEqual(together.map(certaintyOf));
});
