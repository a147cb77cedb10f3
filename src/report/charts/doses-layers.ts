import type { DosesChart } from "../../analysis.ts";
import { formatQuantity } from "../format-quantity.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { haloed } from "./chart-theme.ts";

/** The dose to use, named at the top beside its line. */
export function useLayers(
  { use, doseUnit }: DosesChart,
  { settings }: ChartPlace,
  { x, at, domain }: { x: object; at(dose: number): number; domain: [number, number] },
) {
  if (use === undefined) return [];
  const leftward = at(use) > (domain[0] + domain[1]) / 2;
  const data = { values: [{ x: at(use), label: `use ${formatQuantity({ value: use, unit: doseUnit }, settings)}` }] };
  const encoding = { x: x as { field: string; type: "quantitative" } };
  return [
    { data, mark: { type: "rule" as const, color: chartColours.ink, strokeDash: [3, 3] }, encoding },
    ...haloed({
      align: leftward ? ("right" as const) : ("left" as const),
      dx: leftward ? -6 : 6,
      y: 2,
      baseline: "top" as const,
      fontWeight: "bold" as const,
    }).map((mark) => ({ data, mark, encoding: { ...encoding, text: { field: "label" } } })),
  ];
}

/** The curve with its band; dashed where nothing was tried. */
export function curveLayers(
  { curve }: DosesChart,
  {
    x,
    y,
    at,
    show,
    first,
    last,
  }: {
    x: object;
    y(field: string): object;
    at(dose: number): number;
    show(value: number): number;
    first: number;
    last: number;
  },
) {
  if (curve === undefined) return [];
  const rows = curve.x.map((dose, index) => ({
    dose,
    x: at(dose),
    y: show(curve.y[index]!),
    ...(curve.low === undefined || curve.high === undefined
      ? {}
      : { low: show(curve.low[index]!), high: show(curve.high[index]!) }),
  }));
  const xOf = x as { field: string; type: "quantitative" };
  const yOf = (field: string) => y(field) as { field: string; type: "quantitative" };
  const part = (wanted: (dose: number) => boolean, dashed: boolean) => ({
    data: { values: rows.filter(({ dose }) => wanted(dose)) },
    mark: {
      type: "line" as const,
      color: chartColours.ink,
      strokeWidth: 2,
      ...(dashed ? { strokeDash: [4, 3] } : {}),
    },
    encoding: { x: xOf, y: yOf("y") },
  });
  const edge = 1e-9;
  return [
    ...(rows.some((row) => "low" in row)
      ? [
          {
            data: { values: rows },
            mark: { type: "area" as const, color: chartColours.range, opacity: 0.22 },
            encoding: { x: xOf, y: yOf("low"), y2: { field: "high" } },
          },
        ]
      : []),
    part((dose) => dose >= first - edge && dose <= last + edge, false),
    ...(rows.some(({ dose }) => dose < first - edge) ? [part((dose) => dose <= first + edge, true)] : []),
    ...(rows.some(({ dose }) => dose > last + edge) ? [part((dose) => dose >= last - edge, true)] : []),
  ];
}
