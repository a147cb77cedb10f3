import type { AnsweredQuestion } from "../../analysis.ts";
import { counted } from "../../records/counted.ts";
import { placeOf, type ReportFacts } from "../report-facts.ts";
import { shownSentence } from "../shown-sentence.tsx";
import { visibleText } from "../visible-text.ts";
import { type WaitingGroup, waitingGroups } from "./choose-front.ts";
import { VerdictPicture } from "./verdict-mark.tsx";

const heads: Readonly<Record<WaitingGroup["kind"], string>> = {
  trays: "More trays",
  costs: "A cost sheet",
  products: "What you sell",
  record: "More written down",
  vary: "Something else varied",
  layout: "Another layout",
  other: "Something else",
};

/** Names of questions after one another. */
const namesOf = (answers: ReadonlyArray<AnsweredQuestion>): string =>
  answers.map(({ name }) => visibleText(name, 60)).join(" · ");

/** A cost sheet to take along or to fill in on the page, for a book that has none. */
function BlankCosts({ facts }: { facts: ReportFacts }) {
  const sheet = `item,kind,pack_price,pack_size,pack_unit,amount,per\r\n${[
    "substrate grain,ingredient,,,kg,,tray",
    "supplement,ingredient,,,kg,,tray",
    "filter bags,consumable,,,each,1,tray",
    "liquid culture,ingredient,,,mL,,mL",
    "shed rent,space,,1,month,1,month",
    "own time,labour,,1,hour,,tray",
  ].join("\r\n")}\r\n`;
  return (
    <p class="blank-costs">
      <a download="costs.csv" href={`data:text/csv;charset=utf-8,${encodeURIComponent(sheet)}`}>
        Download a blank costs.csv
      </a>
      {facts.isLive ? (
        <>
          {" "}
          or{" "}
          <a href="#costs-sheet" data-open="costs-sheet">
            fill it in here
          </a>
        </>
      ) : null}
      .
    </p>
  );
}

function Group({ group, facts, hasCosts }: { group: WaitingGroup; facts: ReportFacts; hasCosts: boolean }) {
  const { kind, needs, answers } = group;
  return (
    <div class="wait">
      <h3>
        <VerdictPicture certainty="cannot tell" /> {heads[kind]}
      </h3>
      {kind === "costs" ? (
        <p>Five lines are enough to start: substrate, bags, culture, rent, your own time.</p>
      ) : needs.length > 0 ? (
        <p>
          {`${needs.map((need) => visibleText(need, 160)).join("; ")}.`.replace(/^./, (letter) => letter.toUpperCase())}
        </p>
      ) : null}
      {kind === "costs" && !hasCosts ? <BlankCosts facts={facts} /> : null}
      <p class="qs">{namesOf(answers)}</p>
      <details class="fold">
        <summary>Why there is no answer</summary>
        <dl class="fold-body">
          {answers.map(({ id, question, outcome }) =>
            outcome.kind === "answer" ? null : (
              <div key={id} id={placeOf(id)} data-waiting={id}>
                <dt>{visibleText(question)}</dt>
                <dd>
                  {shownSentence(outcome.reason, facts.settings, 1200)}{" "}
                  {shownSentence(outcome.wouldSettle, facts.settings, 1200)}
                </dd>
              </div>
            ),
          )}
        </dl>
      </details>
    </div>
  );
}

/** Everything that cannot be answered, in one block, grouped by what is missing. */
export function WaitingBlock({
  answers,
  facts,
  hasCosts,
}: {
  answers: ReadonlyArray<AnsweredQuestion>;
  facts: ReportFacts;
  hasCosts: boolean;
}) {
  const groups = waitingGroups(answers);
  if (groups.length === 0) return null;
  const waiting = groups.reduce((sum, group) => sum + group.answers.length, 0);
  return (
    <>
      <h2 id="waiting-title">
        {counted(waiting, "question waits", "questions wait")} for{" "}
        {groups.length === 1 ? "one thing" : `${groups.length} things`}
      </h2>
      <div class="waits">
        {groups.map((group) => (
          <Group key={group.kind} group={group} facts={facts} hasCosts={hasCosts} />
        ))}
      </div>
    </>
  );
}
