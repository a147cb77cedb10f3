import type { AnsweredQuestion, Chart } from "../../analysis.ts";
import type { Book } from "../../records/book.ts";
import { type ChartPlace, plotWidths } from "../../report/charts/chart-place.ts";
import type { Drawing, DrawnChart } from "../../report/charts/draw-chart.ts";
import { chartsOf } from "../../report/draw-charts.ts";
import { chartOf } from "../../report/questions/question-body.tsx";
import { dosesOf } from "../../report/report-facts.ts";
import type { DrawingThread } from "./drawing-thread.ts";

/** Has a report's charts drawn by a thread while further questions are being asked. */
export class DrawAside {
  private readonly asked = new Map<Chart, Map<number, Promise<Drawing>>>();
  /** of the book it draws for, found once */
  private doses: ReturnType<typeof dosesOf> | undefined;

  constructor(private readonly thread: DrawingThread) {}

  private draw(chart: Chart, place: ChartPlace): Promise<Drawing> {
    const widths = this.asked.get(chart) ?? new Map<number, Promise<Drawing>>();
    this.asked.set(chart, widths);
    const drawing = widths.get(place.width) ?? this.thread.draw(chart, place);
    widths.set(place.width, drawing);
    return drawing;
  }

  /** Begins with an answer's chart; in both widths where it is likely to be open in full. */
  begin(answer: AnsweredQuestion, { settings, trays }: Book): void {
    const chart = chartOf(answer);
    if (chart === undefined || answer.outcome.kind !== "answer") return;
    this.doses ??= dosesOf(trays);
    const place = { settings, doses: this.doses };
    this.draw(chart, { ...place, width: plotWidths.narrow });
    if (answer.headline) this.draw(chart, { ...place, width: plotWidths.wide });
  }

  /** The charts of a whole report, by question. */
  async finish(book: Book, answers: ReadonlyArray<AnsweredQuestion>): Promise<Map<string, DrawnChart>> {
    const charts = chartsOf(book, answers).map(({ id, chart, place, isFull }) => ({
      id,
      narrow: this.draw(chart, { ...place, width: plotWidths.narrow }),
      ...(isFull ? { wide: this.draw(chart, { ...place, width: plotWidths.wide }) } : {}),
    }));
    const drawn = new Map<string, DrawnChart>();
    for (const { id, narrow, wide } of charts) {
      drawn.set(id, { narrow: await narrow, ...(wide === undefined ? {} : { wide: await wide }) });
    }
    return drawn;
  }
}
