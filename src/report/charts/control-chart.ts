import type { TopLevelSpec } from "vega-lite";
import type { ControlChart } from "../../analysis.ts";
import { asHead } from "../column-format.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { titleLines } from "./named-places.ts";
import type { Specification } from "./specification.ts";
import { mostPoints, thinPoints } from "./thin-points.ts";

/** signals named on the chart itself; the rest are marked only */
const mostNamed = 5;

/** A measure in time order between its limits; points beyond them are named. */
export function controlChartSpecification(chart: ControlChart, place: ChartPlace): Specification {
  const { points } = chart;
  const every = points.flatMap(({ value, centre, lower, upper }) => present(value, centre, lower, upper));
  const scale = chartScale(chart.valueLabel, chart.unit, every, place.settings);
  const signals = points.filter(({ signal }) => signal !== undefined);
  const calm = points.filter(({ signal }) => signal === undefined);
  const kept = new Set([
    ...signals,
    ...thinPoints(
      calm,
      () => "",
      ({ order }) => order,
      mostPoints,
    ),
  ]);
  const drawn = points.filter((point) => kept.has(point)).toSorted((a, b) => a.order - b.order);
  const rows = drawn.map(({ order, value, centre, lower, upper, signal, label }, index) => ({
    order,
    value: scale.show(value),
    centre: scale.show(centre),
    label: labelText(label, 24),
    signal: signal !== undefined,
    late: index > drawn.length / 2,
    ...(lower === undefined ? {} : { lower: scale.show(lower) }),
    ...(upper === undefined ? {} : { upper: scale.show(upper) }),
  }));
  const orders = points.map(({ order }) => order);
  const domain: [number, number] = [Math.min(...orders) - 0.5, Math.max(...orders) + 0.5];
  const x = measured("order", titleLines(asHead(visibleText(chart.orderLabel))), { domain, line: true, whole: true });
  const y = (field: string) => measured(field, null);
  const limit = (field: "centre" | "lower" | "upper") => ({
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
  const named = rows.filter(({ signal }) => signal).slice(0, mostNamed);
  const spec: TopLevelSpec = {
    ...chartFrame(place, 230),
    title: scale.title,
    layer: [
      limit("centre"),
      limit("lower"),
      limit("upper"),
      {
        data: { values: rows },
        mark: { type: "line", strokeWidth: 1, color: chartColours.range, opacity: 1 },
        encoding: { x, y: y("value") },
      },
      {
        data: { values: rows.filter(({ signal }) => !signal) },
        mark: { type: "point", filled: true, size: 34, opacity: 1, color: chartColours.ink },
        encoding: { x, y: y("value") },
      },
      {
        data: { values: rows.filter(({ signal }) => signal) },
        mark: { type: "point", filled: true, shape: "diamond", size: 130, opacity: 1, color: chartColours.warm },
        encoding: { x, y: y("value") },
      },
      ...[true, false].map((late) => ({
        data: { values: named.filter((row) => row.late === late) },
        mark: {
          type: "text" as const,
          align: late ? ("right" as const) : ("left" as const),
          dx: late ? -9 : 9,
          baseline: "middle" as const,
        },
        encoding: { x, y: y("value"), text: { field: "label" } },
      })),
    ],
  };
  const reasons = [...new Set(signals.map(({ signal }) => signal!))].map((reason) => visibleText(reason));
  return {
    spec,
    notes: [
      "The plain line is the centre, the dashed lines the limits.",
      ...(signals.length === 0 ? [] : [`Diamonds are signals: ${reasons.slice(0, 4).join("; ")}.`]),
      ...(drawn.length < points.length
        ? [`${drawn.length} of ${points.length} points are drawn, every signal among them.`]
        : []),
    ],
  };
}
