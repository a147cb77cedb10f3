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

/** What a mark takes from its row as it stands there: one layer draws the marks of all doses, which is quicker than one each. */
const own = (field: string) => ({ field, type: "nominal" as const, scale: null });

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
  const rows = doses.flatMap(({ dose }) => {
    const trays = drawn.filter((point) => point.dose === dose);
    const values = trays.map(({ value }) => up.show(value));
    const aside = asides(values, near, lanes);
    const { shape, hollow, colour } = markOfDose(dose, tried);
    const look = hollow ? { shape, fill: "transparent", stroke: colour } : { shape, fill: colour };
    return trays.map(({ tray, cook }, index) => ({
      x: at(dose) + (9 + aside[index]! * laneStep) * perPixel,
      y: values[index]!,
      tray: visibleText(tray, 40),
      pick: `pick ${pickNames(dose, cook, tried)}`,
      ...look,
    }));
  });
  if (rows.length === 0) return [];
  return [
    {
      data: { values: rows },
      mark: { type: "point" as const, aria: true, size: count > 200 ? 20 : 34, strokeWidth: 1.2, opacity: 1 },
      encoding: { x, y: y("y"), shape: own("shape"), fill: own("fill"), stroke: own("stroke"), description },
    },
  ];
}

/** Each dose's mean as a ring, with its range. */
export function meanLayers(doses: DosesInOrder, { doses: tried }: ChartPlace, { x, y, at, up }: DosesAxes) {
  const rows = doses.flatMap(({ dose, mean, low, high }) => {
    if (mean === undefined) return [];
    const pick = `pick ${pickNames(dose, undefined, tried)}`;
    const row = { x: at(dose), y: up.show(mean), colour: markOfDose(dose, tried).colour, pick };
    return [low === undefined || high === undefined ? row : { ...row, low: up.show(low), high: up.show(high) }];
  });
  const ranged = rows.filter((row) => "low" in row);
  const ring = { filled: true, size: 110, opacity: 1, fill: chartColours.ground, strokeWidth: 2.5 };
  return [
    {
      data: { values: ranged },
      mark: { type: "rule" as const, aria: true, strokeWidth: 4 },
      encoding: { x, y: y("low"), y2: { field: "high" }, stroke: own("colour"), description },
    },
    {
      data: { values: rows },
      mark: { type: "point" as const, aria: true, ...ring },
      encoding: { x, y: y("y"), stroke: own("colour"), description },
    },
  ].filter(({ data }) => data.values.length > 0);
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
  const rows = means
    .map(({ dose, mean }) => ({
      x: at(dose),
      y: up.show(mean),
      label: written.write(mean),
      colour: markOfDose(dose, tried).letters,
    }))
    .filter(({ label }) => letterWidth(label, chartFontSize) + 14 + lanes * laneStep < room);
  if (rows.length === 0) return [];
  return haloed({ align: "right" as const, dx: -11, fontWeight: "bold" as const }).map((mark) => ({
    data: { values: rows },
    mark,
    encoding: {
      x,
      y: y("y"),
      text: { field: "label" },
      ...("stroke" in mark ? {} : { color: own("colour") }),
    },
  }));
}
