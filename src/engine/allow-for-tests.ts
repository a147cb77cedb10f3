import type { AnsweredQuestion, Sentence } from "../analysis.ts";
import { type Reading, wholeReport } from "../decisions/verdict/index.ts";
import { loweredAnswer, type ReportTest, testsOf } from "../report-test.ts";

/** The level that each test which does not hold among the others would have had to keep, by its id. */
function fallenOf(tests: ReadonlyArray<ReportTest>, alpha: number, reading: Reading): Map<string, number> {
  const main = tests.find(({ isMain }) => isMain);
  const others = tests.filter((test) => test !== main);
  const report = wholeReport({ alpha, reading, others, ...(main === undefined ? {} : { main }) });
  const fallen = new Map<string, number>();
  others.forEach(({ id }, place) => {
    const { stands, significance } = report.others[place]!;
    if (!stands) fallen.set(id, significance);
  });
  if (main !== undefined && !report.main.stands) fallen.set(main.id, report.main.significance);
  return fallen;
}

/**
 * Allows for how many tests a report makes of one set of trays: an answer that is settled alone, but does not hold among
 * the others, becomes leaning, or open, in all it says, and says why.
 * @param answers as asked, not yet allowed for
 * @param tests all of the report, those of the answers among them
 * @param alpha share of reports that may settle something that is not so, above 0 and below 1
 * @returns the answers in the same order; one that stands as it was is the same object
 */
export function allowForTests(
  answers: ReadonlyArray<AnsweredQuestion>,
  tests: ReadonlyArray<ReportTest>,
  alpha: number,
  reading: Reading = "unknown",
): AnsweredQuestion[] {
  const fallen = fallenOf(tests, alpha, reading);
  return answers.map((answer) => {
    const { outcome } = answer;
    const level = fallen.get(answer.id);
    if (outcome.kind !== "answer" || outcome.certainty !== "settled" || level === undefined) return answer;
    const why: Sentence = [
      `Alone this is clear. This report makes ${tests.length} tests of the same trays; beside the others it takes a p below `,
      { value: level, unit: "p" },
      ".",
    ];
    return { ...answer, outcome: { ...loweredAnswer(outcome), caveats: [why, ...outcome.caveats] } };
  });
}

/** Allows the answers of a whole report for each other, as `allowForTests`. */
export const allowForManyQuestions = (
  answers: ReadonlyArray<AnsweredQuestion>,
  alpha: number,
  reading?: Reading,
): AnsweredQuestion[] => allowForTests(answers, answers.flatMap(testsOf), alpha, reading);
