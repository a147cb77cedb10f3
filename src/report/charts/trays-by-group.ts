import type { TopLevelSpec } from "vega-lite";
import type { TraysByGroupChart } from "../../analysis.ts";
import { asHead } from "../column-format.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours, seriesColours, seriesShapes } from "./chart-palette.ts";
import { chartScale, present } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces, placeLabel, titleLines } from "./named-places.ts";
import { placesLegend, seriesMarks } from "./series-marks.ts";
import type { Specification } from "./specification.ts";
import { thinningNote, thinPoints } from "./thin-points.ts";

/** the fractional part of the golden ratio: its multiples spread evenly without a pattern */
const goldenStep = (Math.sqrt(5) - 1) / 2;
/** where the mean stands within a group's band, which runs from -0.5 to 0.5 */
const besidePoints = 0.42;

/** Sideways places of a group's points, the same on every run: neighbours in value are set apart. */
function spread(count: number): number[] {
  return Array.from({ length: count }, (_, index) => -0.42 + 0.68 * ((index * goldenStep + 0.5) % 1));
}

/** Every tray as a point, with each group's mean and interval beside them. */
export function traysByGroupSpecification(chart: TraysByGroupChart, settings: NumberSettings): Specification {
  const { groups, unit, valueLabel } = chart;
  const every = [...chart.points.map(({ value }) => value), ...groups.flatMap((g) => present(g.mean, g.low, g.high))];
  const scale = chartScale(valueLabel, unit, every, settings);
  const names = [...groups.map(({ group }) => group), ...chart.points.map(({ group }) => group)];
  const lying = new Set(names).size > 6 || names.some((name) => name.length > 12);
  const countOf = new Map(groups.map(({ group, n }) => [group, n]));
  const places = namedPlaces(names, {
    letters: lying ? 20 : 12,
    lines: lying ? 2 : 1,
    below: (name) => `n ${countOf.get(name) ?? 0}`,
  });
  const marks = seriesMarks(
    chart.points.map(({ series }) => series),
    chart.seriesLabel,
  );

  const drawn = thinPoints(
    chart.points,
    ({ group }) => group,
    ({ value }) => value,
  );
  const sideways = new Map<string, number[]>();
  for (const name of new Set(names)) sideways.set(name, spread(drawn.filter(({ group }) => group === name).length));
  const points = drawn
    .toSorted((a, b) => a.value - b.value)
    .map(({ group, value, tray, series }) => ({
      place: places.keyOf(group),
      value: scale.show(value),
      aside: sideways.get(group)!.shift()!,
      tray: visibleText(tray, 40),
      series: marks.places?.keyOf(series ?? "not stated") ?? "",
    }));
  const means = groups.map(({ group, mean, low, high }) => ({
    place: places.keyOf(group),
    aside: besidePoints,
    mean: scale.show(mean),
    ...(low === undefined || high === undefined ? {} : { low: scale.show(low), high: scale.show(high) }),
  }));

  const groupTitle = titleLines(asHead(visibleText(chart.groupLabel)));
  const band = {
    field: "place",
    type: "nominal" as const,
    scale: { domain: places.keys, paddingInner: 0.12, paddingOuter: 0.06 },
    axis: {
      labelExpr: placeLabel,
      title: lying ? null : groupTitle,
      ticks: false,
      labelPadding: 6,
    },
  };
  const aside = { field: "aside", type: "quantitative" as const, scale: { domain: [-0.5, 0.5] } };
  const at = (field: string) =>
    lying
      ? { y: band, yOffset: aside, x: measured(field, scale.title) }
      : { x: band, xOffset: aside, y: measured(field, null) };
  const seriesTitle = chart.seriesLabel === undefined ? null : asHead(visibleText(chart.seriesLabel, 40));
  const series =
    marks.places === undefined
      ? undefined
      : {
          field: "series",
          type: "nominal" as const,
          legend: placesLegend(marks.places, seriesTitle, lying ? places.widest : 0),
        };
  const domain = marks.places?.keys ?? [];
  const told =
    series === undefined
      ? { color: { value: chartColours.dot } }
      : {
          color: { ...series, scale: { domain, range: seriesColours.slice(0, domain.length) } },
          shape: { ...series, scale: { domain, range: seriesShapes.slice(0, domain.length) } },
        };
  const spec: TopLevelSpec = {
    ...chartFrame(settings, lying ? 90 + places.keys.length * (16 * places.lines + 14) : 300),
    title: lying ? groupTitle : scale.title,
    layer: [
      {
        data: { values: points },
        mark: { type: "point", filled: true, size: points.length > 200 ? 22 : 38, opacity: 0.75 },
        encoding: { ...at("value"), ...told },
      },
      {
        data: { values: means.filter(({ low }) => low !== undefined) },
        mark: { type: "rule", strokeWidth: 2.5, color: chartColours.ink },
        encoding: { ...at("low"), ...(lying ? { x2: { field: "high" } } : { y2: { field: "high" } }) },
      },
      {
        data: { values: means },
        mark: { type: "point", filled: true, shape: "diamond", size: 120, opacity: 1, color: chartColours.ink },
        encoding: at("mean"),
      },
    ],
  };
  return {
    spec,
    notes: [
      `Each mark is a ${chart.pointName ?? "tray"}; the dark diamond is the mean, its bar the interval.`,
      ...thinningNote(points.length, chart.points.length, "trays"),
      ...marks.notes,
    ],
  };
}
