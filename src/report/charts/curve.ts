import type { TopLevelSpec } from "vega-lite";
import type { CurveChart } from "../../analysis.ts";
import { formatRange } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, doseIndex, markOfDose, pickNames } from "./chart-place.ts";
import { chartScale, present } from "./chart-scale.ts";
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

/** One or more fitted curves with their bands over the trays they were fitted to; each curve is named at its end. */
export function curveSpecification(chart: CurveChart, place: ChartPlace): Specification {
  const { curves, marks: lines = [], stretch } = chart;
  const { settings, doses, width } = place;
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
  const shownX = everyX.map(along.show);
  const [least, most] = [Math.min(...shownX), Math.max(...shownX)];
  const names = curves.length > 1 ? curves.map(({ name }) => labelText(name, 24)) : [];
  const room = Math.max(0, ...names.map((name) => letterWidth(name, chartFontSize) + 10));
  const perPixel = (most - least || 1) / Math.max(100, width - 60 - room);
  const domain: [number, number] = [least - 12 * perPixel, most + (12 + room) * perPixel];
  const isDose = chart.xUnit === "mL" && doses.length > 0 && chart.points.every(({ x }) => doseIndex(x, doses) >= 0);
  const x = measured("x", along.title, { line: true, domain });
  const shownY = everyY.map(up.show);
  const [low, high] = [Math.min(...shownY), Math.max(...shownY)];
  const y = (field: string) => measured(field, null);
  const ends = lineEnds(
    curves.map((curve) => ((high - up.show(curve.y.at(-1)!)) / (high - low || 1)) * (height - 80)),
    17,
    [8, height - 80],
  );
  const rowsOf = (curve: CurveChart["curves"][number]) =>
    curve.x.map((value, index) => ({
      x: along.show(value),
      y: up.show(curve.y[index]!),
      ...(curve.low === undefined || curve.high === undefined
        ? {}
        : { low: up.show(curve.low[index]!), high: up.show(curve.high[index]!) }),
    }));
  const middle = (least + most) / 2;
  const labelled = lines
    .map((mark) => ({ at: along.show(mark.x), label: labelText(mark.label, 40) }))
    .sort((a, b) => a.at - b.at)
    .map((mark, index, all) => {
      const leftward = all.length === 1 ? mark.at > middle : index < all.length / 2;
      return { ...mark, leftward, row: leftward ? index : all.length - 1 - index };
    });
  const spec: TopLevelSpec = {
    ...chartFrame(place, height),
    title: up.title,
    layer: [
      ...(stretch === undefined
        ? []
        : [
            {
              data: { values: [{ x: along.show(stretch.from), x2: along.show(stretch.to) }] },
              mark: { type: "rect" as const, color: chartColours.shade },
              encoding: { x, x2: { field: "x2" } },
            },
          ]),
      ...curves
        .filter((curve) => curve.low !== undefined)
        .map((curve) => ({
          data: { values: rowsOf(curve) },
          mark: { type: "area" as const, opacity: 0.22, color: chartColours.range },
          encoding: { x, y: y("low"), y2: { field: "high" } },
        })),
      {
        data: {
          values: drawn.map((point) => ({
            x: along.show(point.x),
            y: up.show(point.y),
            tray: visibleText(point.tray, 40),
            colour: markOfDose(isDose ? point.x : undefined, doses).colour,
            shape: markOfDose(isDose ? point.x : undefined, doses).shape,
            pick: `pick ${pickNames(isDose ? point.x : undefined, undefined, doses)}`,
          })),
        },
        mark: { type: "point", filled: true, size: 32, opacity: 1, aria: true },
        encoding: {
          x,
          y: y("y"),
          color: { field: "colour", type: "nominal", scale: null, legend: null },
          shape: { field: "shape", type: "nominal", scale: null, legend: null },
          description: { field: "pick", type: "nominal" },
        },
      },
      ...curves.map((curve, index) => ({
        data: { values: rowsOf(curve) },
        mark: {
          type: "line" as const,
          strokeWidth: 2,
          color: chartColours.ink,
          strokeDash: dashes[index % dashes.length]!,
        },
        encoding: { x, y: y("y") },
      })),
      ...names.flatMap((name, index) =>
        ends[index] === undefined
          ? []
          : haloed({ align: "left" as const, dx: 6, y: ends[index] }).map((mark) => ({
              data: { values: [{ x: along.show(curves[index]!.x.at(-1)!), label: name }] },
              mark,
              encoding: { x, text: { field: "label" } },
            })),
      ),
      {
        data: { values: lines.map((mark) => ({ x: along.show(mark.x) })) },
        mark: { type: "rule", strokeWidth: 1.5, strokeDash: [5, 3], color: chartColours.ink },
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
    ],
  };
  const shaded =
    stretch === undefined
      ? []
      : [
          `Shaded: ${visibleText(stretch.label)}, ${formatRange({ from: stretch.from, to: stretch.to, unit: chart.xUnit }, settings)}.`,
        ];
  const banded = curves.some((curve) => curve.low !== undefined) ? ["The tinted band is the curve's range."] : [];
  return { spec, notes: [...shaded, ...banded, ...thinningNote(drawn.length, chart.points.length, "trays")] };
}
