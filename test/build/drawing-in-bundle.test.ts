import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { expect, test } from "vitest";
import type { Chart } from "../../src/analysis.ts";
import { forBrowser } from "../../src/build/bundle.mjs";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { drawChart } from "../../src/report/charts/draw-chart.ts";
import { chartOf } from "../../src/report/questions/question-body.tsx";
import { demoAnswers } from "../engine/demo-answers.ts";
import { sampleCharts } from "../report/sample-answers.ts";

test("a bundle for the browser leaves parts of the drawing library out and draws each kind of chart the same", async () => {
  const root = fileURLToPath(new URL("../../", import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), "gramwright-drawing-"));
  try {
    const entry = { contents: 'export { drawChart } from "./src/report/charts/draw-chart.ts";', resolveDir: root };
    const { outputFiles } = await build({ ...forBrowser(root), stdin: entry, format: "esm" });
    const file = join(folder, "drawing.mjs");
    writeFileSync(file, outputFiles[0]!.text);
    const bundled = (await import(pathToFileURL(file).href)) as { drawChart: typeof drawChart };
    const { answers } = await demoAnswers();
    const charts: Chart[] = [...Object.values(sampleCharts), ...answers.flatMap((answer) => chartOf(answer) ?? [])];
    // one of each kind: they share what draws them
    const kinds = new Map(charts.map((chart) => [chart.kind, chart]));
    expect(kinds.size).toBeGreaterThan(7);
    for (const chart of kinds.values()) {
      const place = { settings: defaultSettings, width: 560, doses: [3, 6, 9, 12] };
      const drawn = await drawChart(chart, place);
      expect(drawn.kind, chart.title).toBe("drawn");
      expect(await bundled.drawChart(chart, place), chart.title).toEqual(drawn);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
