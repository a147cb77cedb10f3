import { noAnswer } from "../../analyses/comparison/no-answer.ts";
import { doubtsThatMove, moneyDoubts, saidWithDoubts } from "../../analyses/costs/money-doubts.ts";
import type { Analysis, AnsweredQuestion, CannotTell, Outcome, Sentence, Trial } from "../analysis.ts";
import { contentName } from "../records/content-name.ts";
import { doubtfulTrays } from "../records/doubtful-trays.ts";
import type { Tray } from "../records/tray.ts";
import { withMissing } from "./what-is-missing.ts";

/** The sentence of an outcome: the answer, or what cannot be answered. */
export const sentenceOf = (outcome: Outcome): Sentence =>
  outcome.kind === "answer" ? outcome.sentence : outcome.reason;

/** What stands in the place of an answer when the program itself failed at it. */
function failed({ id, question }: Analysis, error: unknown): CannotTell {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  const code = `${id}-${contentName(what).slice(0, 8)}`;
  return noAnswer(
    [`“${question}” could not be worked out: the program failed at it (code ${code}). The other answers stand.`],
    [`Nothing in the sheets needs to change. Report the code ${code}, so that the program can be corrected.`],
    { failure: { code, what } },
  );
}

/**
 * One question's outcome; about money it says which cost lines and products are missing from it. A failure inside it is an
 * outcome too, so that it takes no other answer down.
 */
export function outcomeOf(analysis: Analysis, trial: Trial): Outcome {
  try {
    const outcome = withMissing(analysis.run(trial), analysis.topic, trial);
    if (analysis.topic !== "money") return outcome;
    return saidWithDoubts(
      outcome,
      doubtsThatMove(moneyDoubts(trial), analysis.costsOnly ? "trays and grams" : "products"),
    );
  } catch (error) {
    return failed(analysis, error);
  }
}

/** An outcome beside its question. */
export const answerOf = (
  { id, name, question, assumes, topic, headline, main }: Analysis,
  outcome: Outcome,
): AnsweredQuestion => ({
  ...{ id, name, question, ...outcome.asked, assumes, topic, headline, outcome },
  ...(main === undefined ? {} : { main }),
});

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

/** An answer with what becomes of it when the flagged trays are left out. */
export const besideUnflagged = (
  answer: AnsweredQuestion,
  flagged: ReadonlyArray<Tray>,
  without: Outcome,
): AnsweredQuestion => ({
  ...answer,
  withoutFlagged: {
    trays: flagged.map(({ trayId }) => trayId),
    sentence: sentenceOf(without),
    changes: changed(answer.outcome, without),
  },
});

/**
 * One question asked of a book's trays. A headline question is asked twice where a tray is doubtful: with every tray, and
 * then without the doubtful ones.
 * @param unflagged the trial without the doubtful trays; called where it is wanted
 */
export function askQuestion(analysis: Analysis, trial: Trial, unflagged: () => Trial): AnsweredQuestion {
  const answer = answerOf(analysis, outcomeOf(analysis, trial));
  const flagged = analysis.headline ? doubtfulTrays(trial.trays) : [];
  return flagged.length === 0 ? answer : besideUnflagged(answer, flagged, outcomeOf(analysis, unflagged()));
}
