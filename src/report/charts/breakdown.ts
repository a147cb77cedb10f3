import type { TopLevelSpec } from "vega-lite";
import type { BreakdownChart } from "../../analysis.ts";
import { columnFormat } from "../column-format.ts";
import { measured, namesBeside } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFontSize, chartFrame } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { namedPlaces } from "./named-places.ts";
import { ownPartsSpecification } from "./own-parts.ts";
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

function sortedBars(chart: BreakdownChart, place: ChartPlace): Specification {
  const { settings } = place;
  const { parts, notes } = largestParts(chart.parts, mostBars);
  const values = parts.map(({ value }) => value);
  const scale = chartScale(chart.valueLabel, chart.unit, [0, ...values], settings);
  const written = columnFormat({ label: chart.valueLabel, unit: chart.unit }, values, settings);
  const places = namedPlaces(
    parts.map(({ label }) => label),
    { letters: place.width < 400 ? 15 : 20, lines: 2 },
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
  const plot = place.width - 30 - places.widest;
  const losses = rows.some(({ value }) => value < 0);
  const perPixel = (Math.max(...shown) - Math.min(...shown)) / Math.max(80, plot - room * (losses ? 2 : 1));
  const domain: [number, number] = [
    Math.min(...shown) - (losses ? room * perPixel : 0),
    Math.max(...shown) + room * perPixel,
  ];
  const x = measured("value", scale.title, { domain });
  const spec: TopLevelSpec = {
    ...chartFrame(place, 60 + places.keys.length * 34),
    layer: [
      {
        data: { values: rows },
        mark: { type: "bar", color: chartColours.range },
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

/** Parts of a total: sorted bars, or one bar per group divided into its parts. */
export const breakdownSpecification = (chart: BreakdownChart, place: ChartPlace): Specification =>
  chart.parts.every(({ group }) => group === undefined)
    ? sortedBars(chart, place)
    : ownPartsSpecification(chart, place);
