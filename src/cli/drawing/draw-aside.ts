import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { AnsweredQuestion, Chart } from "../../analysis.ts";
import type { Book } from "../../records/book.ts";
import { type ChartPlace, plotWidths } from "../../report/charts/chart-place.ts";
import type { Drawing, DrawnChart } from "../../report/charts/draw-chart.ts";
import { chartsOf } from "../../report/draw-charts.ts";
import { chartOf } from "../../report/questions/question-body.tsx";
import { dosesOf } from "../../report/report-facts.ts";

/** A chart to be drawn by the worker. */
export interface ChartRequest {
  id: number;
  chart: Chart;
  place: ChartPlace;
}

/** What the worker drew. */
export interface DrawnReply {
  id: number;
  drawing: Drawing;
}

/** Beside the built program; sources that run as they are have none. */
const workerFile = new URL("./drawing-worker.js", import.meta.url);

/**
 * Draws a report's charts in a thread of its own while further questions are being asked. What is drawn is the same as in
 * this thread. Must be ended, or the program goes on.
 */
export class DrawAside {
  private readonly worker: Worker;
  private readonly asked = new Map<Chart, Map<number, Promise<Drawing>>>();
  private readonly open = new Map<number, (drawing: Drawing) => void>();
  private asks = 0;
  /** of the book it draws for, found once */
  private doses: ReturnType<typeof dosesOf> | undefined;
  /** why the worker draws no more */
  private failure: string | undefined;

  /** Undefined where the program runs from its sources: its charts are drawn as the report is written. */
  static start(file = workerFile): DrawAside | undefined {
    return existsSync(fileURLToPath(file)) ? new DrawAside(file) : undefined;
  }

  private constructor(file: URL) {
    this.worker = new Worker(file);
    this.worker.on("message", ({ id, drawing }: DrawnReply) => this.settle(id, drawing));
    this.worker.on("error", ({ message }) => this.fail(message));
    this.worker.on("exit", (code) => this.fail(`the thread that draws ended with code ${code}`));
  }

  /** A thread that dies takes no answer with it: its charts say why they are not there. */
  private fail(reason: string): void {
    this.failure ??= reason;
    for (const id of this.open.keys()) this.settle(id, { kind: "not-drawn", reason: this.failure });
  }

  private settle(id: number, drawing: Drawing): void {
    this.open.get(id)?.(drawing);
    this.open.delete(id);
  }

  private draw(chart: Chart, place: ChartPlace): Promise<Drawing> {
    const widths = this.asked.get(chart) ?? new Map<number, Promise<Drawing>>();
    this.asked.set(chart, widths);
    const known = widths.get(place.width);
    if (known !== undefined) return known;
    if (this.failure !== undefined) return Promise.resolve({ kind: "not-drawn", reason: this.failure });
    const id = this.asks++;
    const drawing = new Promise<Drawing>((settle) => this.open.set(id, settle));
    widths.set(place.width, drawing);
    this.worker.postMessage({ id, chart, place } satisfies ChartRequest);
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

  end(): void {
    void this.worker.terminate();
  }
}
