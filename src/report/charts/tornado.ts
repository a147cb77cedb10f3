import type { TopLevelSpec } from "vega-lite";
import type { TornadoChart } from "../../analysis.ts";
import { formatQuantity } from "../format-quantity.ts";
import { labelText } from "../visible-text.ts";
import { measured, namesBeside } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces } from "./named-places.ts";
import type { Specification } from "./specification.ts";

/** rows drawn; the shortest are left to the table */
const mostRows = 12;

const endNames = ["low end", "high end"];
const endColours = { domain: endNames, range: [chartColours.range, chartColours.ink] };

const leftOf = { align: "right" as const, dx: -5 };
const rightOf = { align: "left" as const, dx: 5 };

/** The two ends of a bar; equal results still get their two labels on their own sides. */
function barEnds({ low, high, lowLabel, highLabel }: TornadoChart["rows"][number], centre: number) {
  const isLeft = (value: number): boolean => value < centre || (value === centre && value < Math.max(low, high));
  return [
    { value: low, text: lowLabel, end: endNames[0], leftward: low === high || isLeft(low) },
    { value: high, text: highLabel, end: endNames[1], leftward: low !== high && isLeft(high) },
  ];
}

/** How far a result moves as each input runs from its low to its high, longest bar first. */
export function tornadoSpecification(chart: TornadoChart, place: ChartPlace): Specification {
  const { settings } = place;
  const longestFirst = chart.rows.toSorted((a, b) => Math.abs(b.high - b.low) - Math.abs(a.high - a.low));
  const rows = longestFirst.slice(0, mostRows);
  const every = [chart.centre, ...rows.flatMap(({ low, high }) => [low, high])];
  const scale = chartScale(chart.valueLabel, chart.unit, every, settings);
  const places = namedPlaces(
    rows.map(({ label }) => label),
    { letters: place.width < 400 ? 15 : 20, lines: 2 },
  );
  const centre = scale.show(chart.centre);
  const ends = rows.flatMap((row) =>
    barEnds(row, chart.centre).map(({ value, text, ...end }) => ({
      ...end,
      place: places.keyOf(row.label),
      centre,
      value: scale.show(value),
      text: labelText(text, 18),
    })),
  );
  const shown = every.map(scale.show);
  const room = (place.width < 400 ? 0.5 : 0.3) * (Math.max(...shown) - Math.min(...shown) || Math.abs(centre) || 1);
  const y = namesBeside(places, 0.35);
  const domain: [number, number] = [Math.min(...shown) - room, Math.max(...shown) + room];
  const x = (field: string) => measured(field, scale.title, { domain });
  const spec: TopLevelSpec = {
    ...chartFrame(place, 60 + places.keys.length * 34),
    layer: [
      {
        data: { values: ends },
        mark: { type: "bar", opacity: 1 },
        encoding: {
          y,
          x: x("centre"),
          x2: { field: "value" },
          color: { field: "end", type: "nominal", scale: endColours, legend: null },
        },
      },
      {
        data: { values: [{ centre }] },
        mark: { type: "rule", color: chartColours.ink, strokeWidth: 1.5 },
        encoding: { x: x("centre") },
      },
      ...[true, false].map((leftward) => ({
        data: { values: ends.filter((end) => end.leftward === leftward) },
        mark: { type: "text" as const, ...(leftward ? leftOf : rightOf) },
        encoding: { y, x: x("value"), text: { field: "text" } },
      })),
    ],
  };
  const notDrawn = `The ${rows.length} longest of ${longestFirst.length} bars are drawn; the table has every one.`;
  return {
    spec,
    notes: [
      "Dark: the input at its high end; grey: at its low end.",
      `The upright line is today's ${formatQuantity({ value: chart.centre, unit: chart.unit }, settings)}.`,
      ...(rows.length < longestFirst.length ? [notDrawn] : []),
    ],
  };
}
