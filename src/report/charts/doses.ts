import type { TopLevelSpec } from "vega-lite";
import type { DosesChart } from "../../analysis.ts";
import { formatRange } from "../format-quantity.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartFrame } from "./chart-theme.ts";
import { dosesAxes } from "./doses-axes.ts";
import {
  curveLayers,
  meanLabelLayers,
  meanLayers,
  shadeLayers,
  type TrayAtDose,
  trayLayers,
  useLayers,
  zeroLayers,
} from "./doses-layers.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

/** What the picture's shades mean, and how many trays are not drawn. */
function notesOf(chart: DosesChart, { settings }: ChartPlace, drawn: number, count: number): string[] {
  const range = (name: string, between: { from: number; to: number } | undefined) =>
    between === undefined ? [] : [`${name}: ${formatRange({ ...between, unit: chart.doseUnit }, settings)}.`];
  return [
    ...range("Lightly shaded, not ruled out", chart.notRuledOut),
    ...range("Darker, as good", chart.asGood),
    ...thinningNote(drawn, count, settings),
  ];
}

/** Trays, means with ranges, the curve with its band and what was lost, over the doses tried. */
export function dosesSpecification(chart: DosesChart, place: ChartPlace): Specification {
  const doses = chart.doses.toSorted((a, b) => a.dose - b.dose);
  const axes = dosesAxes(chart, doses, place);
  const all = doses.flatMap(({ dose, points = [] }): TrayAtDose[] => points.map((point) => ({ ...point, dose })));
  const drawn = thinPoints(
    all,
    ({ dose }) => String(dose),
    ({ value }) => value,
    doses.length > 7 ? 300 : 600,
  );
  const spec: TopLevelSpec = {
    ...chartFrame(place, axes.height),
    title: axes.up.title,
    layer: [
      ...shadeLayers(chart.notRuledOut, chartColours.shade, axes),
      ...shadeLayers(chart.asGood, chartColours.deepShade, axes),
      ...zeroLayers(axes),
      ...curveLayers(chart, axes),
      ...trayLayers(doses, drawn, all.length, place, axes),
      ...meanLayers(doses, place, axes),
      ...meanLabelLayers(chart, doses, place, axes),
      ...useLayers(chart, place, axes),
    ],
  };
  return { spec, notes: notesOf(chart, place, drawn.length, all.length) };
}
