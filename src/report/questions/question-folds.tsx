import type { AnsweredQuestion, Estimate, Sentence } from "../../analysis.ts";
import { counted } from "../../records/counted.ts";
import { Fold } from "../fold.tsx";
import { formatEstimate, formatProbability, formatQuantity, type NumberSettings } from "../format-quantity.ts";
import type { ReportFacts } from "../report-facts.ts";
import { placeOf } from "../report-facts.ts";
import { SheetTable } from "../sheets/sheet-table.tsx";
import { shownSentence } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { AnswerTable } from "./answer-table.tsx";
import { ExcludedTrays } from "./excluded-trays.tsx";

/** the longest sentence shown; sentences are ours, but may carry text from cells */
export const longestSentence = 1200;

function Sentences({ sentences, settings }: { sentences: ReadonlyArray<Sentence>; settings: NumberSettings }) {
  return (
    <ul class="lines">
      {sentences.map((sentence, index) => (
        <li key={index}>{shownSentence(sentence, settings, longestSentence)}</li>
      ))}
    </ul>
  );
}

interface EstimatesProps {
  id: string;
  estimates: ReadonlyArray<Estimate>;
  settings: NumberSettings;
}

/** The numbers behind an answer: range first, p after it. */
function Estimates({ id, estimates, settings }: EstimatesProps) {
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
      caption="Figures behind the answer"
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

/** What a reader who doubts can open: tables in full, how it was worked out, what is easily misread, trays left out. */
export function QuestionFolds({
  answer,
  facts,
  isBeside = false,
}: {
  answer: AnsweredQuestion;
  facts: ReportFacts;
  /** whether the first table is shown beside the chart in short */
  isBeside?: boolean;
}) {
  const { outcome, assumes } = answer;
  const { settings } = facts;
  const place = placeOf(answer.id);
  const leftOut = outcome.excluded.reduce((sum, { trays }) => sum + facts.countOf(trays), 0);
  return (
    <div class="folds">
      {outcome.tables.map((table, index) => (
        <Fold key={index} summary={isBeside && index === 0 ? "The whole table" : visibleText(table.caption, 80)}>
          <AnswerTable id={`${place}-table-${index + 1}`} table={table} settings={settings} />
        </Fold>
      ))}
      {outcome.method.length + outcome.estimates.length + assumes.length === 0 ? null : (
        <Fold summary="How it was worked out">
          {outcome.estimates.length > 0 ? (
            <Estimates id={`${place}-estimates`} estimates={outcome.estimates} settings={settings} />
          ) : null}
          <Sentences sentences={outcome.method} settings={settings} />
          {assumes.length > 0 ? (
            <p>
              Taken for granted: {assumes.map((assumption) => visibleText(assumption, longestSentence)).join("; ")}.
            </p>
          ) : null}
        </Fold>
      )}
      {outcome.caveats.length > 0 ? (
        <Fold
          summary={
            outcome.caveats.length === 1
              ? "One thing easily misread"
              : `${outcome.caveats.length} things easily misread`
          }
        >
          <Sentences sentences={outcome.caveats} settings={settings} />
        </Fold>
      ) : null}
      {leftOut > 0 ? (
        <Fold summary={`${counted(leftOut, "tray")} left out`}>
          <ExcludedTrays excluded={outcome.excluded} facts={facts} />
        </Fold>
      ) : null}
    </div>
  );
}
