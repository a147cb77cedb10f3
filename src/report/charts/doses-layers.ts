import type { DosesChart } from "../../analysis.ts";
import { columnFormat } from "../column-format.ts";
import { formatQuantity } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, markOfDose, pickNames } from "./chart-place.ts";
import { chartFontSize, haloed } from "./chart-theme.ts";
import { type DosesAxes, type DosesInOrder, laneStep } from "./doses-axes.ts";
import { letterWidth } from "./letter-width.ts";

/** A tray as it is drawn, at its dose. */
export type TrayAtDose = NonNullable<DosesInOrder[number]["points"]>[number] & { dose: number };

const description = { field: "pick", type: "nominal" as const };

/** A shaded stretch of doses. */
export function shadeLayers(range: { from: number; to: number } | undefined, colour: string, { at, x }: DosesAxes) {
  if (range === undefined) return [];
  return [
    {
      data: { values: [{ x: at(range.from), x2: at(range.to) }] },
      mark: { type: "rect" as const, color: colour },
      encoding: { x, x2: { field: "x2" } },
    },
  ];
}

/** The line of nothing gained, where values have both signs. */
export function zeroLayers({ valueEnds, y }: DosesAxes) {
  if (valueEnds[0] >= 0 || valueEnds[1] <= 0) return [];
  return [
    {
      mark: { type: "rule" as const, color: chartColours.quiet },
      data: { values: [{ y: 0 }] },
      encoding: { y: y("y") },
    },
  ];
}

/** The dose to use, named at the top beside its line. */
export function useLayers({ use, doseUnit }: DosesChart, { settings }: ChartPlace, { x, at, domain }: DosesAxes) {
  if (use === undefined) return [];
  const leftward = at(use) > (domain[0] + domain[1]) / 2;
  const data = { values: [{ x: at(use), label: `use ${formatQuantity({ value: use, unit: doseUnit }, settings)}` }] };
  return [
    { data, mark: { type: "rule" as const, color: chartColours.ink, strokeDash: [3, 3] }, encoding: { x } },
    ...haloed({
      align: leftward ? ("right" as const) : ("left" as const),
      dx: leftward ? -6 : 6,
      y: 2,
      baseline: "top" as const,
      fontWeight: "bold" as const,
    }).map((mark) => ({ data, mark, encoding: { x, text: { field: "label" } } })),
  ];
}

/** The curve with its band; dashed where nothing was tried. */
export function curveLayers({ curve }: DosesChart, { x, y, at, up, triedEnds: [first, last] }: DosesAxes) {
  if (curve === undefined) return [];
  const rows = curve.x.map((dose, index) => ({
    dose,
    x: at(dose),
    y: up.show(curve.y[index]!),
    ...(curve.low === undefined || curve.high === undefined
      ? {}
      : { low: up.show(curve.low[index]!), high: up.show(curve.high[index]!) }),
  }));
  const part = (wanted: (dose: number) => boolean, dashed: boolean) => ({
    data: { values: rows.filter(({ dose }) => wanted(dose)) },
    mark: {
      type: "line" as const,
      color: chartColours.ink,
      strokeWidth: 2,
      ...(dashed ? { strokeDash: [4, 3] } : {}),
    },
    encoding: { x, y: y("y") },
  });
  const edge = 1e-9;
  return [
    ...(rows.some((row) => "low" in row)
      ? [
          {
            data: { values: rows },
            mark: { type: "area" as const, color: chartColours.range, opacity: 0.22 },
            encoding: { x, y: y("low"), y2: { field: "high" } },
          },
        ]
      : []),
    part((dose) => dose >= first - edge && dose <= last + edge, false),
    ...(rows.some(({ dose }) => dose < first - edge) ? [part((dose) => dose <= first + edge, true)] : []),
    ...(rows.some(({ dose }) => dose > last + edge) ? [part((dose) => dose >= last - edge, true)] : []),
  ];
}

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

/** Trays to the right of their dose. @param count of all trays, those left out of the drawing among them */
export function trayLayers(
  doses: DosesInOrder,
  drawn: ReadonlyArray<TrayAtDose>,
  count: number,
  { doses: tried }: ChartPlace,
  { x, y, at, up, near, lanes, perPixel }: DosesAxes,
) {
  return doses.flatMap(({ dose }) => {
    const own = drawn.filter((point) => point.dose === dose);
    if (own.length === 0) return [];
    const values = own.map(({ value }) => up.show(value));
    const aside = asides(values, near, lanes);
    const rows = own.map(({ tray, cook }, index) => ({
      x: at(dose) + (9 + aside[index]! * laneStep) * perPixel,
      y: values[index]!,
      tray: visibleText(tray, 40),
      pick: `pick ${pickNames(dose, cook, tried)}`,
    }));
    const { shape, hollow, colour } = markOfDose(dose, tried);
    const look = { shape, filled: !hollow, size: count > 200 ? 20 : 34, strokeWidth: 1.2, opacity: 1, color: colour };
    return [
      {
        data: { values: rows },
        mark: { type: "point" as const, aria: true, ...look },
        encoding: { x, y: y("y"), description },
      },
    ];
  });
}

/** Each dose's mean as a ring, with its range. */
export function meanLayers(doses: DosesInOrder, { doses: tried }: ChartPlace, { x, y, at, up }: DosesAxes) {
  return doses.flatMap(({ dose, mean, low, high }, index) => {
    if (mean === undefined) return [];
    const { colour } = markOfDose(dose, tried);
    const row = { dose, index, x: at(dose), y: up.show(mean), pick: `pick ${pickNames(dose, undefined, tried)}` };
    const isRanged = low !== undefined && high !== undefined;
    const data = { values: [isRanged ? { ...row, low: up.show(low), high: up.show(high) } : row] };
    const ring = { filled: true, size: 110, opacity: 1, fill: chartColours.ground, stroke: colour, strokeWidth: 2.5 };
    return [
      {
        data,
        mark: { type: "rule" as const, aria: true, strokeWidth: 4, color: colour },
        encoding: { x, y: y("low"), y2: { field: "high" }, description },
      },
      { data, mark: { type: "point" as const, aria: true, ...ring }, encoding: { x, y: y("y"), description } },
    ].slice(isRanged ? 0 : 1);
  });
}

/** Each mean in letters on its left, where there is room for it. */
export function meanLabelLayers(
  { unit }: DosesChart,
  doses: DosesInOrder,
  { settings, doses: tried }: ChartPlace,
  { x, y, at, up, lanes, room }: DosesAxes,
) {
  const means = doses.flatMap(({ dose, mean }) => (mean === undefined ? [] : [{ dose, mean }]));
  const written = columnFormat(
    { label: "", unit },
    means.map(({ mean }) => mean),
    settings,
  );
  return means
    .map(({ dose, mean }) => ({ dose, x: at(dose), y: up.show(mean), label: written.write(mean) }))
    .filter(({ label }) => letterWidth(label, chartFontSize) + 14 + lanes * laneStep < room)
    .flatMap((row) =>
      haloed({
        align: "right" as const,
        dx: -11,
        fontWeight: "bold" as const,
        color: markOfDose(row.dose, tried).letters,
      }).map((mark) => ({ data: { values: [row] }, mark, encoding: { x, y: y("y"), text: { field: "label" } } })),
    );
}
