import { type ComponentChild, render } from "preact";
import { analyses } from "../../analyses/index.ts";
import type { AnsweredQuestion } from "../analysis.ts";
import { Contents } from "../report/contents.tsx";
import { figureText } from "../report/front/figure-text.ts";
import { AfterAnswers, DoubtNote, FrontRows } from "../report/front/front-page.tsx";
import { FrontRow } from "../report/front/front-row.tsx";
import { certaintyOf } from "../report/front/verdict-mark.tsx";
import { WaitingBlock } from "../report/front/waiting-block.tsx";
import { FullQuestion, RowQuestion, saidOf } from "../report/questions/question-body.tsx";
import { placeOf, type ReportFacts, reportFacts } from "../report/report-facts.ts";
import { contentsParts } from "../report/report-page.tsx";
import { SavedTexts, type SavedTextsOf, sameText } from "../report/saved-texts.tsx";
import { CostsRead } from "../report/sheets/costs-read.tsx";
import { TraysAsRead } from "../report/sheets/every-tray.tsx";
import { SettingsAsUsed } from "../report/sheets/settings-used.tsx";
import { type MovedAnswer, movedAnswers } from "./model/change-list.ts";
import { current } from "./model/workbook.ts";
import { showPicked } from "./pick-out.ts";
import { fillInputs } from "./sheet/what-if.tsx";
import type { LiveAnswer } from "./worker/worker-messages.ts";

/** What every question answers now, as far as it was reported in this visit, by the question's id. */
export type AnswersNow = Map<string, AnsweredQuestion>;

const factsNow = (): ReportFacts => {
  const facts = reportFacts(current.value.book, true);
  document.documentElement.dataset.doses = String(facts.levels.values.length);
  return facts;
};

const put = (content: ComponentChild, place: Element | null, saved: SavedTextsOf): void => {
  if (place !== null) render(<SavedTexts.Provider value={saved}>{content}</SavedTexts.Provider>, place);
};

/** The place of a question; one that waited until now gets a line in its part. */
function questionPlace(answer: AnsweredQuestion): HTMLElement | undefined {
  const known = document.getElementById(placeOf(answer.id));
  if (known?.classList.contains("question")) return known;
  const part = document.getElementById(answer.topic);
  if (answer.outcome.kind !== "answer" || part === null) return undefined;
  known?.removeAttribute("id");
  const line = document.createElement("details");
  line.className = "question short";
  line.id = placeOf(answer.id);
  line.dataset.question = answer.id;
  line.dataset.form = "row";
  part.hidden = false;
  part.append(line);
  return line;
}

const foldsOf = (place: Element): HTMLDetailsElement[] => [...place.querySelectorAll("details")];

/** The answers that say something else than the saved book, in the report's order. */
function movedOf(answersNow: AnswersNow, saved: SavedTextsOf): MovedAnswer[] {
  const facts = factsNow();
  return analyses.flatMap(({ id }): MovedAnswer[] => {
    const answer = answersNow.get(id);
    if (answer === undefined) return [];
    const { figure } = answer.outcome;
    const pairs = [
      [saved.figures.get(id), figure === undefined ? "" : figureText(figure, facts.settings).large],
      [saved.verdicts.get(id), certaintyOf(answer.outcome)],
      [saved.sentences.get(id), saidOf(answer, facts)],
    ] as const;
    const moved = pairs.findIndex(([was, now]) => was !== undefined && !sameText(was, now));
    if (moved < 0) return [];
    const [was = "", now] = pairs[moved]!;
    return [{ id, name: answer.name, ...(moved < 2 ? { was, now } : { was: now, now }) }];
  });
}

