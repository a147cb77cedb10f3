import type { AnsweredQuestion } from "../analysis.ts";
import { CertaintyTag, certaintyMeaning, certaintyOf } from "./certainty.tsx";
import { countTrays } from "./excluded-trays.tsx";
import { type NumberSettings, sentenceText } from "./format-quantity.ts";
import { SavedSentence } from "./saved-texts.tsx";
import { visibleText } from "./visible-text.ts";

/** the longest sentence shown; sentences are ours, but may carry text from cells */
export const longestSentence = 1200;

/** What becomes of an answer when the trays with flagged cells are left out. */
export function WithoutFlagged({ answer, settings }: { answer: AnsweredQuestion; settings: NumberSettings }) {
  const { withoutFlagged } = answer;
  if (withoutFlagged === undefined) return null;
  const count = countTrays(withoutFlagged.trays.length);
  if (!withoutFlagged.changes)
    return <p class="flagged">Leaving out the {count} with flagged cells does not change this answer.</p>;
  return (
    <p class="flagged changes">
      <strong>Changes when flagged rows are left out</strong> ({count}):{" "}
      {visibleText(sentenceText(withoutFlagged.sentence, settings), longestSentence)}
    </p>
  );
}

interface AnswerInShortProps {
  answer: AnsweredQuestion;
  /** the place on the page of its working */
  place: string;
  settings: NumberSettings;
}

/** One headline answer: how sure, the question, the sentence. */
export function AnswerInShort({ answer, place, settings }: AnswerInShortProps) {
  const { outcome } = answer;
  const sentence = outcome.kind === "answer" ? outcome.sentence : outcome.reason;
  const text = visibleText(sentenceText(sentence, settings), longestSentence);
  return (
    <>
      <CertaintyTag certainty={certaintyOf(outcome)} />
      <div>
        <p class="question">
          <a href={`#${place}`}>{visibleText(answer.question)}</a>
        </p>
        <p class="sentence">{text}</p>
        <SavedSentence id={answer.id} text={text} />
        {outcome.kind === "cannot-tell" ? (
          <p class="settle">
            What would settle it: {visibleText(sentenceText(outcome.wouldSettle, settings), longestSentence)}
          </p>
        ) : null}
        <WithoutFlagged answer={answer} settings={settings} />
      </div>
    </>
  );
}

interface AnswersSummaryProps {
  answers: ReadonlyArray<AnsweredQuestion>;
  /** the place on the page of each answer's working */
  placeOf(answer: AnsweredQuestion): string;
  settings: NumberSettings;
}

/** The headline answers, one sentence each, with how sure they are. */
export function AnswersSummary({ answers, placeOf, settings }: AnswersSummaryProps) {
  const headlines = answers.filter(({ headline }) => headline);
  return (
    <section id="answers" aria-labelledby="answers-title">
      <h2 id="answers-title">Answers</h2>
      {headlines.length === 0 ? <p>No headline question was asked of this book.</p> : null}
      <ol class="answers">
        {headlines.map((answer) => (
          <li key={answer.id} data-question={answer.id}>
            <AnswerInShort answer={answer} place={placeOf(answer)} settings={settings} />
          </li>
        ))}
      </ol>
      <dl class="key">
        {(["settled", "leaning", "open", "measured", "cannot tell"] as const).map((certainty) => (
          <div key={certainty}>
            <dt>
              <CertaintyTag certainty={certainty} />
            </dt>
            <dd>{certaintyMeaning[certainty]}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
