import type { TopLevelSpec } from "vega-lite";
import type { BreakdownChart } from "../../analysis.ts";
import { grouped } from "../../records/grouped.ts";
import { columnFormat } from "../column-format.ts";
import { labelText } from "../visible-text.ts";
import { measured, namesBeside } from "./axes.ts";
import { chartColours, tints } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFontSize, chartFrame } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { namedPlaces } from "./named-places.ts";
import type { Specification } from "./specification.ts";

interface Part {
  label: string;
  value: number;
}

const total = (parts: ReadonlyArray<Part>): number => parts.reduce((sum, { value }) => sum + value, 0);

/** The parts of each group, the group with most first. */
function groupsOf({ parts }: BreakdownChart): [group: string, parts: Part[]][] {
  return [...grouped(parts, ({ group = "no group" }) => group)].sort((a, b) => total(b[1]) - total(a[1]));
}

/** Parts end to end: gains to the right of 0, losses to its left, the largest next to it. */
function endToEnd(parts: ReadonlyArray<Part>): { label: string; from: number; to: number }[] {
  const ends = { gain: 0, loss: 0 };
  return parts
    .toSorted((a, b) => Math.abs(b.value) - Math.abs(a.value))
    .map(({ label, value }) => {
      const side = value < 0 ? "loss" : "gain";
      const from = ends[side];
      ends[side] += value;
      return { label: labelText(label, 40), from, to: ends[side] };
    });
}

/** One bar per group, each divided into parts of its own, which are named where there is room. */
export function ownPartsSpecification(chart: BreakdownChart, place: ChartPlace): Specification {
  const { settings } = place;
  const bars = groupsOf(chart);
  const places = namedPlaces(
    bars.map(([group]) => group),
    { letters: place.width < 400 ? 14 : 18, lines: 2 },
  );
  const rows = bars.flatMap(([group, parts]) =>
    endToEnd(parts).map((part) => ({ place: places.keyOf(group), ...part })),
  );
  const ends = [0, ...rows.map(({ to }) => to)];
  const scale = chartScale(chart.valueLabel, chart.unit, ends, settings);
  const totals = bars.map(([, parts]) => total(parts));
  const written = columnFormat({ label: chart.valueLabel, unit: chart.unit }, totals, settings);
  const ofBars = bars.map(([group, parts], index) => ({
    place: places.keyOf(group),
    end: scale.show(parts.reduce((sum, { value }) => sum + Math.max(0, value), 0)),
    text: written.write(totals[index]!),
  }));
  const least = Math.min(...ends.map(scale.show));
  const most = Math.max(...ends.map(scale.show));
  const room = Math.max(...ofBars.map(({ text }) => letterWidth(text, chartFontSize))) + 12;
  const perPixel = (most - least || 1) / Math.max(80, place.width - 40 - places.widest - room);
  const domain: [number, number] = [least, most + room * perPixel];
  const shown = rows.map(({ place, label, from, to }) => {
    const [start, end] = [scale.show(from), scale.show(to)];
    const fits = letterWidth(label, chartFontSize) + 10 <= Math.abs(end - start) / perPixel;
    return { place, start, end, middle: (start + end) / 2, label: fits ? label : "" };
  });
  const y = namesBeside(places);
  const spec: TopLevelSpec = {
    ...chartFrame(place, 60 + places.keys.length * 36),
    layer: [
      {
        data: { values: shown },
        mark: { type: "bar", color: tints[2], stroke: chartColours.ground, strokeWidth: 1.5 },
        encoding: { y, x: measured("start", scale.title, { domain }), x2: { field: "end" } },
      },
      {
        data: { values: shown.filter(({ label }) => label !== "") },
        mark: { type: "text", color: chartColours.ink },
        encoding: { y, x: measured("middle", scale.title, { domain }), text: { field: "label" } },
      },
      {
        data: { values: ofBars },
        mark: { type: "text", align: "left", dx: 5 },
        encoding: { y, x: measured("end", scale.title, { domain }), text: { field: "text" } },
      },
    ],
  };
  return { spec, notes: ["Each bar is divided into its lines, named where there is room; the table has them all."] };
}
