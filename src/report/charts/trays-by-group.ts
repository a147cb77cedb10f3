import type { TopLevelSpec } from "vega-lite";
import type { TraysByGroupChart } from "../../analysis.ts";
import { counted } from "../../records/counted.ts";
import { endsOf } from "../../records/ends.ts";
import { asHead } from "../column-format.ts";
import { visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours, shapes } from "./chart-palette.ts";
import { type ChartPlace, doseNamed, markOfDose, pickNames } from "./chart-place.ts";
import { type ChartScale, chartScale, present } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces, placeLabel, titleLines } from "./named-places.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

/** the fractional part of the golden ratio: its multiples spread evenly without a pattern */
const goldenStep = (Math.sqrt(5) - 1) / 2;
/** where the mean stands within a group's band, which runs from -0.5 to 0.5 */
const besidePoints = -0.34;

/** Sideways places of a group's points, the same on every run: neighbours in value are set apart. */
function spread(count: number): number[] {
  return Array.from({ length: count }, (_, index) => -0.16 + 0.58 * ((index * goldenStep + 0.5) % 1));
}

/** The shape of each series where shapes can tell them apart, and what they mean in words. */
function seriesShapes(chart: TraysByGroupChart): { shapeOf(series: string | undefined): string; notes: string[] } {
  const names = [...new Set(chart.points.map(({ series }) => series))].filter((name) => name !== undefined);
  // cooks are picked out by pointing, not by shape
  if (names.length < 2 || names.length > shapes.length || isOfCooks(chart))
    return { shapeOf: () => "circle", notes: [] };
  const words: Record<string, string> = { "triangle-up": "triangle" };
  const named = names.map((name, index) => `${visibleText(name, 40)}: ${words[shapes[index]!] ?? shapes[index]}`);
  return {
    shapeOf: (series) => shapes[Math.max(0, names.indexOf(series ?? ""))]!,
    notes: [`${asHead(visibleText(chart.seriesLabel ?? "Series", 40))}, by shape: ${named.join("; ")}.`],
  };
}

const isOfCooks = ({ seriesLabel = "" }: TraysByGroupChart): boolean => /^cook$/i.test(seriesLabel);

/** Trays as points, set sideways so that neighbours in value stand apart. */
function pointsOf(
  chart: TraysByGroupChart,
  drawn: TraysByGroupChart["points"],
  { doses }: ChartPlace,
  scale: ChartScale,
  keyOf: (name: string) => string,
  shapeOf: (series: string | undefined) => string,
) {
  const sideways = new Map<string, number[]>();
  for (const { group } of drawn) {
    if (!sideways.has(group)) sideways.set(group, spread(drawn.filter((other) => other.group === group).length));
  }
  return drawn
    .toSorted((a, b) => a.value - b.value)
    .map(({ group, value, tray, series }) => ({
      place: keyOf(group),
      value: scale.show(value),
      aside: sideways.get(group)!.shift()!,
      tray: visibleText(tray, 40),
      shape: shapeOf(series),
      colour: markOfDose(doseNamed(group, doses), doses).colour,
      pick: `pick ${pickNames(doseNamed(group, doses), isOfCooks(chart) ? series : undefined, doses)}`,
    }));
}

/** Where each group lies: side by side, or one under the other where there are many or their names are long. */
function groupBand(names: ReadonlyArray<string>, { groups, pointName }: TraysByGroupChart, { width }: ChartPlace) {
  const distinct = new Set(names).size;
  const letters = Math.floor((width - 50) / distinct / 8);
  const lying = distinct > 6 || names.some((name) => name.length > letters);
  const countOf = new Map(groups.map(({ group, n }) => [group, n]));
  const places = namedPlaces(names, {
    letters: lying ? 20 : letters,
    lines: lying ? 2 : 1,
    ...(groups.length === 0 ? {} : { below: (name: string) => counted(countOf.get(name) ?? 0, pointName ?? "tray") }),
  });
  return { lying, places };
}

