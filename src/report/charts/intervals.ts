import type { TopLevelSpec } from "vega-lite";
import type { IntervalsChart } from "../../analysis.ts";
import { endsOf } from "../../records/ends.ts";
import { formatQuantity, formatRange, type NumberSettings } from "../format-quantity.ts";
import { measured, namesBeside } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, doseNamed, markOfDose, pickNames } from "./chart-place.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces } from "./named-places.ts";
import type { Specification } from "./specification.ts";

/** The colour of a row, its dose's where it is one, and the names it is picked out by. */
const lookOf = (dose: number | undefined, doses: ChartPlace["doses"]) => ({
  colour: dose === undefined ? chartColours.ink : markOfDose(dose, doses).colour,
  pick: `pick ${pickNames(dose, undefined, doses)}`,
});

const pointMark = {
  type: "point" as const,
  shape: "circle" as const,
  size: 90,
  opacity: 1,
  strokeWidth: 2,
  aria: true,
};

/** An interval as many times as long as the middle one would leave no room to see the others. */
const farLonger = 6;

/** Where the axis ends: the intervals of most rows are whole on it, one far longer than they are is cut at its ends. */
function endsOfRows({ rows, reference }: IntervalsChart): [from: number, to: number] {
  const lengths = rows.map(({ low, high }) => high - low).sort((a, b) => a - b);
  const longest = farLonger * lengths[Math.floor((lengths.length - 1) / 2)]!;
  const shown = rows.flatMap(({ value, low, high }) => (high - low > longest ? [value] : [value, low, high]));
  return endsOf([...shown, ...present(reference)]);
}

/** What a chart says of rows that are cut, and of its reference. */
function notesOf(
  { rows, reference, unit }: IntervalsChart,
  from: number,
  to: number,
  settings: NumberSettings,
): string[] {
  const cut = rows
    .filter(({ low, high }) => low < from || high > to)
    .map(({ label, low, high }) => `${label} goes on: ${formatRange({ from: low, to: high, unit }, settings)}.`);
  if (reference === undefined) return cut;
  const at = formatQuantity({ value: reference, unit }, settings);
  return [...cut, `The dashed line is at ${at}. A filled mark: the interval is clear of it.`];
}

/** Estimates with their intervals one under the other; those clear of the reference are drawn filled. */
export function intervalsSpecification(chart: IntervalsChart, place: ChartPlace): Specification {
  const { rows, reference } = chart;
  const { settings, doses } = place;
  const [from, to] = endsOfRows(chart);
  const scale = chartScale(chart.valueLabel, chart.unit, [from, to], settings);
  const places = namedPlaces(
    rows.map(({ label }) => label),
    { letters: place.width < 400 ? 16 : 22, lines: 2 },
  );
  const clearOf = (low: number, high: number) => reference !== undefined && (low > reference || high < reference);
  const drawn = rows.map(({ label, value, low, high }) => ({
    place: places.keyOf(label),
    value: scale.show(value),
    low: scale.show(Math.max(low, from)),
    high: scale.show(Math.min(high, to)),
    clear: clearOf(low, high),
    ...lookOf(doseNamed(label, doses), doses),
  }));
  const colour = { field: "colour", type: "nominal" as const, scale: null, legend: null };
  const description = { field: "pick", type: "nominal" as const };
  const y = namesBeside(places);
  const x = (field: string) => measured(field, scale.title);
  const point = (clear: boolean) => ({
    data: { values: drawn.filter((row) => row.clear === clear) },
    mark: pointMark,
    encoding: { y, x: x("value"), stroke: colour, fill: clear ? colour : { value: chartColours.ground }, description },
  });
  const spec: TopLevelSpec = {
    ...chartFrame(place, 60 + places.keys.length * 34),
    layer: [
      ...(reference === undefined
        ? []
        : [
            {
              data: { values: [{ at: scale.show(reference) }] },
              mark: { type: "rule" as const, strokeDash: [5, 3], color: chartColours.ink },
              encoding: { x: x("at") },
            },
          ]),
      {
        data: { values: drawn },
        mark: { type: "rule", aria: true, strokeWidth: 3 },
        encoding: { y, x: x("low"), x2: { field: "high" }, color: colour, description },
      },
      point(true),
      point(false),
    ],
  };
  return { spec, notes: notesOf(chart, from, to, settings) };
}
