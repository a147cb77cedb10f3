import type { TopLevelSpec } from "vega-lite";
import type { CurveChart } from "../../analysis.ts";
import { formatRange } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, doseIndex, markOfDose, pickNames } from "./chart-place.ts";
import { type ChartScale, chartScale, present } from "./chart-scale.ts";
import { chartFontSize, chartFrame, haloed } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { lineEnds } from "./line-ends.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

const height = 290;
/** line patterns that tell curves apart, named at their ends */
const dashes: ReadonlyArray<number[]> = [
  [1, 0],
  [6, 3],
  [2, 2],
  [9, 3, 2, 3],
];

/** Every number each axis has to hold. */
function everyNumber({ points, curves, marks = [], stretch }: CurveChart): { x: number[]; y: number[] } {
  return {
    x: [
      ...points.map(({ x }) => x),
      ...curves.flatMap(({ x }) => x),
      ...marks.map(({ x }) => x),
      ...present(stretch?.from, stretch?.to),
    ],
    y: [...points.map(({ y }) => y), ...curves.flatMap(({ y, low = [], high = [] }) => [...y, ...low, ...high])],
  };
}

/** Both scales of a picture with its axis along. */
interface Axes {
  along: ChartScale;
  up: ChartScale;
  x: ReturnType<typeof measured>;
}

const y = (field: string) => measured(field, null);

/** The trays the curves were fitted to, in the colour and shape of their dose where the axis is one of doses. */
function trayLayer(drawn: CurveChart["points"], chart: CurveChart, { doses }: ChartPlace, { along, up, x }: Axes) {
  const isDose = chart.xUnit === "mL" && doses.length > 0 && chart.points.every((at) => doseIndex(at.x, doses) >= 0);
  const values = drawn.map((point) => {
    const dose = isDose ? point.x : undefined;
    const { colour, shape } = markOfDose(dose, doses);
    const pick = `pick ${pickNames(dose, undefined, doses)}`;
    return { x: along.show(point.x), y: up.show(point.y), tray: visibleText(point.tray, 40), colour, shape, pick };
  });
  return {
    data: { values },
    mark: { type: "point" as const, filled: true, size: 32, opacity: 1, aria: true },
    encoding: {
      x,
      y: y("y"),
      color: { field: "colour", type: "nominal" as const, scale: null, legend: null },
      shape: { field: "shape", type: "nominal" as const, scale: null, legend: null },
      description: { field: "pick", type: "nominal" as const },
    },
  };
}

/** Bands and lines of the curves. */
function curveLayers({ curves }: CurveChart, { along, up, x }: Axes) {
  const rowsOf = (curve: CurveChart["curves"][number]) =>
    curve.x.map((value, index) => ({
      x: along.show(value),
      y: up.show(curve.y[index]!),
      ...(curve.low === undefined || curve.high === undefined
        ? {}
        : { low: up.show(curve.low[index]!), high: up.show(curve.high[index]!) }),
    }));
  return {
    bands: curves
      .filter((curve) => curve.low !== undefined)
      .map((curve) => ({
        data: { values: rowsOf(curve) },
        mark: { type: "area" as const, opacity: 0.22, color: chartColours.range },
        encoding: { x, y: y("low"), y2: { field: "high" } },
      })),
    lines: curves.map((curve, index) => ({
      data: { values: rowsOf(curve) },
      mark: {
        type: "line" as const,
        strokeWidth: 2,
        color: chartColours.ink,
        strokeDash: dashes[index % dashes.length]!,
      },
      encoding: { x, y: y("y") },
    })),
  };
}

/** Each curve's name at its end, set apart where ends are close. */
function nameLayers({ curves }: CurveChart, names: string[], { along, up, x }: Axes, shownY: number[]) {
  const [low, high] = [Math.min(...shownY), Math.max(...shownY)];
  const ends = lineEnds(
    curves.map((curve) => ((high - up.show(curve.y.at(-1)!)) / (high - low || 1)) * (height - 80)),
    17,
    [8, height - 80],
  );
  return names.flatMap((name, index) =>
    ends[index] === undefined
      ? []
      : haloed({ align: "left" as const, dx: 6, y: ends[index] }).map((mark) => ({
          data: { values: [{ x: along.show(curves[index]!.x.at(-1)!), label: name }] },
          mark,
          encoding: { x, text: { field: "label" } },
        })),
  );
}

