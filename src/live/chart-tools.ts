import { doseIndex } from "../report/charts/chart-place.ts";
import type { TrayMark } from "../report/charts/tray-marks.ts";
import { dosesOf } from "../report/report-facts.ts";
import { visibleText } from "../report/visible-text.ts";
import { startChartKeys } from "./chart-keys.ts";
import { figureOf, isOnPicture } from "./figure-in-page.ts";
import { KnownCharts } from "./known-charts.ts";
import { current, said } from "./model/workbook.ts";
import { letGo, pickOut, startPicking } from "./pick-out.ts";
import { savePicture } from "./save-picture.ts";
import type { GridModel } from "./sheet/grid-model.ts";
import { TrayCard } from "./tray-card.ts";
import { TraySheet } from "./tray-sheet.ts";
import type { Answering } from "./worker/answering.ts";
import { pointNamed, traysOfGroup } from "./worker/chart-trays.ts";
import type { LiveAnswer } from "./worker/worker-messages.ts";

/** Leads from a chart's marks to what they stand for. */
class MarkGuide {
  readonly card = new TrayCard();

  constructor(
    readonly charts: KnownCharts,
    readonly sheet: TraySheet,
  ) {}

  /** What is shown of a mark: its tray's row, or how many trays it stands for. */
  linesOf(figure: HTMLElement, mark: TrayMark): [label: string, text: string][] {
    const several = this.charts.severalOf(figure, mark);
    if (several === undefined) return this.sheet.linesOf(mark.tray);
    const { what, trays } = several;
    return [
      [`${what.charAt(0).toUpperCase()}${what.slice(1)}`, mark.tray],
      ["Trays", String(trays.length)],
    ];
  }

  /** Shows a mark's card. @param how the reader goes on from it: "Click" */
  showCard(figure: HTMLElement, mark: TrayMark, x: number, y: number, how: string): void {
    const isOne = this.charts.severalOf(figure, mark) === undefined;
    this.card.show(this.linesOf(figure, mark), `${how} ${isOne ? "to go to its row" : "to show its trays"}`, x, y);
  }

  goTo(figure: HTMLElement, mark: TrayMark): void {
    this.card.hide();
    this.sheet.open();
    const several = this.charts.severalOf(figure, mark);
    if (several !== undefined) this.sheet.showTrays(several.trays, mark.tray);
    else this.sheet.goToRow(mark.tray);
    this.sheet.bringIntoSight();
  }

  /** Picks out a mark's dose, or shows the trays of its group where that is no dose. */
  showGroup(figure: HTMLElement, mark: TrayMark): void {
    const chart = this.charts.chart(figure);
    const group = chart === undefined ? undefined : pointNamed(chart, mark.tray)?.group;
    if (group === undefined) return;
    const dose = doseIndex(Number.parseFloat(group), dosesOf(current.value.book.trays)) + 1;
    if (dose > 0) this.sheet.showPicked(pickOut(`dose-${dose}`, group) ? `dose-${dose}` : undefined, group);
    else if (chart !== undefined) this.sheet.showTrays(traysOfGroup(chart, group, current.value.book), group);
  }

  showAll(): void {
    this.card.hide();
    letGo();
    this.sheet.showPicked(undefined, "");
  }
}

/** Shows the card of the mark that the pointer is near. */
function followPointer(guide: MarkGuide): void {
  const { charts, card } = guide;
  document.addEventListener("pointermove", (event) => {
    const figure = isOnPicture(event.target) ? figureOf(event.target) : undefined;
    if (figure === undefined) {
      card.hide();
      return;
    }
    if (!charts.has(figure)) charts.ask(figure, () => undefined);
    const mark = charts.markAt(figure, event.clientX, event.clientY);
    figure.classList.toggle("on-mark", mark !== undefined);
    if (mark === undefined) card.hide();
    else guide.showCard(figure, mark.mark, mark.x, mark.y, "Click");
  });
}

function followKeys(guide: MarkGuide): void {
  startChartKeys({
    withMarks: (figure, then) => guide.charts.withMarks(figure, then),
    tell: (figure, mark, x, y) => {
      guide.showCard(figure, mark, x, y, "Enter");
      said.value = guide
        .linesOf(figure, mark)
        .map((line) => line.join(" "))
        .join(", ");
    },
    hide: () => guide.card.hide(),
    goTo: (figure, mark) => guide.goTo(figure, mark),
    showGroup: (figure, mark) => guide.showGroup(figure, mark),
    showAll: () => guide.showAll(),
  });
}

/** Goes to the row of a tray whose name or mark is clicked, and saves a picture where a button asks for it. */
function followClicks(guide: MarkGuide): void {
  const { charts, sheet } = guide;
  document.addEventListener("click", ({ target }) => {
    const tray = target instanceof Element ? target.closest<HTMLElement>("[data-tray]")?.dataset.tray : undefined;
    if (tray === undefined) return;
    sheet.open();
    sheet.goToRow(visibleText(tray, 40));
    sheet.bringIntoSight();
  });
  document.addEventListener("click", (event) => {
    const figure = isOnPicture(event.target) ? figureOf(event.target) : undefined;
    const mark = figure === undefined ? undefined : charts.markAt(figure, event.clientX, event.clientY);
    if (figure !== undefined && mark !== undefined) guide.goTo(figure, mark.mark);
  });
  document.addEventListener("click", savePicture);
}

/** Makes charts answer: point to a tray to see its row, pick a dose to follow its trays, save a picture. */
export function startChartTools(answering: Answering, trays: GridModel): (live: LiveAnswer) => void {
  const charts = new KnownCharts(answering);
  const sheet = new TraySheet(trays);
  const guide = new MarkGuide(charts, sheet);
  followPointer(guide);
  followKeys(guide);
  startPicking((name, what) => sheet.showPicked(name, what));
  followClicks(guide);
  return (live) => charts.note(live);
}
