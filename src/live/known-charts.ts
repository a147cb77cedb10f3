import type { Chart } from "../analysis.ts";
import type { TrayMark } from "../report/charts/tray-marks.ts";
import { chartOf } from "../report/questions/question-body.tsx";
import { inSight } from "./figure-in-page.ts";
import { current, edits } from "./model/workbook.ts";
import type { Answering } from "./worker/answering.ts";
import { pointNamed, traysNamed } from "./worker/chart-trays.ts";
import type { LiveAnswer } from "./worker/worker-messages.ts";

/** how near a pointer has to come to a mark, in pixels of the screen */
const near = 14;

const questionOf = (figure: HTMLElement): string =>
  figure.closest<HTMLElement>("[data-question]")?.dataset.question ?? "";

/** The drawing of a figure at the width in sight, with the places of its marks. */
function drawingInSight(figure: HTMLElement, live: LiveAnswer | undefined) {
  const size = inSight(figure)?.closest<HTMLElement>(".figure-picture")?.dataset.size;
  const drawing = size === "wide" ? live?.drawn?.wide : live?.drawn?.narrow;
  return drawing?.kind === "drawn" ? drawing : undefined;
}

/** What the page's charts show and where their marks lie, as far as their questions were answered in this visit. */
export class KnownCharts {
  private readonly known = new Map<string, LiveAnswer>();
  constructor(private readonly answering: Answering) {}

  /** Takes in what a question answers now. */
  note(live: LiveAnswer): void {
    this.known.set(live.answer.id, live);
  }

  has(figure: HTMLElement): boolean {
    return this.known.has(questionOf(figure));
  }

  /** Calls back with the answer a figure belongs to, asking for it where it is not known yet. */
  ask(figure: HTMLElement, then: (live: LiveAnswer) => void): void {
    const question = questionOf(figure);
    const live = this.known.get(question);
    if (live !== undefined) then(live);
    else {
      this.answering.marks(question, edits.value, (now) => {
        this.known.set(question, now);
        then(now);
      });
    }
  }

  /** Calls back with a figure's marks once they are known; not at all where it has none. */
  withMarks(figure: HTMLElement, then: (marks: ReadonlyArray<TrayMark>, width: number, height: number) => void): void {
    this.ask(figure, (live) => {
      const drawing = drawingInSight(figure, live);
      if (drawing?.marks !== undefined) then(drawing.marks, drawing.width, drawing.height);
    });
  }

  /** The mark nearest to a point of the screen, where one is near enough. */
  markAt(figure: HTMLElement, x: number, y: number) {
    const drawing = drawingInSight(figure, this.known.get(questionOf(figure)));
    const box = inSight(figure)?.getBoundingClientRect();
    if (drawing?.marks === undefined || box === undefined) return undefined;
    const scale = box.width / drawing.width;
    let best: { mark: TrayMark; x: number; y: number; distance: number } | undefined;
    for (const mark of drawing.marks) {
      const [markX, markY] = [box.left + mark.x * scale, box.top + mark.y * scale];
      const distance = Math.hypot(markX - x, markY - y);
      if (distance <= near && distance < (best?.distance ?? near + 1)) best = { mark, x: markX, y: markY, distance };
    }
    return best;
  }

  /** The chart that a figure shows now. */
  chart(figure: HTMLElement): Chart | undefined {
    const live = this.known.get(questionOf(figure));
    return live === undefined ? undefined : chartOf(live.answer);
  }

  /** What a mark stands for where it stands for several trays, with their names. */
  severalOf(figure: HTMLElement, { tray }: TrayMark): { what: string; trays: string[] } | undefined {
    const chart = this.chart(figure);
    if (chart?.kind !== "trays-by-group" || chart.pointName === undefined) return undefined;
    const name = pointNamed(chart, tray)?.name;
    if (name === undefined) return undefined;
    return { what: chart.pointName, trays: traysNamed(chart, new Set([name]), current.value.book) };
  }
}
