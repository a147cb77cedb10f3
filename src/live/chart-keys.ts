import type { TrayMark } from "../report/charts/tray-marks.ts";
import { markStep } from "./mark-steps.ts";

/** What the keyboard needs of the charts. */
export interface MarkTools {
  /** calls back with a chart's marks, once they are known; not at all where it has none */
  withMarks(figure: HTMLElement, then: (marks: ReadonlyArray<TrayMark>, width: number, height: number) => void): void;
  /** shows and says what a mark stands for, at a place of the screen */
  tell(figure: HTMLElement, mark: TrayMark, x: number, y: number): void;
  hide(): void;
  goTo(figure: HTMLElement, mark: TrayMark): void;
  showGroup(figure: HTMLElement, mark: TrayMark): void;
  showAll(): void;
}

const stopOf = (target: EventTarget | null): HTMLElement | undefined =>
  (target instanceof Element ? target.closest<HTMLElement>("[data-marks]") : null) ?? undefined;

/** Lets arrow keys move between a chart's marks: one stop of the Tab key for each chart. */
export function startChartKeys(tools: MarkTools): void {
  /** where the reader stands in each chart, by the chart's name */
  const places = new Map<string, { tray: string; x: number; y: number }>();

  const press = (stop: HTMLElement, key: string): void => {
    const figure = stop.closest<HTMLElement>("figure[data-chart]");
    if (figure === null) return;
    tools.withMarks(figure, (marks, width, height) => {
      if (document.activeElement !== stop) return;
      const chart = figure.dataset.chart ?? "";
      const place = places.get(chart);
      const stood =
        marks.find(({ tray, x, y }) => tray === place?.tray && x === place.x && y === place.y) ??
        marks.find(({ tray }) => tray === place?.tray);
      if (stood !== undefined && key === "Enter") return tools.goTo(figure, stood);
      if (stood !== undefined && key === " ") return tools.showGroup(figure, stood);
      const mark = key === "" ? (stood ?? markStep(marks, undefined, "Home")) : markStep(marks, stood, key);
      if (mark === undefined) return;
      places.set(chart, mark);
      const ring = stop.querySelector<HTMLElement>(".mark-ring")!;
      ring.hidden = false;
      ring.style.left = `${(100 * mark.x) / width}%`;
      ring.style.top = `${(100 * mark.y) / height}%`;
      const box = ring.getBoundingClientRect();
      tools.tell(figure, mark, box.left + box.width / 2, box.top + box.height / 2);
    });
  };

  document.addEventListener("focusin", ({ target }) => {
    const stop = stopOf(target);
    if (stop !== undefined) press(stop, "");
  });
  document.addEventListener("focusout", ({ target }) => {
    const ring = stopOf(target)?.querySelector<HTMLElement>(".mark-ring");
    if (ring === null || ring === undefined) return;
    ring.hidden = true;
    tools.hide();
  });
  document.addEventListener("keydown", (event) => {
    const stop = stopOf(event.target);
    if (stop === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Escape") tools.showAll();
    else if (["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End", "Enter", " "].includes(event.key))
      press(stop, event.key);
    else return;
    event.preventDefault();
  });
}
