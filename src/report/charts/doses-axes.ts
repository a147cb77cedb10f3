import type { DosesChart } from "../../analysis.ts";
import { endsOf } from "../../records/ends.ts";
import { formatQuantity } from "../format-quantity.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, markOfDose, plotWidths } from "./chart-place.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFontSize } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";

/** pixels between marks that stand side by side */
export const laneStep = 7;
/** about what the value axis takes of the width */
const axisRoom = 46;
/** what a mean in letters takes on the left of its dose */
const labelRoom = 46;

/** A chart's doses in order, the way they are drawn. */
export type DosesInOrder = DosesChart["doses"];

const lostText = (lost: number | undefined): string => (lost === undefined ? "" : `${lost} lost`);

/** The value axis: round, never so narrow that scatter looks like a gain, and with 0 in sight where values have both signs. */
function valueDomain(every: ReadonlyArray<number>, chart: DosesChart): [number, number] {
  const [least, most] = endsOf(every);
  const values = chart.doses.flatMap(({ points = [], mean }) => points.map(({ value }) => value - (mean ?? value)));
  const spread = values.length < 3 ? 0 : Math.sqrt(values.reduce((sum, d) => sum + d * d, 0) / (values.length - 1));
  const wanted = Math.max(4 * spread, (most - least) * 1.06, Math.abs(most) * 0.02 || 1);
  const more = (wanted - (most - least)) / 2;
  // what is never below 0 has no axis below it
  return [least < 0 ? least - more : Math.max(0, least - more), most + more];
}

/** Every value the axis up has to hold. */
function everyValue({ curve }: DosesChart, doses: DosesInOrder): number[] {
  return [
    ...doses.flatMap(({ mean, low, high, points = [] }) => [
      ...present(mean, low, high),
      ...points.map(({ value }) => value),
    ]),
    ...(curve === undefined ? [] : [...curve.y, ...(curve.low ?? []), ...(curve.high ?? [])]),
  ];
}

/** bold letters against plain ones, and what parts two names */
const boldness = 1.12;
const gap = 6;

/**
 * The lines under each dose: its name, and what was lost where there is room for it. A name that would touch another is left
 * out, the doses at both ends last.
 */
function namesThatFit({ doseUnit }: DosesChart, doses: DosesInOrder, settings: ChartPlace["settings"], at: number[]) {
  const names = doses.map(({ dose }) => formatQuantity({ value: dose, unit: doseUnit }, settings));
  const losses = doses.map(({ lost }) => lostText(lost));
  const half = (text: string) => (letterWidth(text, chartFontSize) * boldness + gap) / 2;
  const touch = (texts: ReadonlyArray<string>, a: number, b: number) =>
    Math.abs(at[a]! - at[b]!) < half(texts[a]!) + half(texts[b]!);
  const lastIndex = doses.length - 1;
  const kept: number[] = [];
  for (const index of [0, lastIndex, ...doses.keys()])
    if (!kept.some((other) => other === index || touch(names, index, other))) kept.push(index);
  const withLost =
    doses.some(({ lost }) => lost !== undefined) &&
    doses.length <= 7 &&
    kept.every((a) => kept.every((b) => a === b || !touch(losses, a, b)));
  return doses.map((_, index) =>
    !kept.includes(index) ? [""] : withLost ? [names[index]!, losses[index]!] : [names[index]!],
  );
}

/** The axis along: each dose by its name in its own colour, and under it what was lost. */
function doseAxis(
  chart: DosesChart,
  doses: DosesInOrder,
  { settings, doses: tried }: ChartPlace,
  shown: ReadonlyArray<number>,
  { domain, perPixel }: { domain: [number, number]; perPixel: number },
) {
  const pixels = shown.map((dose) => (dose - domain[0]) / perPixel);
  const names = namesThatFit(chart, doses, settings, pixels);
  const test = (index: number) => `abs(datum.value-${shown[index]})<1e-6`;
  return {
    field: "x",
    type: "quantitative" as const,
    scale: { domain, nice: false, zero: false },
    axis: {
      title: null,
      grid: false,
      domain: true,
      values: [...shown],
      labelFontWeight: "bold" as const,
      // those that do not fit are empty already
      labelOverlap: false,
      labelExpr: doses.reduceRight(
        (otherwise, _, index) => `${test(index)} ? ${JSON.stringify(names[index])} : ${otherwise}`,
        "''",
      ),
      labelColor: {
        condition: doses.map(({ dose }, index) => ({ test: test(index), value: markOfDose(dose, tried).letters })),
        value: chartColours.ink,
      },
    },
  };
}

/** Both axes of a picture of doses, and how much room marks have between its doses. */
export function dosesAxes(chart: DosesChart, doses: DosesInOrder, place: ChartPlace) {
  const { settings, width } = place;
  const every = everyValue(chart, doses);
  const up = chartScale(chart.valueLabel, chart.unit, every, settings);
  const along = chartScale(
    "dose",
    chart.doseUnit,
    doses.map(({ dose }) => dose),
    settings,
  );
  const [first, last] = [doses[0]!.dose, doses.at(-1)!.dose];
  const ends = [first, last, ...(chart.curve?.x ?? [])].map(along.show);
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const margin = (to - from || Math.abs(to) || 1) * 0.13;
  const end = to + margin;
  // the first mean is written on the left of its dose, and must not reach into the axis
  const share = labelRoom / (width - axisRoom);
  const domain: [number, number] = [
    Math.min(from - margin * 0.9, (along.show(first) - share * end) / (1 - share)),
    end,
  ];
  const perPixel = (domain[1] - domain[0]) / (width - axisRoom);
  const height = width === plotWidths.wide ? 330 : 290;
  const valueEnds = valueDomain(every, chart).map(up.show) as [number, number];
  const shown = doses.map(({ dose }) => along.show(dose));
  const gaps = shown.slice(1).map((dose, index) => dose - shown[index]!);
  return {
    up,
    at: along.show,
    x: doseAxis(chart, doses, place, shown, { domain, perPixel }),
    y: (field: string) => measured(field, null, { domain: valueEnds, nice: true }),
    /** the doses tried, from and to */
    triedEnds: [first, last] as const,
    domain,
    perPixel,
    height,
    valueEnds,
    /** values nearer to each other than this would hide each other */
    near: ((valueEnds[1] - valueEnds[0]) / (height - 80)) * 6,
    /** how many marks can lie side by side */
    lanes: Math.max(1, Math.min(6, Math.floor((Math.min(...gaps, 1e9) / perPixel - 30) / laneStep))),
    /** pixels from a dose to the next one, at the narrowest place */
    room: Math.min(...gaps.map((gap) => gap / perPixel), 999),
  };
}

export type DosesAxes = ReturnType<typeof dosesAxes>;
