import type { AnsweredQuestion, Chart, ControlChart } from "../../analysis.ts";
import { testsOf } from "../../report-test.ts";
import type { DrawnChart } from "../charts/draw-chart.ts";
import { sentenceText } from "../format-quantity.ts";
import { figureText } from "../front/figure-text.ts";
import { certaintyOf, VerdictMark } from "../front/verdict-mark.tsx";
import { placeOf, type ReportFacts } from "../report-facts.ts";
import { SavedSentence, WasFigure } from "../saved-texts.tsx";
import { shownSentence, unbroken } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { ChartFigure } from "./chart-figure.tsx";
import { CompactTable } from "./compact-table.tsx";
import { PriceList } from "./price-list.tsx";
import { longestSentence, QuestionFolds } from "./question-folds.tsx";
import { SmallMultiples } from "./small-multiples.tsx";

/** letters in which the claim of a question that is open in full ends */
const longestClaim = 200;

/** How much room a question has: open in full, or one line that opens. */
export type QuestionForm = "full" | "row";

interface QuestionProps {
  answer: AnsweredQuestion;
  /** the question's chart drawn; absent where it has none */
  drawn: DrawnChart | undefined;
  facts: ReportFacts;
}

const isControl = (chart: Chart): chart is ControlChart => chart.kind === "control-chart";

/** The chart of a question that is drawn: one, the first; measures watched side by side are drawn in small instead. */
export function chartOf({ outcome }: AnsweredQuestion): Chart | undefined {
  const [first] = outcome.charts;
  const isMany = outcome.charts.length > 1 && outcome.charts.every(isControl);
  return isMany || first?.kind === "price-list" ? undefined : first;
}

/** A question's one picture. */
function Picture({ answer, drawn, facts }: QuestionProps) {
  const { charts } = answer.outcome;
  const [first] = charts;
  const chart = chartOf(answer);
  if (first?.kind === "price-list") return <PriceList chart={first} facts={facts} />;
  if (chart !== undefined && drawn !== undefined)
    return <ChartFigure id={`${placeOf(answer.id)}-chart`} chart={chart} drawn={drawn} facts={facts} />;
  return charts.length > 1 && charts.every(isControl) ? (
    <SmallMultiples charts={charts} settings={facts.settings} />
  ) : null;
}

/** An answer's sentence, or why there is none. */
export const saidOf = ({ outcome }: AnsweredQuestion, { settings }: ReportFacts): string =>
  visibleText(sentenceText(outcome.kind === "answer" ? outcome.sentence : outcome.reason, settings), longestSentence);

/** The first sentence of a text, up to a full stop before a new one, and the rest. */
const firstOf = (text: string): [first: string, rest: string] => {
  const end = /\. (?=\p{L})/u.exec(text.slice(0, longestClaim))?.index ?? Number.POSITIVE_INFINITY;
  return end === Number.POSITIVE_INFINITY ? [text, ""] : [text.slice(0, end + 1), text.slice(end + 2)];
};

/** @param hasClaim whether its first sentence is set large */
function Said({ answer, facts, hasClaim }: { answer: AnsweredQuestion; facts: ReportFacts; hasClaim?: boolean }) {
  const { outcome } = answer;
  const text = saidOf(answer, facts);
  const [claim, rest] = hasClaim ? firstOf(text) : [undefined, text];
  return (
    <>
      <p class="sentence">
        {claim === undefined ? null : <span class="claim">{unbroken(claim)} </span>}
        {rest === "" ? null : <span class="rest">{unbroken(rest)}</span>}
      </p>
      <SavedSentence id={answer.id} text={text} />
      {outcome.kind === "cannot-tell" ? (
        <p class="settle">{shownSentence(outcome.wouldSettle, facts.settings, longestSentence)}</p>
      ) : null}
    </>
  );
}

/** What is in the section of a question that is open in full. */
export function FullQuestion({ answer, drawn, facts }: QuestionProps) {
  const [first] = answer.outcome.tables;
  const table = first?.open === 0 ? undefined : first;
  const isList = answer.outcome.charts[0]?.kind === "price-list";
  return (
    <>
      <div class="top">
        <VerdictMark certainty={certaintyOf(answer.outcome)} />
        <h3 id={`${placeOf(answer.id)}-title`}>{visibleText(answer.question)}</h3>
      </div>
      <Said answer={answer} facts={facts} hasClaim />
      {isList ? (
        <Picture answer={answer} drawn={drawn} facts={facts} />
      ) : (
        <div class={drawn === undefined ? "pair alone" : "pair"}>
          <Picture answer={answer} drawn={drawn} facts={facts} />
          <div class="beside">
            {facts.isLive ? <div class="what-place" data-inputs={answer.id} /> : null}
            {table === undefined ? null : (
              <CompactTable id={`${placeOf(answer.id)}-short`} table={table} facts={facts} />
            )}
          </div>
        </div>
      )}
      <QuestionFolds answer={answer} facts={facts} isBeside={!isList && table !== undefined} />
    </>
  );
}

/** What is in a question of one line: the line, and what it opens to. */
export function RowQuestion({ answer, drawn, facts }: QuestionProps) {
  const { figure, short } = answer.outcome;
  const large = figure === undefined ? "" : figureText(figure, facts.settings).large;
  const label = figure === undefined ? "" : visibleText(figure.label, 60);
  return (
    <>
      <summary>
        <VerdictMark certainty={certaintyOf(answer.outcome)} />
        <span class="mid">
          <span class="large">{large}</span>
          {label === "" ? null : <span class="between">{label}</span>}
          <WasFigure id={answer.id} text={large} />
        </span>
        <span class="said">
          <span class="name">{visibleText(answer.name)}</span>
          <span class="short-sentence" id={`${placeOf(answer.id)}-title`}>
            {shownSentence(short ?? [answer.question], facts.settings)}
          </span>
        </span>
      </summary>
      <div class="in">
        <Said answer={answer} facts={facts} />
        <Picture answer={answer} drawn={drawn} facts={facts} />
        <QuestionFolds answer={answer} facts={facts} />
      </div>
    </>
  );
}

interface QuestionPlaceProps extends QuestionProps {
  form: QuestionForm;
}

/** One question in its place on the page; a live page puts a changed answer into the same place. */
export function QuestionPlace({ form, ...props }: QuestionPlaceProps) {
  const { answer, facts } = props;
  const place = placeOf(answer.id);
  // answers that are worked out again in the page are weighed against all tests of the report
  const tests = testsOf(answer);
  const data = {
    "data-question": answer.id,
    "data-form": form,
    "data-tests": facts.isLive && tests.length > 0 ? JSON.stringify(tests) : undefined,
  };
  return form === "full" ? (
    <section id={place} class="question q" aria-labelledby={`${place}-title`} {...data}>
      <FullQuestion {...props} />
    </section>
  ) : (
    <details id={place} class="question short" {...data}>
      <RowQuestion {...props} />
    </details>
  );
}
