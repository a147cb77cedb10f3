import type { Chart } from "../analysis.ts";
import { AnswerTable } from "./answer-table.tsx";
import { chartNumbers } from "./chart-numbers.ts";
import type { Drawing } from "./charts/draw-chart.ts";
import type { NumberSettings } from "./format-quantity.ts";
import { visibleText } from "./visible-text.ts";

interface ChartFigureProps {
  id: string;
  chart: Chart;
  drawing: Drawing;
  settings: NumberSettings;
}

/** A chart with its title, its text alternative and what to know in reading it; its numbers where it could not be drawn. */
export function ChartFigure({ id, chart, drawing, settings }: ChartFigureProps) {
  if (drawing.kind === "not-drawn") {
    return (
      <div class="figure">
        <p class="figure-title">{visibleText(chart.title)}</p>
        <p class="note">
          This chart could not be drawn ({visibleText(drawing.reason)}); its numbers stand below.{" "}
          {visibleText(chart.description, 1200)}
        </p>
        <AnswerTable id={id} table={chartNumbers(chart)} settings={settings} />
      </div>
    );
  }
  const { source, width, height, notes } = drawing;
  return (
    <figure class="figure">
      <figcaption class="figure-title">{visibleText(chart.title)}</figcaption>
      <img src={source} width={width} height={height} alt={visibleText(chart.description, 1200)} />
      {notes.length > 0 ? <p class="note">{notes.join(" ")}</p> : null}
    </figure>
  );
}
