import type { TopLevelSpec } from "vega-lite";
import type { BreakdownChart } from "../../analysis.ts";
import { columnFormat } from "../column-format.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { measured, namesBeside } from "./axes.ts";
import { chartColours, seriesColours } from "./chart-palette.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFontSize, chartFrame, chartWidth } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { namedPlaces } from "./named-places.ts";
import { ownPartsSpecification } from "./own-parts.ts";
import { mostSeries, placesLegend } from "./series-marks.ts";
import type { Specification } from "./specification.ts";

/** bars drawn one by one when there are no groups; the rest are added up */
const mostBars = 14;

/** Parts by size, the smallest added up under one name when there are more than `most`. */
function largestParts(
  parts: BreakdownChart["parts"],
  most: number,
): { parts: BreakdownChart["parts"]; notes: string[] } {
  const size = new Map<string, number>();
  for (const { label, value } of parts) size.set(label, (size.get(label) ?? 0) + Math.abs(value));
  const labels = [...size].sort((a, b) => b[1] - a[1]).map(([label]) => label);
  if (labels.length <= most) {
    const order = new Map(labels.map((label, index) => [label, index]));
    return { parts: parts.toSorted((a, b) => order.get(a.label)! - order.get(b.label)!), notes: [] };
  }
  const kept = labels.slice(0, most - 1);
  const rest = `${labels.length - kept.length} smaller parts`;
  const sums = new Map<string | undefined, number>();
  for (const { label, value, group } of parts)
    if (!kept.includes(label)) sums.set(group, (sums.get(group) ?? 0) + value);
  return {
    parts: [
      ...kept.flatMap((label) => parts.filter((part) => part.label === label)),
      ...[...sums].map(([group, value]) => ({ label: rest, value, ...(group === undefined ? {} : { group }) })),
    ],
    notes: [`The ${rest} are added up to keep the chart readable; the table has every one.`],
  };
}

function sortedBars(chart: BreakdownChart, settings: NumberSettings): Specification {
  const { parts, notes } = largestParts(chart.parts, mostBars);
  const values = parts.map(({ value }) => value);
  const scale = chartScale(chart.valueLabel, chart.unit, [0, ...values], settings);
  const written = columnFormat({ label: chart.valueLabel, unit: chart.unit }, values, settings);
  const places = namedPlaces(
    parts.map(({ label }) => label),
    { letters: 20, lines: 2 },
  );
  const rows = parts.map(({ label, value }) => ({
    place: places.keyOf(label),
    value: scale.show(value),
    text: written.write(value),
  }));
  const shown = [0, ...rows.map(({ value }) => value)];
  const y = namesBeside(places);
  // room for the figures at the ends of the bars
  const room = Math.max(...rows.map(({ text }) => letterWidth(text, chartFontSize))) + 10;
  const plot = chartWidth - 30 - places.widest;
  const losses = rows.some(({ value }) => value < 0);
  const perPixel = (Math.max(...shown) - Math.min(...shown)) / Math.max(80, plot - room * (losses ? 2 : 1));
  const domain: [number, number] = [
    Math.min(...shown) - (losses ? room * perPixel : 0),
    Math.max(...shown) + room * perPixel,
  ];
  const x = measured("value", scale.title, { domain });
  const spec: TopLevelSpec = {
    ...chartFrame(settings, 70 + places.keys.length * 40),
    layer: [
      {
        data: { values: rows },
        mark: { type: "bar", color: seriesColours[0] },
        encoding: { y, x, x2: { datum: 0 } },
      },
      {
        data: { values: [{ value: 0 }] },
        mark: { type: "rule", color: chartColours.quiet },
        encoding: { x },
      },
      ...([true, false] as const).map((gain) => ({
        data: { values: rows.filter(({ value }) => value >= 0 === gain) },
        mark: { type: "text" as const, align: gain ? ("left" as const) : ("right" as const), dx: gain ? 5 : -5 },
        encoding: { y, x, text: { field: "text" } },
      })),
    ],
  };
  return { spec, notes };
}

/** Parts of a total: sorted bars, or one stacked bar per group. */
export function breakdownSpecification(chart: BreakdownChart, settings: NumberSettings): Specification {
  if (chart.parts.every(({ group }) => group === undefined)) return sortedBars(chart, settings);
  const labels = new Set(chart.parts.map(({ label }) => label));
  return labels.size === chart.parts.length ? ownPartsSpecification(chart, settings) : sharedParts(chart, settings);
}

/** One stacked bar per group, the same parts in each, told apart by colour. */
function sharedParts(chart: BreakdownChart, settings: NumberSettings): Specification {
  const groups = chart.parts.map(({ group }) => group ?? "no group");
  const { parts, notes } = largestParts(chart.parts, mostSeries);
  const scale = chartScale(
    chart.valueLabel,
    chart.unit,
    chart.parts.map(({ value }) => value),
    settings,
  );
  const bars = namedPlaces(groups, { letters: 18, lines: 2 });
  const names = namedPlaces(
    parts.map(({ label }) => label),
    { letters: 26, lines: 1 },
  );
  const spec: TopLevelSpec = {
    ...chartFrame(settings, 100 + bars.keys.length * 44 + names.keys.length * 12),
    data: {
      values: parts.map(({ label, value, group }) => ({
        place: bars.keyOf(group ?? "no group"),
        part: names.keyOf(label),
        order: names.keys.indexOf(names.keyOf(label)),
        value: scale.show(value),
      })),
    },
    mark: { type: "bar", stroke: chartColours.ground, strokeWidth: 1.5 },
    encoding: {
      y: namesBeside(bars),
      x: { field: "value", type: "quantitative", stack: "zero", axis: { title: scale.title } },
      order: { field: "order", type: "quantitative" },
      color: {
        field: "part",
        type: "nominal",
        scale: { domain: names.keys, range: seriesColours.slice(0, names.keys.length) },
        legend: placesLegend(names, null, bars.widest),
      },
    },
  };
  return { spec, notes: ["Parts stand in the same order in every bar and in the key.", ...notes] };
}
