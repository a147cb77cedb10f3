import { expect, test } from "vitest";
import { testsOf } from "../../src/engine/allow-for-tests.ts";
import { ReportTests } from "../../src/live/model/report-tests.ts";
import { bookWithFallenAnswer, certaintyOf } from "../simulation/weak-trial.ts";

test("answers worked out again one by one are told as surely as in the saved report, and move with each other", async () => {
  const { book, alone, together } = await bookWithFallenAnswer();
  const rate = book.settings.significanceLevel;
  const saved = () => new Map(together.map((answer) => [answer.id, testsOf(answer)]));
  const reportTests = new ReportTests(saved());
  const shown = alone.map((answer) => reportTests.hear({ answer, drawings: [] }, rate));
  expect(shown.map((live) => live.length)).toEqual(alone.map(() => 1));
  expect(shown.map(([live]) => certaintyOf(live!.answer))).toEqual(together.map(certaintyOf));

  // with every other test gone, what had fallen stands again, and is shown again beside the answer that was heard last
  const at = together.findIndex((answer, index) => certaintyOf(answer) !== certaintyOf(alone[index]!));
  const quiet = new ReportTests(saved());
  quiet.hear({ answer: alone[at]!, drawings: [] }, rate);
  const others = alone.filter((answer, index) => index !== at && testsOf(answer).length > 0);
  const again = others.flatMap((answer) => {
    const outcome = { ...answer.outcome, estimates: [] };
    return quiet.hear({ answer: { ...answer, outcome }, drawings: [] }, rate).slice(1);
  });
  expect(again.map(({ answer }) => [answer.id, certaintyOf(answer)])).toEqual([[alone[at]!.id, "settled"]]);
});
