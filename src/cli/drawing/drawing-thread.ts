import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Chart } from "../../analysis.ts";
import type { ChartPlace } from "../../report/charts/chart-place.ts";
import type { Drawing } from "../../report/charts/draw-chart.ts";

/** A chart to be drawn by the thread. */
export interface ChartRequest {
  id: number;
  chart: Chart;
  place: ChartPlace;
}

/** What it drew. */
export interface DrawnReply {
  id: number;
  drawing: Drawing;
}

/** Beside the built program; sources that run as they are have none. */
const workerFile = new URL("./drawing-worker.js", import.meta.url);

/**
 * A thread that draws charts, one after the other; what it draws is the same as in this thread. It takes a while to be
 * ready, so that it is started before what will ask it is loaded. The program goes on while it is asked, not for its sake
 * alone, until it is ended.
 */
export class DrawingThread {
  private readonly worker: Worker;
  private readonly open = new Map<number, (drawing: Drawing) => void>();
  private asks = 0;
  /** why it draws no more */
  private failure: string | undefined;

  /** Undefined where the program runs from its sources: its charts are drawn as the report is written. */
  static start(file = workerFile): DrawingThread | undefined {
    return existsSync(fileURLToPath(file)) ? new DrawingThread(file) : undefined;
  }

  private constructor(file: URL) {
    this.worker = new Worker(file);
    this.worker.on("message", ({ id, drawing }: DrawnReply) => this.settle(id, drawing));
    this.worker.on("error", ({ message }) => this.fail(message));
    this.worker.on("exit", (code) => this.fail(`the thread that draws ended with code ${code}`));
    this.worker.unref();
  }

  /** A thread that dies takes no answer with it: its charts say why they are not there. */
  private fail(reason: string): void {
    this.failure ??= reason;
    for (const id of this.open.keys()) this.settle(id, { kind: "not-drawn", reason: this.failure });
  }

  private settle(id: number, drawing: Drawing): void {
    this.open.get(id)?.(drawing);
    this.open.delete(id);
    if (this.open.size === 0) this.worker.unref();
  }

  draw(chart: Chart, place: ChartPlace): Promise<Drawing> {
    if (this.failure !== undefined) return Promise.resolve({ kind: "not-drawn", reason: this.failure });
    const id = this.asks++;
    this.worker.ref();
    this.worker.postMessage({ id, chart, place } satisfies ChartRequest);
    return new Promise((settle) => this.open.set(id, settle));
  }

  end(): void {
    void this.worker.terminate();
  }
}
