import type { TopLevelSpec } from "vega-lite";
import type { ControlChart } from "../../analysis.ts";
import { endsOf } from "../../records/ends.ts";
import { asHead } from "../column-format.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { type ChartScale, chartScale, present } from "./chart-scale.ts";
import { chartFontSize, chartFrame } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { titleLines } from "./named-places.ts";
import type { Specification } from "./specification.ts";
import { mostPoints, thinPoints } from "./thin-points.ts";

const height = 230;
/** signals named on the chart itself; the rest are marked only */
const mostNamed = 5;

/** The points that are drawn, in order: every signal, and so many of the calm ones as can be separated. */
function pointsDrawn(points: ControlChart["points"]): ControlChart["points"] {
  const calm = thinPoints(
    points.filter(({ signal }) => signal === undefined),
    () => "",
    ({ order }) => order,
    mostPoints,
  );
  const kept = new Set([...points.filter(({ signal }) => signal !== undefined), ...calm]);
  return points.filter((point) => kept.has(point)).toSorted((a, b) => a.order - b.order);
}

const rowsOf = (drawn: ControlChart["points"], { show }: ChartScale) =>
  drawn.map(({ order, value, centre, lower, upper, signal, label }, index) => ({
    order,
    value: show(value),
    centre: show(centre),
    label: labelText(label, 24),
    signal: signal !== undefined,
    late: index > drawn.length / 2,
    ...(lower === undefined ? {} : { lower: show(lower) }),
    ...(upper === undefined ? {} : { upper: show(upper) }),
  }));

type Rows = ReturnType<typeof rowsOf>;
type Axis = ReturnType<typeof measured>;

type Up = (field: string) => Axis;

/** The axis up: shares from 0, and never so narrow that scatter of a few per cent looks like a swing. */
function axisUp(shown: ReadonlyArray<number>, isShare: boolean): Up {
  const [least, most] = endsOf(shown);
  const more = Math.max(0, Math.abs(most) * 0.1 - (most - least)) / 2;
  const domain: [number, number] = isShare ? [0, Math.max(most, 1)] : [least - more, most + more];
  return (field) => measured(field, null, { domain, nice: true });
}

/** The centre or a limit as a line in steps. */
const limitLayer = (rows: Rows, field: "centre" | "lower" | "upper", x: Axis, y: Up) => ({
  data: { values: rows.filter((row) => row[field] !== undefined) },
  mark: {
    type: "line" as const,
    interpolate: "step" as const,
    strokeWidth: field === "centre" ? 1.5 : 1.2,
    strokeDash: field === "centre" ? [1, 0] : [6, 3],
    color: chartColours.quiet,
  },
  encoding: { x, y: y(field) },
});

/** The measure as a thin line, its calm points, and its signals as diamonds. */
function pointLayers(rows: Rows, x: Axis, y: Up) {
  const point = { type: "point" as const, filled: true, opacity: 1 };
  const encoding = { x, y: y("value") };
  return [
    {
      data: { values: rows },
      mark: { type: "line" as const, strokeWidth: 1, color: chartColours.range, opacity: 1 },
      encoding,
    },
    {
      data: { values: rows.filter(({ signal }) => !signal) },
      mark: { ...point, size: 34, color: chartColours.ink },
      encoding,
    },
    {
      data: { values: rows.filter(({ signal }) => signal) },
      mark: { ...point, shape: "diamond" as const, size: 130, color: chartColours.warm },
      encoding,
    },
  ];
}

/** pixels of a name up and down, and between a point and its name */
const nameHeight = 17;
const besidePoint = 9;

/** Signals by name, those whose names do not touch; the first ones first. */
function namedSignals(rows: Rows, domain: [number, number], width: number): Rows {
  const values = rows.flatMap(({ value, centre, lower = centre, upper = centre }) => [value, lower, upper]);
  const [lowest, highest] = endsOf(values);
  const span = highest - lowest || 1;
  const taken: { from: number; to: number; at: number }[] = [];
  return rows.filter(({ signal, late, order, value, label }) => {
    if (!signal || taken.length === mostNamed) return false;
    const x = ((order - domain[0]) / (domain[1] - domain[0])) * (width - 46);
    const wide = letterWidth(label, chartFontSize) + besidePoint;
    const box = { from: late ? x - wide : x, to: late ? x : x + wide, at: (value / span) * (height - 70) };
    if (taken.some((other) => Math.abs(other.at - box.at) < nameHeight && other.from < box.to && box.from < other.to))
      return false;
    taken.push(box);
    return true;
  });
}

/** Names beside their points, on the side with room. */
function nameLayers(named: Rows, x: Axis, y: Up) {
  return [true, false].map((late) => ({
    data: { values: named.filter((row) => row.late === late) },
    mark: {
      type: "text" as const,
      align: late ? ("right" as const) : ("left" as const),
      dx: late ? -besidePoint : besidePoint,
      baseline: "middle" as const,
    },
    encoding: { x, y: y("value"), text: { field: "label" } },
  }));
}

/** A measure in time order between its limits; points beyond them are named. */
export function controlChartSpecification(chart: ControlChart, place: ChartPlace): Specification {
  const { points } = chart;
  const every = points.flatMap(({ value, centre, lower, upper }) => present(value, centre, lower, upper));
  const scale = chartScale(chart.valueLabel, chart.unit, every, place.settings);
  const drawn = pointsDrawn(points);
  const rows = rowsOf(drawn, scale);
  const orders = points.map(({ order }) => order);
  const [firstOrder, lastOrder] = endsOf(orders);
  const domain: [number, number] = [firstOrder - 0.5, lastOrder + 0.5];
  const x = measured("order", titleLines(asHead(visibleText(chart.orderLabel))), { domain, line: true, whole: true });
  const y = axisUp(every.map(scale.show), chart.unit === "share");
  const limits = (["centre", "lower", "upper"] as const).map((field) => limitLayer(rows, field, x, y));

  const spec: TopLevelSpec = {
    ...chartFrame(place, height),
    title: scale.title,
    layer: [...limits, ...pointLayers(rows, x, y), ...nameLayers(namedSignals(rows, domain, place.width), x, y)],
  };
  const reasons = [...new Set(points.flatMap(({ signal }) => signal ?? []))].map((reason) => visibleText(reason));
  return {
    spec,
    notes: [
      points.some(({ lower, upper }) => lower !== undefined || upper !== undefined)
        ? "The plain line is the average; a point at a dashed line or beyond it is out of the usual."
        : "The plain line is the average.",
      ...(reasons.length === 0 ? [] : [`Diamonds: ${reasons.slice(0, 4).join("; ")}.`]),
      ...(drawn.length < points.length
        ? [`${drawn.length} of ${points.length} points are drawn, every signal among them.`]
        : []),
    ],
  };
}
