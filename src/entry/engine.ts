import { analyses } from "../../analyses/index.ts";
import { type ReportedTest, reportWideDiscovery } from "../../analyses/methods/report-wide-discovery.ts";
import type { Analysis, AnsweredQuestion, Outcome, Sentence, Trial } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import type { Tray } from "../records/tray.ts";

/** What an analysis gets to see of a book, with some of its trays. */
export function trialOf(book: Book, trays: ReadonlyArray<Tray> = book.trays): Trial {
  return {
    trays,
    ...(book.costLines === undefined ? {} : { costLines: book.costLines }),
    ...(book.products === undefined ? {} : { products: book.products }),
    settings: book.settings,
    temperatureLog: book.temperatureLog,
    issues: book.issues,
  };
}

/** The sentence of an outcome: the answer, or what cannot be told. */
export const sentenceOf = (outcome: Outcome): Sentence =>
  outcome.kind === "answer" ? outcome.sentence : outcome.reason;

/** A figure without an interval has moved when it moved by more than this share. */
const noticeable = 0.1;

/** Whether leaving trays out turned the answer: another kind, another certainty, or an estimate outside the first one's interval. */
function changed(all: Outcome, without: Outcome): boolean {
  if (all.kind !== without.kind) return true;
  if (all.kind === "answer" && without.kind === "answer" && all.certainty !== without.certainty) return true;
  const first = all.estimates[0];
  const second = without.estimates[0];
  if (first === undefined || second === undefined) return first !== second;
  if (first.low === undefined || first.high === undefined) {
    return Math.abs(second.value - first.value) > noticeable * Math.abs(first.value);
  }
  return second.value < first.low || second.value > first.high;
}

/**
 * Allows for how many questions were asked of one set of trays: an answer told as settled whose test does not stand when
 * false findings are held to the significance level over the whole report is told as leaning, and says why.
 */
function allowForManyQuestions(answers: ReadonlyArray<AnsweredQuestion>, rate: number): AnsweredQuestion[] {
  const tests = answers.flatMap(({ id, outcome }) =>
    outcome.estimates.flatMap(({ label, p }): ReportedTest[] => (p === undefined ? [] : [{ id, label, p }])),
  );
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
    return { ...answer, outcome: { ...outcome, certainty: "leaning", caveats: [why, ...outcome.caveats] } };
  });
}

/**
 * Asks every question of a cleaned book. Headline questions are asked twice where a tray has a flagged cell:
 * with every tray, and without the flagged ones.
 * @param ask the questions; all of them unless told
 * @param onQuestion called before each question, for progress
 */
export function answerQuestions(
  book: Book,
  ask: ReadonlyArray<Analysis> = analyses,
  onQuestion: (question: string, done: number, of: number) => void = () => {},
): AnsweredQuestion[] {
  const everyTray = trialOf(book);
  const flagged = book.trays.filter((tray) => tray.flags.length > 0);
  const withoutFlagged =
    flagged.length === 0
      ? undefined
      : trialOf(
          book,
          book.trays.filter((tray) => tray.flags.length === 0),
        );
  const answers = ask.map((analysis, index) => {
    onQuestion(analysis.question, index, ask.length);
    const { id, question, assumes, headline } = analysis;
    const outcome = analysis.run(everyTray);
    if (!headline || withoutFlagged === undefined) return { id, question, assumes, headline, outcome };
    const without = analysis.run(withoutFlagged);
    return {
      id,
      question,
      assumes,
      headline,
      outcome,
      withoutFlagged: {
        trays: flagged.map((tray) => tray.trayId),
        sentence: sentenceOf(without),
        changes: changed(outcome, without),
      },
    };
  });
  return allowForManyQuestions(answers, book.settings.significanceLevel);
}
