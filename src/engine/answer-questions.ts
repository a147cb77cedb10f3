import { analyses } from "../../analyses/index.ts";
import type { Analysis, AnsweredQuestion, Outcome, Sentence, Trial } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import type { Tray } from "../records/tray.ts";
import { type ReportedTest, reportWideDiscovery } from "../statistics/comparisons/report-wide-discovery.ts";

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

/** The two sets of trays a book's questions are asked of. */
interface BookTrials {
  everyTray?: Trial;
  /** trays that have a flagged cell */
  flagged: ReadonlyArray<Tray>;
  withoutFlagged?: Trial;
}

/** Kept for a book, because questions asked of the very same trial share what they work out. */
const trialsBefore = new WeakMap<Book, { of: Trial; trials: BookTrials }>();

function trialsOf(book: Book): BookTrials {
  const now = trialOf(book);
  const before = trialsBefore.get(book);
  const parts = Object.keys({ ...before?.of, ...now }) as (keyof Trial)[];
  if (before !== undefined && parts.every((part) => before.of[part] === now[part])) return before.trials;
  const trials: BookTrials = { flagged: book.trays.filter((tray) => tray.flags.length > 0) };
  trialsBefore.set(book, { of: now, trials });
  return trials;
}

/**
 * Asks questions of a cleaned book, each for itself. Headline questions are asked twice where a tray has a flagged cell:
 * with every tray, and then without the flagged ones. Answers of one report still have to be allowed for.
 * @param ask the questions; all of them unless told
 * @param onQuestion called each time before a question is asked, for progress
 */
export function askQuestions(
  book: Book,
  ask: ReadonlyArray<Analysis> = analyses,
  onQuestion: (question: string, done: number, of: number) => void = () => {},
): AnsweredQuestion[] {
  const trials = trialsOf(book);
  const { flagged } = trials;
  const again = flagged.length === 0 ? [] : ask.filter(({ headline }) => headline);
  let done = 0;
  const run = (analysis: Analysis, trial: Trial): Outcome => {
    onQuestion(analysis.question, done++, ask.length + again.length);
    return analysis.run(trial);
  };
  const askAll = (questions: ReadonlyArray<Analysis>, trial: Trial): Map<Analysis, Outcome> =>
    new Map(questions.map((analysis) => [analysis, run(analysis, trial)]));
  const sure = () => book.trays.filter((tray) => tray.flags.length === 0);
  trials.everyTray ??= trialOf(book);
  const outcomes = askAll(ask, trials.everyTray);
  // what a million trays shared is let go before it is worked out a second time
  if (ask.length > 1) delete trials.everyTray;
  if (again.length > 0) trials.withoutFlagged ??= trialOf(book, sure());
  const without = trials.withoutFlagged === undefined ? undefined : askAll(again, trials.withoutFlagged);
  if (ask.length > 1) delete trials.withoutFlagged;
  return ask.map((analysis): AnsweredQuestion => {
    const { id, name, question, assumes, topic, headline } = analysis;
    const outcome = outcomes.get(analysis)!;
    const other = without?.get(analysis);
    const answer = { id, name, question, assumes, topic, headline, outcome };
    return other === undefined
      ? answer
      : {
          ...answer,
          withoutFlagged: {
            trays: flagged.map((tray) => tray.trayId),
            sentence: sentenceOf(other),
            changes: changed(outcome, other),
          },
        };
  });
}

/** Asks questions of a cleaned book and allows for how many were asked: the answers of a whole report. */
export const answerQuestions = (...asked: Parameters<typeof askQuestions>): AnsweredQuestion[] =>
  allowForManyQuestions(askQuestions(...asked), asked[0].settings.significanceLevel);
