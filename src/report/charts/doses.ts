import type { TopLevelSpec } from "vega-lite";
import type { DosesChart } from "../../analysis.ts";
import { columnFormat } from "../column-format.ts";
import { formatQuantity, formatRange } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, markOfDose, pickNames, plotWidths } from "./chart-place.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFontSize, chartFrame, haloed } from "./chart-theme.ts";
import { curveLayers, useLayers } from "./doses-layers.ts";
import { letterWidth } from "./letter-width.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

/** pixels between marks that stand side by side */
const step = 7;
/** about what the value axis takes of the width */
const axisRoom = 46;

/** Lost trays as crosses while they can be counted at a glance. */
const lostText = (lost: number): string =>
  lost === 0 ? "0 lost" : lost <= 4 ? `${"×".repeat(lost)} lost` : `${lost} lost`;

/** Values side by side where they would hide each other: how many steps to the right each is set, in the order given. */
function asides(values: ReadonlyArray<number>, near: number, most: number): number[] {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value || a.index - b.index);
  const lastAt: number[] = [];
  const found = new Array<number>(values.length).fill(0);
  for (const { value, index } of order) {
    let lane = lastAt.findIndex((last) => value - last >= near);
    if (lane < 0) lane = lastAt.length < most ? lastAt.length : index % most;
    lastAt[lane] = value;
    found[index] = lane;
  }
  return found;
}

/** The value axis: round, never so narrow that scatter looks like a gain, and with 0 in sight where values have both signs. */
function valueDomain(every: ReadonlyArray<number>, chart: DosesChart): [number, number] {
  const [least, most] = [Math.min(...every), Math.max(...every)];
  const values = chart.doses.flatMap(({ points = [], mean }) => points.map(({ value }) => value - (mean ?? value)));
  const spread = values.length < 3 ? 0 : Math.sqrt(values.reduce((sum, d) => sum + d * d, 0) / (values.length - 1));
  const wanted = Math.max(4 * spread, (most - least) * 1.06, Math.abs(most) * 0.02 || 1);
  const more = (wanted - (most - least)) / 2;
  return [least - more, most + more];
}

