// biome-ignore-all lint/a11y/noNoninteractiveTabindex: arrow keys move inside what has the role of an application
import { useContext } from "preact/hooks";
import type { Chart } from "../analysis.ts";
import { AnswerTable } from "./answer-table.tsx";
import { chartNumbers } from "./chart-numbers.ts";
import type { Drawing } from "./charts/draw-chart.ts";
import { formatQuantity, type NumberSettings } from "./format-quantity.ts";
import { SavedTexts } from "./saved-texts.tsx";
import { visibleText } from "./visible-text.ts";

interface ChartFigureProps {
  id: string;
  chart: Chart;
  drawing: Drawing;
  settings: NumberSettings;
  hasTools?: boolean;
}

/** The groups of trays a chart shows, in its own words; none where its marks are no trays. */
function groupsShown(chart: Chart): string[] {
  if (chart.kind === "trays-by-group") return chart.groups.map(({ group }) => group);
  if (chart.kind !== "curve") return [];
  return [...new Set(chart.points.map(({ x }) => x))].sort((a, b) => a - b).map(String);
}

const mostGroups = 60;

/** Buttons to save a chart, and a list to look at one group's trays; shown only where a script can answer them. */
function ChartTools({ chart, settings }: { chart: Chart; settings: NumberSettings }) {
  const groups = groupsShown(chart);
  const title = visibleText(chart.title, 80);
  const label = (group: string): string =>
    chart.kind === "curve"
      ? formatQuantity({ value: Number(group), unit: chart.xUnit }, settings)
      : visibleText(group, 40);
  return (
    <p class="figure-tools">
      {groups.length > 1 && groups.length <= mostGroups ? (
        <select data-pick="group" aria-label={`Trays of this chart to show in the tray sheet: ${title}`}>
          <option value="">Show trays of …</option>
          {groups.map((group, index) => (
            <option key={index} value={group}>
              {label(group)}
            </option>
          ))}
        </select>
      ) : null}
      <button type="button" data-save="svg" aria-label={`Save as SVG: ${title}`}>
        SVG
      </button>
      <button type="button" data-save="png" aria-label={`Save as PNG: ${title}`}>
        PNG
      </button>
    </p>
  );
}

/** Where a keyboard moves between a chart's marks; in reach only where a script can answer. */
function MarkStop({ chart }: { chart: Chart }) {
  if ((chart.kind !== "trays-by-group" && chart.kind !== "curve") || chart.points.length === 0) return null;
  const what = (chart.kind === "trays-by-group" ? chart.pointName : undefined) ?? "tray";
  const keys = `arrow keys move between them, Enter goes to the ${what}, Space shows the trays of its group, Escape shows all`;
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

/** A chart with its title, its text alternative and what to know in reading it; its numbers where it could not be drawn. */
export function ChartFigure({ id, chart, drawing, settings, hasTools = false }: ChartFigureProps) {
  const saved = useContext(SavedTexts)?.pictures;
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
  const isChanged = saved !== undefined && saved.get(id) !== source;
  const image = (
    <img key="image" src={source} width={width} height={height} alt={visibleText(chart.description, 1200)} />
  );
  return (
    <figure class="figure" data-chart={id}>
      <figcaption class="figure-title">
        {visibleText(chart.title)}
        {isChanged ? <span class="was">redrawn</span> : null}
      </figcaption>
      {hasTools ? <div class="figure-picture">{[image, <MarkStop key="marks" chart={chart} />]}</div> : image}
      {hasTools ? <ChartTools chart={chart} settings={settings} /> : null}
      {notes.length > 0 ? <p class="note">{notes.join(" ")}</p> : null}
    </figure>
  );
}