type EncodingAt = (field: string) => object;

/** Points, and each group's mean with its range beside them. */
function groupLayers(
  points: ReturnType<typeof pointsOf>,
  means: { place: string; aside: number; mean: number; low?: number; high?: number }[],
  at: EncodingAt,
  lying: boolean,
) {
  const raw = (field: string) => ({ field, type: "nominal" as const, scale: null, legend: null });
  return [
    {
      data: { values: points },
      mark: { type: "point" as const, filled: true, aria: true, size: points.length > 200 ? 20 : 34, opacity: 1 },
      encoding: {
        ...at("value"),
        color: raw("colour"),
        shape: raw("shape"),
        description: { field: "pick", type: "nominal" as const },
      },
    },
    {
      data: { values: means.filter(({ low }) => low !== undefined) },
      mark: { type: "rule" as const, strokeWidth: 3, color: chartColours.ink },
      encoding: { ...at("low"), ...(lying ? { x2: { field: "high" } } : { y2: { field: "high" } }) },
    },
    {
      data: { values: means },
      mark: {
        ...{ type: "point" as const, filled: true, size: 110, opacity: 1 },
        ...{ fill: chartColours.ground, stroke: chartColours.ink, strokeWidth: 2.5 },
      },
      encoding: at("mean"),
    },
  ];
}

/** Every tray as a point, with each group's mean and interval beside them. */
export function traysByGroupSpecification(chart: TraysByGroupChart, place: ChartPlace): Specification {
  const { groups, unit, valueLabel } = chart;
  const every = [...chart.points.map(({ value }) => value), ...groups.flatMap((g) => present(g.mean, g.low, g.high))];
  const scale = chartScale(valueLabel, unit, every, place.settings);
  const names = [...groups.map(({ group }) => group), ...chart.points.map(({ group }) => group)];
  const { lying, places } = groupBand(names, chart, place);
  const series = seriesShapes(chart);
  const drawn = thinPoints(
    chart.points,
    ({ group }) => group,
    ({ value }) => value,
  );
  const points = pointsOf(chart, drawn, place, scale, places.keyOf, series.shapeOf);
  const means = groups.map(({ group, mean, low, high }) => ({
    ...{ place: places.keyOf(group), aside: besidePoints, mean: scale.show(mean) },
    ...(low === undefined || high === undefined ? {} : { low: scale.show(low), high: scale.show(high) }),
  }));
  const groupTitle = titleLines(asHead(visibleText(chart.groupLabel)));
  const band = {
    field: "place",
    type: "nominal" as const,
    scale: { domain: places.keys, paddingInner: 0.12, paddingOuter: 0.06 },
    axis: { labelExpr: placeLabel, title: lying ? null : groupTitle, ticks: false, labelPadding: 6 },
  };
  const aside = { field: "aside", type: "quantitative" as const, scale: { domain: [-0.5, 0.5] } };
  const [least, most] = endsOf(every).map(scale.show) as [number, number];
  // values all alike still need an axis with a width
  const flat = most - least < 1e-9 ? { domain: [least - 1, most + 1] as [number, number] } : {};
  const at = (field: string) =>
    lying
      ? { y: band, yOffset: aside, x: measured(field, scale.title, flat) }
      : { x: band, xOffset: aside, y: measured(field, null, flat) };
  const spec: TopLevelSpec = {
    ...chartFrame(place, lying ? 90 + places.keys.length * (16 * places.lines + 14) : 280),
    title: lying ? groupTitle : scale.title,
    layer: groupLayers(points, means, at, lying),
  };
  return {
    spec,
    notes: [
      ...(chart.pointName === undefined ? [] : [`Small marks are ${chart.pointName}s.`]),
      ...thinningNote(points.length, chart.points.length, place.settings),
      ...series.notes,
    ],
  };
}
