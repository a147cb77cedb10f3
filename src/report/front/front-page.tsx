import type { AnsweredQuestion } from "../../analysis.ts";
import { trayNames } from "../questions/excluded-trays.tsx";
import { placeOf, type ReportFacts } from "../report-facts.ts";
import { shownSentence } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { frontAnswers, type NextThing, nextThings } from "./choose-front.ts";
import { FrontRow } from "./front-row.tsx";
import { PricesOnPaper } from "./prices-on-paper.tsx";

/** Said once for all answers: whether any of them changes without the flagged trays. */
export function DoubtNote({ answers }: { answers: ReadonlyArray<AnsweredQuestion> }) {
  const asked = answers.filter(({ withoutFlagged }) => withoutFlagged !== undefined);
  const trays = asked[0]?.withoutFlagged?.trays ?? [];
  if (trays.length === 0) return null;
  const what = trays.length === 1 ? `the one flagged tray, ${trayNames(trays)}` : `the ${trays.length} flagged trays`;
  const moved = asked.filter(({ withoutFlagged }) => withoutFlagged?.changes);
  if (moved.length === 0) return <p class="same">None of these answers changes without {what}.</p>;
  return (
    <p class="same">
      Without {what}, {moved.length === 1 ? "one answer changes" : `${moved.length} answers change`}:{" "}
      {moved.map((answer, index) => [
        index === 0 ? "" : "; ",
        <a key={answer.id} href={`#${placeOf(answer.id)}`}>
          {visibleText(answer.name)}
        </a>,
      ])}
      .
    </p>
  );
}

/** Said once for all answers about money: what is missing from it. */
function MoneyNote({ answers }: { answers: ReadonlyArray<AnsweredQuestion> }) {
  const [most] = answers
    .map(({ outcome: { withoutMoney = "", moneyLooks = "" } }) => ({ withoutMoney, moneyLooks }))
    .toSorted((a, b) => b.withoutMoney.length - a.withoutMoney.length);
  if (most === undefined || most.withoutMoney === "") return null;
  return <p class="same below">{visibleText(`Money is ${most.withoutMoney}. ${most.moneyLooks}`.trim())}</p>;
}

/** What follows the answers on the front: what is missing from the money, what to do next, and on paper the prices to ask. */
export function AfterAnswers(props: { answers: ReadonlyArray<AnsweredQuestion>; facts: ReportFacts }) {
  return (
    <>
      <MoneyNote answers={props.answers} />
      <NextList {...props} />
      <PricesOnPaper {...props} />
    </>
  );
}

/** Where a thing to do is explained. */
function addressOf({ see, question }: NextThing): string {
  if (see === undefined) return `#${placeOf(question)}`;
  if (see.startsWith("tray:")) return "#trays";
  return see === "waiting" ? "#waiting" : `#${placeOf(see)}`;
}

/** What to do next, at most four things, each linked to what explains it. */
function NextList({ answers, facts }: { answers: ReadonlyArray<AnsweredQuestion>; facts: ReportFacts }) {
  const things = nextThings(answers);
  if (things.length === 0) return null;
  return (
    <section class="next" id="next" aria-labelledby="next-title">
      <h2 id="next-title">Do this next</h2>
      <ol>
        {things.map((thing) => (
          <li key={thing.rank} data-tray={thing.see?.startsWith("tray:") ? thing.see.slice(5) : undefined}>
            <a href={addressOf(thing)}>{shownSentence(thing.act, facts.settings)}</a>
            {thing.because === undefined ? null : <small>{shownSentence(thing.because, facts.settings)}</small>}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** The answers in eight rows. */
export function FrontRows({ answers, facts }: { answers: ReadonlyArray<AnsweredQuestion>; facts: ReportFacts }) {
  return (
    <ul class="answers" id="answers">
      {frontAnswers(answers).map((answer) => (
        <li key={answer.id} data-front={answer.id}>
          <FrontRow answer={answer} facts={facts} />
        </li>
      ))}
    </ul>
  );
}
