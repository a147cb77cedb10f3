import { effect } from "@preact/signals";
import { render } from "preact";
import { analyses } from "../../analyses/index.ts";
import { startChartTools } from "./chart-tools.ts";
import { AsideNote, keepTrouble, LiveBar, saveAll } from "./live-bar.tsx";
import { type AnswersNow, bringPrintInStep, showAnswer, showSentence } from "./live-sections.tsx";
import { EditStorage } from "./model/edit-storage.ts";
import { isAnyEdit, noEdits, type SheetName } from "./model/live-sheet.ts";
import { ReportTests, savedTests } from "./model/report-tests.ts";
import { current, edits, figures, openWorkbook, rehearse, resume, said, workbook } from "./model/workbook.ts";
import { startRegionKeys } from "./region-keys.ts";
import { readSavedPage } from "./saved-page.ts";
import { Grid } from "./sheet/grid.tsx";
import { handleUndoKeys } from "./sheet/grid-keys.ts";
import { GridModel } from "./sheet/grid-model.ts";
import { startInputs } from "./sheet/what-if.tsx";
import { Answering } from "./worker/answering.ts";

/** how long the reader has to pause before fits are asked for, in milliseconds */
const pause = 60;

/** how often an edit is rehearsed before the first real one */
const rehearsals = 12;

/** Calls when the page has nothing else to do; where a browser cannot tell, a little later. */
const whenIdle = (work: () => void): void => {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(work, { timeout: 2000 });
  else setTimeout(work, 50);
};

function rehearseWhenIdle(left = rehearsals): void {
  if (left === 0) return;
  whenIdle(() => {
    rehearse();
    rehearseWhenIdle(left - 1);
  });
}

/**
 * Every question by the worker that answers it, headlines first: two workers where the page keeps a core for itself. The
 * questions of one topic start from the same comparisons or the same costs, which each worker works out once.
 */
function sharedOut(): string[][] {
  const inOrder = [...analyses].sort((a, b) => Number(b.headline) - Number(a.headline));
  if (navigator.hardwareConcurrency < 3) return [inOrder.map(({ id }) => id)];
  return (["money", "growing"] as const).map((topic) =>
    inOrder.filter((analysis) => analysis.topic === topic).map(({ id }) => id),
  );
}

function slotFor(name: string): HTMLElement | undefined {
  const slot = document.querySelector<HTMLElement>(`.live-slot[data-slot="${name}"]`);
  if (slot === null) return undefined;
  const place = document.createElement("div");
  place.className = "live-place";
  slot.prepend(place);
  return place;
}

/** Takes up the changes of the last visit. What is broken among them is dropped with a word, and the page goes on. */
function takeUp(kept: EditStorage): void {
  const { edits: before, dropped } = kept.read();
  const broken = "Changes of your last visit were broken and are dropped";
  if (dropped > 0) said.value = `${broken}.`;
  if (!isAnyEdit(before)) return;
  try {
    resume(before);
    // whether they can be worked with shows here and not at the first keystroke
    void figures.value;
    said.value =
      dropped === 0
        ? "Your changes of the last visit are still here."
        : `${broken} (${dropped}); the others are still here.`;
  } catch (error) {
    console.warn(error);
    resume(noEdits);
    kept.write(noEdits);
    said.value = `${broken}.`;
  }
}

/** Puts the sheets, the bar and the note on trays set aside in their places. */
function showSheets(models: ReadonlyMap<SheetName, GridModel>): void {
  const gridOf = (name: SheetName) => {
    const model = models.get(name);
    return model === undefined ? null : <Grid model={model} />;
  };
  const costs = slotFor("costs");
  if (costs !== undefined && models.has("costs"))
    render(
      <>
        {gridOf("costs")}
        {gridOf("products")}
      </>,
      costs,
    );
  for (const name of ["trays", "settings"] as const) {
    const place = slotFor(name);
    if (place !== undefined) render(gridOf(name), place);
  }
  const note = document.createElement("div");
  document.querySelector(".front > header")?.after(note);
  render(<AsideNote />, note);
  const bar = document.createElement("div");
  bar.className = "live-bar-place";
  document.body.append(bar);
  render(<LiveBar />, bar);
  document.documentElement.classList.add("live");
}

/** Has the answers follow every change, and keeps the changes. */
function followEdits(answering: Answering, kept: EditStorage): void {
  let timer: number | undefined;
  let isFirst = true;
  effect(() => {
    const now = edits.value;
    if (isFirst) {
      isFirst = false;
      if (!isAnyEdit(now)) return;
    } else {
      kept.write(now);
      keepTrouble.value = kept.trouble;
    }
    clearTimeout(timer);
    const since = performance.now();
    timer = window.setTimeout(() => answering.follow(now, since), pause);
  });
}

/** Hears what is done in the page outside the sheets themselves. */
function listen(answering: Answering): void {
  // who stands in a sheet may be about to change it
  const prepare = ({ target }: FocusEvent): void => {
    if (!(target instanceof Element) || target.closest(".grid-box") === null) return;
    document.removeEventListener("focusin", prepare);
    answering.prepare();
  };
  document.addEventListener("focusin", prepare);
  document.addEventListener("keydown", (event) => {
    if (event.target instanceof HTMLInputElement || event.defaultPrevented) return;
    handleUndoKeys(event);
  });
  startRegionKeys(saveAll);
  addEventListener("beforeprint", bringPrintInStep);
}

/** Makes the report's sheets live. @param makeWorker starts the page's own worker */
export function startLivePage(data: string, makeWorker: () => Worker): void {
  const savedPage = readSavedPage(document);
  const reportTests = new ReportTests(savedTests(document));
  openWorkbook(data);
  const { sheets } = workbook().saved;
  const models = new Map<SheetName, GridModel>();
  for (const sheet of Object.values(sheets)) models.set(sheet.name, new GridModel(sheet));
  const kept = new EditStorage(data, () => localStorage, sheets);
  takeUp(kept);
  keepTrouble.value = kept.trouble;

  const answersNow: AnswersNow = new Map();
  const noteChart = { note: (_: Parameters<typeof showAnswer>[0]): void => undefined };
  const rate = () => current.value.book.settings.significanceLevel;
  const full = [...document.querySelectorAll<HTMLElement>(".question[data-form=full]")];
  const open = full.map(({ dataset }) => dataset.question ?? "");
  const answering = new Answering(makeWorker, data, sharedOut(), open, {
    sentence: (answer) => showSentence(reportTests.ahead(answer, rate()), answersNow, savedPage),
    answer: (live) => {
      for (const answer of reportTests.hear(live, rate())) {
        showAnswer(answer, answersNow, savedPage);
        noteChart.note(answer);
      }
    },
  });
  noteChart.note = startChartTools(answering, models.get("trays")!);

  startInputs();
  showSheets(models);
  followEdits(answering, kept);
  listen(answering);
  rehearseWhenIdle();
}