/** Vertical lines with their names, each on the side with more room. */
function ruleLayers({ marks = [] }: CurveChart, { along, x }: Axes, middle: number) {
  const labelled = marks
    .map((mark) => ({ at: along.show(mark.x), label: labelText(mark.label, 40) }))
    .sort((a, b) => a.at - b.at)
    .map((mark, index, all) => {
      const leftward = all.length === 1 ? mark.at > middle : index < all.length / 2;
      return { ...mark, leftward, row: leftward ? index : all.length - 1 - index };
    });
  return [
    {
      data: { values: marks.map((mark) => ({ x: along.show(mark.x) })) },
      mark: { type: "rule" as const, strokeWidth: 1.5, strokeDash: [5, 3], color: chartColours.ink },
      encoding: { x },
    },
    ...labelled.flatMap(({ at, label, leftward, row }) =>
      haloed({
        align: leftward ? ("right" as const) : ("left" as const),
        dx: leftward ? -6 : 6,
        baseline: "top" as const,
        y: 3 + 17 * row,
      }).map((mark) => ({ data: { values: [{ x: at, label }] }, mark, encoding: { x, text: { field: "label" } } })),
    ),
  ];
}

/** One or more fitted curves with their bands over the trays they were fitted to; each curve is named at its end. */
export function curveSpecification(chart: CurveChart, place: ChartPlace): Specification {
  const { curves, stretch } = chart;
  const { settings, width } = place;
  const every = everyNumber(chart);
  const along = chartScale(chart.xLabel, chart.xUnit, every.x, settings);
  const up = chartScale(chart.yLabel, chart.yUnit, every.y, settings);
  const drawn = thinPoints(
    chart.points,
    (point) => String(point.x),
    (point) => point.y,
  );
  const shownX = every.x.map(along.show);
  const [least, most] = [Math.min(...shownX), Math.max(...shownX)];
  const names = curves.length > 1 ? curves.map(({ name }) => labelText(name, 24)) : [];
  const room = Math.max(0, ...names.map((name) => letterWidth(name, chartFontSize) + 10));
  const perPixel = (most - least || 1) / Math.max(100, width - 60 - room);
  const domain: [number, number] = [least - 12 * perPixel, most + (12 + room) * perPixel];
  const axes: Axes = { along, up, x: measured("x", along.title, { line: true, domain }) };
  const { bands, lines } = curveLayers(chart, axes);
  const shade =
    stretch === undefined
      ? []
      : [
          {
            data: { values: [{ x: along.show(stretch.from), x2: along.show(stretch.to) }] },
            mark: { type: "rect" as const, color: chartColours.shade },
            encoding: { x: axes.x, x2: { field: "x2" } },
          },
        ];
  const spec: TopLevelSpec = {
    ...chartFrame(place, height),
    title: up.title,
    layer: [
      ...shade,
      ...bands,
      trayLayer(drawn, chart, place, axes),
      ...lines,
      ...nameLayers(chart, names, axes, every.y.map(up.show)),
      ...ruleLayers(chart, axes, (least + most) / 2),
    ],
  };
  const shaded =
    stretch === undefined
      ? []
      : [
          `Shaded: ${visibleText(stretch.label)}, ${formatRange({ from: stretch.from, to: stretch.to, unit: chart.xUnit }, settings)}.`,
        ];
  const banded = curves.some((curve) => curve.low !== undefined) ? ["The tinted band is the curve's range."] : [];
  return {
    spec,
    notes: [...shaded, ...banded, ...thinningNote(drawn.length, chart.points.length, "trays", place.settings)],
  };
}
