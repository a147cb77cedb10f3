// Draws charts in a thread of its own, one after the other, in the order in which they are asked for.
import { parentPort } from "node:worker_threads";
// loaded while the sheets are still being read
import "../../report/charts/drawing-library.ts";
import { drawChart } from "../../report/charts/draw-chart.ts";
import type { ChartRequest, DrawnReply } from "./draw-aside.ts";

let before = Promise.resolve();
parentPort!.on("message", ({ id, chart, place }: ChartRequest) => {
  before = before.then(async () => {
    const reply: DrawnReply = { id, drawing: await drawChart(chart, place) };
    parentPort!.postMessage(reply);
  });
});
