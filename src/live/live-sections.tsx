import { render } from "preact";
import type { AnsweredQuestion } from "../analysis.ts";
import { AnswerInShort } from "../report/answers-summary.tsx";
import { CostsRead } from "../report/costs-read.tsx";
import { TraysAsRead } from "../report/every-tray.tsx";
import { QuestionBody } from "../report/question-section.tsx";
import { SavedTexts, type SavedTextsOf } from "../report/saved-texts.tsx";
import { SettingsAsUsed } from "../report/settings-used.tsx";
import { current } from "./model/workbook.ts";
import type { LiveAnswer } from "./worker/worker-messages.ts";

const sectionOf = (question: string): HTMLElement | undefined =>
  [...document.querySelectorAll<HTMLElement>(".question-section")].find(
    (section) => section.dataset.question === question,
  );

const lineOf = (question: string): HTMLElement | undefined =>
  [...document.querySelectorAll<HTMLElement>(".answers > li")].find((line) => line.dataset.question === question);

/** Puts an answer in the place of the one before, held against the saved book. */
export function showAnswer({ answer, drawings }: LiveAnswer, saved: SavedTextsOf): void {
  const { settings } = current.value.book;
  const section = sectionOf(answer.id);
  if (section === undefined) return;
  const focused = document.activeElement;
  const chart = focused?.matches("[data-marks]") ? focused.closest<HTMLElement>("figure")?.dataset.chart : undefined;
  const isOpen = section.querySelector<HTMLDetailsElement>(":scope > details")?.open ?? false;
  render(
    <SavedTexts.Provider value={saved}>
      <QuestionBody place={section.id} answer={answer} drawings={drawings} settings={settings} hasTools />
    </SavedTexts.Provider>,
    section,
  );
  const fold = section.querySelector<HTMLDetailsElement>(":scope > details");
  if (fold !== null) fold.open = isOpen;
  // the first answer takes the place of what was written: who stood on a chart stays there
  if (chart !== undefined && focused?.isConnected === false) {
    const figures = [...section.querySelectorAll<HTMLElement>("figure[data-chart]")];
    figures
      .find((figure) => figure.dataset.chart === chart)
      ?.querySelector<HTMLElement>("[data-marks]")
      ?.focus({ preventScroll: true });
  }
  showSentence(answer, saved);
}

/** Puts a headline answer's line in the place of the one before, held against the saved book. */
export function showSentence(answer: AnsweredQuestion, saved: SavedTextsOf): void {
  const { settings } = current.value.book;
  const line = lineOf(answer.id);
  const place = sectionOf(answer.id)?.id;
  if (line === undefined || place === undefined) return;
  render(
    <SavedTexts.Provider value={saved}>
      <AnswerInShort answer={answer} place={place} settings={settings} />
    </SavedTexts.Provider>,
    line,
  );
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
