import type { AnsweredQuestion, Sentence } from "../analysis.ts";
import { type ReportedTest, reportWideDiscovery } from "../statistics/comparisons/report-wide-discovery.ts";

/** The tests an answer makes: every estimate with a p. */
export const testsOf = ({ id, outcome }: Pick<AnsweredQuestion, "id" | "outcome">): ReportedTest[] =>
  outcome.estimates.flatMap(({ label, p }) => (p === undefined ? [] : [{ id, label, p }]));

/**
 * Allows for how many tests a report makes of one set of trays: an answer told as settled whose test does not stand when
 * false findings are held to a rate over all of them is told as leaning, and says why.
 * @param answers as asked, not yet allowed for
 * @param tests all of the report, those of the answers among them
 * @param rate accepted share of false findings, above 0 and below 1
 * @returns the answers in the same order; one that stands as it was is the same object
 * @throws RangeError if the rate lies outside its range
 */
export function allowForTests(
  answers: ReadonlyArray<AnsweredQuestion>,
  tests: ReadonlyArray<ReportedTest>,
  rate: number,
): AnsweredQuestion[] {
  const { notStanding } = reportWideDiscovery(tests, rate);
  return answers.map((answer) => {
    const { outcome } = answer;
    const first = outcome.estimates[0];
    const fallen = notStanding.find(({ id, label }) => id === answer.id && label === first?.label);
    if (outcome.kind !== "answer" || outcome.certainty !== "settled" || fallen === undefined) return answer;
    const why: Sentence = [
      `Taken alone this is clear, but this report makes ${tests.length} tests on the same trays; with false findings held to `,
      { value: rate, unit: "share" },
      " over all of them it does not stand, so it is told as leaning.",
    ];
    const { lowered, ...told } = outcome;
    return {
      ...answer,
      outcome: { ...told, ...lowered, certainty: "leaning", caveats: [why, ...outcome.caveats] },
    };
  });
}

/** Allows the answers of a whole report for each other, as `allowForTests`. */
export const allowForManyQuestions = (answers: ReadonlyArray<AnsweredQuestion>, rate: number): AnsweredQuestion[] =>
  allowForTests(answers, answers.flatMap(testsOf), rate);
