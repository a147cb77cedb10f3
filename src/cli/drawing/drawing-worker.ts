// Draws charts in a thread of its own, one after the other, in the order in which they are asked for.
import { on } from "node:events";
import { parentPort } from "node:worker_threads";
// loaded while the sheets are still being read
import "../../report/charts/drawing-library.ts";
import { drawChart } from "../../report/charts/draw-chart.ts";
import type { ChartRequest, DrawnReply } from "./drawing-thread.ts";

for await (const [request] of on(parentPort!, "message")) {
  const { id, chart, place } = request as ChartRequest;
  parentPort!.postMessage({ id, drawing: await drawChart(chart, place) } satisfies DrawnReply);
}
