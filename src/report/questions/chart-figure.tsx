// biome-ignore-all lint/a11y/noNoninteractiveTabindex: arrow keys move inside what has the role of an application
import type { Chart } from "../../analysis.ts";
import type { Drawing, DrawnChart } from "../charts/draw-chart.ts";
import { SvgPicture } from "../charts/svg-picture.tsx";
import type { ReportFacts } from "../report-facts.ts";
import { visibleText } from "../visible-text.ts";
import { AnswerTable } from "./answer-table.tsx";
import { chartNumbers } from "./chart-numbers.ts";

/** Whether a chart's marks stand for trays, so that a reader can go to them. */
const hasTrays = (chart: Chart): boolean =>
  chart.kind === "doses"
    ? chart.doses.some(({ points = [] }) => points.length > 0)
    : chart.kind === "trays-by-group" && chart.points.length > 0;

/** Where a keyboard moves between a chart's marks; in reach only where a script can answer. */
function MarkStop({ chart }: { chart: Chart }) {
  if (!hasTrays(chart)) return null;
  const what = (chart.kind === "trays-by-group" ? chart.pointName : undefined) ?? "tray";
  const keys = `arrow keys move between them, Enter goes to the ${what}, Space picks its group, Escape shows all`;
  return (
    <div
      class="mark-stop"
      role="application"
      tabIndex={0}
      data-marks
      aria-label={`Marks of ${visibleText(chart.title, 80)}: ${keys}`}
    >
      <span class="mark-ring" hidden />
    </div>
  );
}

interface ChartFigureProps {
  id: string;
  chart: Chart;
  drawn: DrawnChart;
  facts: ReportFacts;
}

/** A chart with its text alternative and what to know in reading it; its numbers where it could not be drawn. */
export function ChartFigure({ id, chart, drawn, facts }: ChartFigureProps) {
  const { narrow, wide } = drawn;
  const failed = [narrow, wide].find((drawing) => drawing?.kind === "not-drawn");
  const name = visibleText(`${chart.title}. ${chart.description}`, 1200);
  if (failed?.kind === "not-drawn" || narrow.kind === "not-drawn") {
    return (
      <div class="figure">
        <p class="note">
          This chart could not be drawn ({visibleText(failed?.kind === "not-drawn" ? failed.reason : "")}); its numbers
          are in the table. {name}
        </p>
        <AnswerTable id={id} table={chartNumbers(chart)} settings={facts.settings} />
      </div>
    );
  }
  const picture = (drawing: Drawing | undefined, look: string) =>
    drawing?.kind !== "drawn" ? null : (
      <div class={`figure-picture ${look}`} data-size={look.split(" ")[0]}>
        <SvgPicture svg={drawing.svg} name={name} look="chart" />
        {facts.isLive ? <MarkStop chart={chart} /> : null}
      </div>
    );
  return (
    <figure class="figure" data-chart={id}>
      <figcaption class="unseen">{visibleText(chart.title)}</figcaption>
      {wide === undefined ? null : picture(wide, "wide")}
      {picture(narrow, wide === undefined ? "only" : "narrow")}
      {narrow.notes.length > 0 ? <p class="note">{narrow.notes.join(" ")}</p> : null}
      {facts.isLive ? (
        <p class="figure-tools">
          {(["svg", "png"] as const).map((format) => (
            <button
              type="button"
              key={format}
              data-save={format}
              aria-label={`Save as ${format.toUpperCase()}: ${visibleText(chart.title, 80)}`}
            >
              {format.toUpperCase()}
            </button>
          ))}
        </p>
      ) : null}
    </figure>
  );
}