/** Puts an answer in the place of the one before, beside what the saved book said, and among the answers of this visit. */
export function showAnswer({ answer, drawn }: LiveAnswer, answersNow: AnswersNow, saved: SavedTextsOf): void {
  const place = questionPlace(answer);
  answersNow.set(answer.id, answer);
  if (place !== undefined) {
    const facts = factsNow();
    const focused = document.activeElement;
    const chart = focused?.matches("[data-marks]") ? focused.closest<HTMLElement>("figure")?.dataset.chart : undefined;
    const open = new Set(foldsOf(place).flatMap((fold, index) => (fold.open ? [index] : [])));
    const isFull = place.dataset.form === "full";
    put(
      isFull ? <FullQuestion {...{ answer, drawn, facts }} /> : <RowQuestion {...{ answer, drawn, facts }} />,
      place,
      saved,
    );
    foldsOf(place).forEach((fold, index) => {
      fold.open = open.has(index);
    });
    // the first answer takes the place of what was written: who stood on a chart stays there
    if (chart !== undefined && focused?.isConnected === false) {
      const figures = [...place.querySelectorAll<HTMLElement>("figure[data-chart]")];
      const stops = figures
        .filter((figure) => figure.dataset.chart === chart)
        .flatMap((figure) => [...figure.querySelectorAll<HTMLElement>("[data-marks]")]);
      stops.find((stop) => stop.offsetParent !== null)?.focus({ preventScroll: true });
    }
    fillInputs(place);
    // who typed into an input beside the answer goes on from there
    const cell = focused instanceof HTMLInputElement && !focused.isConnected ? focused.dataset.cell : undefined;
    if (cell !== undefined) place.querySelector<HTMLElement>(`[data-cell="${cell}"]`)?.focus({ preventScroll: true });
  }
  showSentence(answer, answersNow, saved);
  showFront(answersNow, saved);
  movedAnswers.value = movedOf(answersNow, saved);
  showPicked();
}

/** Puts an answer's front row in the place of the one before, compared with the saved book. */
export function showSentence(answer: AnsweredQuestion, answersNow: AnswersNow, saved: SavedTextsOf): void {
  if (answersNow.size >= analyses.length) return;
  const row = [...document.querySelectorAll<HTMLElement>("[data-front]")].find(
    ({ dataset }) => dataset.front === answer.id,
  );
  put(<FrontRow answer={answer} facts={factsNow()} />, row ?? null, saved);
}

/** Once every question was reported, the lists that need all of them follow: front, what to do next, what waits, contents. */
function showFront(answersNow: AnswersNow, saved: SavedTextsOf): void {
  if (answersNow.size < analyses.length) return;
  const facts = factsNow();
  const answers = analyses.flatMap(({ id }) => answersNow.get(id) ?? []);
  const rows = (
    <>
      <FrontRows answers={answers} facts={facts} />
      <DoubtNote answers={answers} />
    </>
  );
  put(rows, document.querySelector("#front-rows"), saved);
  put(<AfterAnswers answers={answers} facts={facts} />, document.querySelector("#next-place"), saved);
  const waiting = document.querySelector<HTMLElement>("#waiting");
  if (waiting !== null) {
    waiting.hidden = answers.every(({ outcome }) => outcome.kind === "answer");
    const hasCosts = (current.value.book.costLines?.length ?? 0) > 0;
    put(<WaitingBlock answers={answers} facts={facts} hasCosts={hasCosts} />, waiting, saved);
  }
  put(<Contents parts={contentsParts(answers)} />, document.querySelector("#contents"), saved);
}

/** Brings the tables that are printed in step with the changed cells. */
export function bringPrintInStep(): void {
  const { book } = current.value;
  const slots = {
    costs: <CostsRead settings={book.settings} costLines={book.costLines} products={book.products} />,
    trays: <TraysAsRead trays={book.trays} settings={book.settings} />,
    settings: <SettingsAsUsed settings={book.settings} />,
  };
  for (const [name, content] of Object.entries(slots)) {
    const slot = document.querySelector(`.live-slot[data-slot="${name}"] > .as-written`);
    if (slot !== null) render(content, slot);
  }
}
