import type { TopLevelSpec } from "vega-lite";
import type { CurveChart } from "../../analysis.ts";
import { formatRange, type NumberSettings } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours, seriesColours, seriesDashes, seriesShapes } from "./chart-palette.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces } from "./named-places.ts";
import { placesLegend, seriesMarks } from "./series-marks.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

/** One or more fitted curves with their bands over the trays they were fitted to. */
export function curveSpecification(chart: CurveChart, settings: NumberSettings): Specification {
  const { curves, marks: lines = [], stretch } = chart;
  const everyX = [
    ...chart.points.map(({ x }) => x),
    ...curves.flatMap(({ x }) => x),
    ...lines.map(({ x }) => x),
    ...present(stretch?.from, stretch?.to),
  ];
  const everyY = [
    ...chart.points.map(({ y }) => y),
    ...curves.flatMap(({ y, low = [], high = [] }) => [...y, ...low, ...high]),
  ];
  const along = chartScale(chart.xLabel, chart.xUnit, everyX, settings);
  const up = chartScale(chart.yLabel, chart.yUnit, everyY, settings);
  const drawn = thinPoints(
    chart.points,
    ({ x }) => String(x),
    ({ y }) => y,
  );
  const trays = seriesMarks(chart.points.map(({ series }) => series));
  const names = namedPlaces(
    curves.map(({ name }) => name),
    { letters: 34, lines: 1 },
  );
  const shownX = everyX.map(along.show);
  const middle = (shownX.reduce((a, b) => Math.min(a, b)) + shownX.reduce((a, b) => Math.max(a, b))) / 2;
  // of several marks the first is named to its left and the last to its right, so that names do not cross lines
  const labelled = lines
    .map((mark) => ({ at: along.show(mark.x), label: visibleText(mark.label, 40) }))
    .sort((a, b) => a.at - b.at)
    .map((mark, index, all) => {
      const leftward = all.length === 1 ? mark.at > middle : index < all.length / 2;
      return { ...mark, leftward, row: leftward ? index : all.length - 1 - index };
    });

  const x = measured("x", along.title, { line: true, inset: 14 });
  const y = (field: string) => measured(field, null);
  // above the chart: beside the key of the points it would run out of it
  const curveLegend = names.keys.length > 1 ? { ...placesLegend(names, null), orient: "top" as const } : null;
  const colour = {
    field: "name",
    type: "nominal",
    scale: { domain: names.keys, range: names.keys.map((_, index) => seriesColours[index % seriesColours.length]!) },
    legend: curveLegend,
  } as const;
  const dash = {
    field: "name",
    type: "nominal",
    scale: { domain: names.keys, range: names.keys.map((_, index) => seriesDashes[index % seriesDashes.length]!) },
    legend: curveLegend,
  } as const;
  const rows = curves.flatMap((curve) =>
    curve.x.map((value, index) => ({
      name: names.keyOf(curve.name),
      x: along.show(value),
      y: up.show(curve.y[index]!),
      ...(curve.low === undefined || curve.high === undefined
        ? {}
        : { low: up.show(curve.low[index]!), high: up.show(curve.high[index]!) }),
    })),
  );
  const shape =
    trays.places === undefined
      ? {}
      : {
          shape: {
            field: "series",
            type: "nominal",
            scale: { domain: trays.places.keys, range: seriesShapes.slice(0, trays.places.keys.length) },
            legend: placesLegend(trays.places, null),
          } as const,
        };
  const spec: TopLevelSpec = {
    ...chartFrame(settings, 310),
    title: up.title,
    layer: [
      ...(stretch === undefined
        ? []
        : [
            {
              data: { values: [{ x: along.show(stretch.from), x2: along.show(stretch.to) }] },
              mark: { type: "rect", color: chartColours.shade } as const,
              encoding: { x, x2: { field: "x2" } },
            },
          ]),
      ...names.keys.map((name, index) => ({
        data: { values: rows.filter((row) => row.name === name && row.low !== undefined) },
        mark: { type: "area" as const, opacity: 0.18, color: seriesColours[index % seriesColours.length]! },
        encoding: { x, y: y("low"), y2: { field: "high" } },
      })),
      {
        data: {
          values: drawn.map((point) => ({
            x: along.show(point.x),
            y: up.show(point.y),
            tray: visibleText(point.tray, 40),
            series: trays.places?.keyOf(point.series ?? "not stated") ?? "",
          })),
        },
        mark: { type: "point", filled: false, strokeWidth: 1.4, size: 34, color: chartColours.dot },
        encoding: { x, y: y("y"), ...shape },
      },
      {
        data: { values: rows },
        mark: { type: "line", strokeWidth: 2.5 },
        encoding: { x, y: y("y"), color: colour, strokeDash: dash },
      },
      {
        data: { values: lines.map((mark) => ({ x: along.show(mark.x) })) },
        mark: { type: "rule", strokeWidth: 1.5, strokeDash: [5, 3], color: chartColours.ink },
        encoding: { x },
      },
      // a label over the ground's own colour stays readable on points and lines
      ...[chartColours.ground, chartColours.ink].flatMap((colour) =>
        labelled.map(({ at, label, leftward, row }) => ({
          data: { values: [{ x: at, label }] },
          mark: {
            type: "text" as const,
            align: leftward ? ("right" as const) : ("left" as const),
            dx: leftward ? -6 : 6,
            baseline: "top" as const,
            y: 3 + 17 * row,
            color: colour,
            ...(colour === chartColours.ground ? { stroke: colour, strokeWidth: 5 } : {}),
          },
          encoding: { x, text: { field: "label" } },
        })),
      ),
    ],
  };
  const shaded =
    stretch === undefined
      ? []
      : [
          `Shaded: ${visibleText(stretch.label)}, ${formatRange({ from: stretch.from, to: stretch.to, unit: chart.xUnit }, settings)}.`,
        ];
  const banded = curves.some(({ low }) => low !== undefined) ? ["The tinted band is the curve's interval."] : [];
  return {
    spec,
    notes: [...shaded, ...banded, ...thinningNote(drawn.length, chart.points.length, "trays"), ...trays.notes],
  };
}