/** Trays, means with ranges, the curve with its band and what was lost, over the doses tried. */
export function dosesSpecification(chart: DosesChart, place: ChartPlace): Specification {
  const { settings, width, doses: tried } = place;
  const doses = chart.doses.toSorted((a, b) => a.dose - b.dose);
  const every = [
    ...doses.flatMap(({ mean, low, high, points = [] }) => [
      ...present(mean, low, high),
      ...points.map(({ value }) => value),
    ]),
    ...(chart.curve === undefined ? [] : [...chart.curve.y, ...(chart.curve.low ?? []), ...(chart.curve.high ?? [])]),
  ];
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
  const domain: [number, number] = [from - margin * 0.9, to + margin];
  const perPixel = (domain[1] - domain[0]) / (width - axisRoom);
  const height = width === plotWidths.wide ? 330 : 290;
  const valueEnds = valueDomain(every, chart).map(up.show) as [number, number];
  const near = ((valueEnds[1] - valueEnds[0]) / (height - 80)) * 6;
  const gaps = doses.slice(1).map(({ dose }, index) => along.show(dose) - along.show(doses[index]!.dose));
  const lanes = Math.max(1, Math.min(6, Math.floor((Math.min(...gaps, 1e9) / perPixel - 30) / step)));

  const names = doses.map(({ dose, lost }) => [
    formatQuantity({ value: dose, unit: chart.doseUnit }, settings),
    ...(doses.length <= 7 ? [lostText(lost)] : []),
  ]);
  const marks = doses.map(({ dose }) => markOfDose(dose, tried));
  const test = (index: number) => `abs(datum.value-${along.show(doses[index]!.dose)})<1e-6`;
  const x = {
    field: "x",
    type: "quantitative" as const,
    scale: { domain, nice: false, zero: false },
    axis: {
      title: null,
      grid: false,
      domain: true,
      values: doses.map(({ dose }) => along.show(dose)),
      labelFontWeight: "bold" as const,
      labelExpr: doses.reduceRight(
        (otherwise, _, index) => `${test(index)} ? ${JSON.stringify(names[index])} : ${otherwise}`,
        "''",
      ),
      labelColor: {
        condition: marks.map(({ letters }, index) => ({ test: test(index), value: letters })),
        value: chartColours.ink,
      },
    },
  };
  const y = (field: string) => measured(field, null, { domain: valueEnds, nice: true });
  const at = (dose: number) => along.show(dose);
  const shade = (range: { from: number; to: number } | undefined, colour: string) =>
    range === undefined
      ? []
      : [
          {
            data: { values: [{ x: at(range.from), x2: at(range.to) }] },
            mark: { type: "rect" as const, color: colour },
            encoding: { x, x2: { field: "x2" } },
          },
        ];
  const all = doses.flatMap(({ dose, points = [] }) => points.map((point) => ({ ...point, dose })));
  const drawn = thinPoints(
    all,
    ({ dose }) => String(dose),
    ({ value }) => value,
    doses.length > 7 ? 300 : 600,
  );
  const trayRows = doses.map(({ dose }) => {
    const own = drawn.filter((point) => point.dose === dose);
    const values = own.map(({ value }) => up.show(value));
    const aside = asides(values, near, lanes);
    return own.map(({ tray, cook }, index) => ({
      x: at(dose) + (9 + aside[index]! * step) * perPixel,
      y: values[index]!,
      tray: visibleText(tray, 40),
      pick: `pick ${pickNames(dose, cook, tried)}`,
    }));
  });
  const means = doses.flatMap(({ dose, mean, low, high }, index) =>
    mean === undefined
      ? []
      : [
          {
            dose,
            index,
            x: at(dose),
            y: up.show(mean),
            ...(low === undefined || high === undefined ? {} : { low: up.show(low), high: up.show(high) }),
            pick: `pick ${pickNames(dose, undefined, tried)}`,
          },
        ],
  );
  const written = columnFormat(
    { label: "", unit: chart.unit },
    means.map(({ index }) => doses[index]!.mean!),
    settings,
  );
  const roomFor = Math.min(...gaps.map((gap) => gap / perPixel), 999);
  const labels = means
    .map((mean) => ({ ...mean, label: written.write(doses[mean.index]!.mean!) }))
    .filter(({ label }) => letterWidth(label, chartFontSize) + 14 + lanes * step < roomFor);
  const curve = curveLayers(chart, { x, y, at, show: up.show, first, last });
  const description = { field: "pick", type: "nominal" as const };
  const spec: TopLevelSpec = {
    ...chartFrame(place, height),
    title: up.title,
    layer: [
      ...shade(chart.notRuledOut, chartColours.shade),
      ...shade(chart.asGood, chartColours.deepShade),
      ...(valueEnds[0] < 0 && valueEnds[1] > 0
        ? [
            {
              mark: { type: "rule" as const, color: chartColours.quiet },
              data: { values: [{ y: 0 }] },
              encoding: { y: y("y") },
            },
          ]
        : []),
      ...curve,
      ...trayRows.flatMap((rows, index) =>
        rows.length === 0
          ? []
          : [
              {
                data: { values: rows },
                mark: {
                  type: "point" as const,
                  aria: true,
                  shape: marks[index]!.shape,
                  size: all.length > 200 ? 20 : 34,
                  filled: !marks[index]!.hollow,
                  strokeWidth: 1.2,
                  opacity: 1,
                  color: marks[index]!.colour,
                },
                encoding: { x, y: y("y"), description },
              },
            ],
      ),
      ...means.flatMap((mean) =>
        [
          {
            data: { values: [mean] },
            mark: { type: "rule" as const, aria: true, strokeWidth: 4, color: marks[mean.index]!.colour },
            encoding: { x, y: y("low"), y2: { field: "high" }, description },
          },
          {
            data: { values: [mean] },
            mark: {
              type: "point" as const,
              aria: true,
              filled: true,
              size: 110,
              opacity: 1,
              fill: chartColours.ground,
              stroke: marks[mean.index]!.colour,
              strokeWidth: 2.5,
            },
            encoding: { x, y: y("y"), description },
          },
        ].slice("low" in mean ? 0 : 1),
      ),
      ...labels.flatMap((label) =>
        haloed({
          align: "right" as const,
          dx: -11,
          fontWeight: "bold" as const,
          color: marks[label.index]!.letters,
        }).map((mark) => ({ data: { values: [label] }, mark, encoding: { x, y: y("y"), text: { field: "label" } } })),
      ),
      ...useLayers(chart, place, { x, at, domain }),
    ],
  };
  const range = (name: string, between: { from: number; to: number } | undefined) =>
    between === undefined ? [] : [`${name}: ${formatRange({ ...between, unit: chart.doseUnit }, settings)}.`];
  return {
    spec,
    notes: [
      ...range("Lightly shaded, not ruled out", chart.notRuledOut),
      ...range("Darker, as good", chart.asGood),
      ...thinningNote(drawn.length, all.length, "trays"),
    ],
  };
}
