import type { AnsweredQuestion, Estimate, Sentence } from "../analysis.ts";
import { testsOf } from "../report-test.ts";
import { AnswerTable } from "./answer-table.tsx";
import { longestSentence, WithoutFlagged } from "./answers-summary.tsx";
import { CertaintyTag, certaintyOf } from "./certainty.tsx";
import { ChartFigure } from "./chart-figure.tsx";
import type { Drawing } from "./charts/draw-chart.ts";
import { ExcludedTrays } from "./excluded-trays.tsx";
import { Fold } from "./fold.tsx";
import {
  formatEstimate,
  formatProbability,
  formatQuantity,
  type NumberSettings,
  sentenceText,
} from "./format-quantity.ts";
import { SavedSentence } from "./saved-texts.tsx";
import { SheetTable } from "./sheet-table.tsx";
import { visibleText } from "./visible-text.ts";

function Sentences({ sentences, settings }: { sentences: ReadonlyArray<Sentence>; settings: NumberSettings }) {
  return (
    <ul>
      {sentences.map((sentence, index) => (
        <li key={index}>{visibleText(sentenceText(sentence, settings), longestSentence)}</li>
      ))}
    </ul>
  );
}

/** The numbers behind an answer: interval first, p after it. */
function Estimates({
  id,
  estimates,
  settings,
}: {
  id: string;
  estimates: ReadonlyArray<Estimate>;
  settings: NumberSettings;
}) {
  const rows = estimates.map((estimate) => {
    const { value, interval } = formatEstimate(estimate, settings);
    const level = formatQuantity({ value: estimate.level, unit: "share" }, settings);
    const counted = formatQuantity({ value: estimate.n, unit: estimate.nUnit }, settings);
    const p = estimate.p === undefined ? "" : formatProbability(estimate.p, settings);
    return [estimate.label, value, interval, interval === "" ? "" : level, counted, p, estimate.method];
  });
  return (
    <SheetTable
      id={id}
      caption="Figures behind the sentence"
      columns={[
        { label: "Figure", wide: true },
        { label: "Estimate", numeric: true },
        { label: "Interval", numeric: true },
        { label: "Level", numeric: true },
        { label: "From", numeric: true },
        { label: "p", numeric: true },
        { label: "Method", wide: true },
      ]}
      rows={rows}
    />
  );
}

interface QuestionSectionProps {
  /** its place on the page */
  place: string;
  answer: AnsweredQuestion;
  /** one for each chart of the outcome */
  drawings: ReadonlyArray<Drawing>;
  settings: NumberSettings;
  /** whether charts come with buttons to save them, which need a script */
  hasTools?: boolean;
}

/** One question with its answer, charts, tables and how it was worked out. */
export function QuestionSection(props: QuestionSectionProps) {
  const { place, answer, hasTools } = props;
  // answers that are worked out again in the page are weighed against all tests of the report
  const tests = testsOf(answer);
  return (
    <section
      id={place}
      class="question-section"
      aria-labelledby={`${place}-title`}
      data-question={answer.id}
      data-tests={hasTools && tests.length > 0 ? JSON.stringify(tests) : undefined}
    >
      <QuestionBody {...props} />
    </section>
  );
}

/** What stands in the section of a question. */
export function QuestionBody({ place, answer, drawings, settings, hasTools }: QuestionSectionProps) {
  const { outcome } = answer;
  const sentence = outcome.kind === "answer" ? outcome.sentence : outcome.reason;
  const text = visibleText(sentenceText(sentence, settings), longestSentence);
  const leftOut = outcome.excluded.reduce((sum, { trays }) => sum + trays.length, 0);
  const charted = outcome.charts.length > 0;
  return (
    <>
      <h3 id={`${place}-title`}>{visibleText(answer.question)}</h3>
      <p class="sentence">
        <CertaintyTag certainty={certaintyOf(outcome)} /> {text}
      </p>
      <SavedSentence id={answer.id} text={text} />
      {outcome.kind === "cannot-tell" ? (
        <p class="settle">
          <strong>What would settle it:</strong>{" "}
          {visibleText(sentenceText(outcome.wouldSettle, settings), longestSentence)}
        </p>
      ) : null}
      <WithoutFlagged answer={answer} settings={settings} />
      <div
        class={outcome.charts.length === 1 && [1, 2].includes(outcome.tables.length) ? "evidence paired" : "evidence"}
      >
        {charted ? (
          <div class="figures">
            {outcome.charts.map((chart, index) => (
              <ChartFigure
                key={index}
                id={`${place}-chart-${index + 1}`}
                chart={chart}
                drawing={drawings[index]!}
                settings={settings}
                {...(hasTools ? { hasTools } : {})}
              />
            ))}
          </div>
        ) : null}
        {outcome.tables.length > 0 ? (
          <div class="tables">
            {outcome.tables.map((table, index) => (
              <AnswerTable key={index} id={`${place}-table-${index + 1}`} table={table} settings={settings} />
            ))}
          </div>
        ) : null}
      </div>
      <Fold summary={`How this was worked out${leftOut > 0 ? `, and the ${leftOut} left out` : ""}`}>
        {outcome.estimates.length > 0 ? (
          <Estimates id={`${place}-estimates`} estimates={outcome.estimates} settings={settings} />
        ) : null}
        <div class="working">
          {outcome.method.length > 0 ? (
            <div>
              <h4>Method</h4>
              <Sentences sentences={outcome.method} settings={settings} />
            </div>
          ) : null}
          {answer.assumes.length > 0 ? (
            <div>
              <h4>Taken for granted</h4>
              <ul>
                {answer.assumes.map((assumption, index) => (
                  <li key={index}>{visibleText(assumption, longestSentence)}</li>
                ))}
              </ul>
            </div>
          ) : null}
          {outcome.caveats.length > 0 ? (
            <div>
              <h4>Easily misread</h4>
              <Sentences sentences={outcome.caveats} settings={settings} />
            </div>
          ) : null}
          <div>
            <h4>Trays left out</h4>
            <ExcludedTrays excluded={outcome.excluded} />
          </div>
        </div>
      </Fold>
    </>
  );
}
