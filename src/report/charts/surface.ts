import type { TopLevelSpec } from "vega-lite";
import type { SurfaceChart } from "../../analysis.ts";
import { formatRange } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours, tints } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { type ChartScale, chartScale } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces } from "./named-places.ts";
import type { Specification } from "./specification.ts";

interface Cell {
  x: number;
  x2: number;
  y: number;
  y2: number;
  band: string;
}

/** Even bands from the least to the most value; one band where all are alike. */
function bandsOf(values: ReadonlyArray<number>): { from: number; to: number }[] {
  const least = values.reduce((a, b) => Math.min(a, b));
  const most = values.reduce((a, b) => Math.max(a, b));
  const count = most > least ? tints.length : 1;
  return Array.from({ length: count }, (_, band) => ({
    from: least + ((most - least) * band) / count,
    to: least + ((most - least) * (band + 1)) / count,
  }));
}

/** The surface as cells: neighbours of one band along a line are one cell. */
function cellsOf(chart: SurfaceChart, along: ChartScale, up: ChartScale, bandOf: (value: number) => string): Cell[] {
  const { x, y, values } = chart;
  const [stepX, stepY] = [(x[1]! - x[0]!) / 2, (y[1]! - y[0]!) / 2];
  const cells: Cell[] = [];
  values.forEach((row, line) => {
    let open: Cell | undefined;
    row.forEach((value, place) => {
      const band = bandOf(value);
      const right = along.show(x[place]! + stepX);
      if (open?.band === band) {
        open.x2 = right;
        return;
      }
      const [bottom, top] = [up.show(y[line]! - stepY), up.show(y[line]! + stepY)];
      open = { x: along.show(x[place]! - stepX), x2: right, y: bottom, y2: top, band };
      cells.push(open);
    });
  });
  return cells;
}

type Axis = ReturnType<typeof measured>;

/** The bands; an edge in the cell's own colour closes the seams between cells. */
function bandLayer(cells: Cell[], keys: string[], x: Axis, y: Axis) {
  const scale = { domain: keys, range: keys.map((_, band) => tints[band]!) };
  const colour = { field: "band", type: "nominal" as const, scale, legend: null };
  return {
    data: { values: cells },
    mark: { type: "rect" as const, opacity: 1, strokeWidth: 0.8 },
    encoding: { x, x2: { field: "x2" }, y, y2: { field: "y2" }, stroke: colour, color: colour },
  };
}

interface NamedMark {
  x: number;
  y: number;
  label: string;
  leftward: boolean;
}

/** Pairs tried as rings, named places as diamonds, and their names beside them. */
function markLayers(tried: { x: number; y: number }[], named: NamedMark[], x: Axis, y: Axis) {
  const { ink, ground } = chartColours;
  const point = { type: "point" as const, filled: true, opacity: 1 };
  return [
    {
      data: { values: tried },
      mark: { ...point, shape: "circle", size: 42, stroke: ink, strokeWidth: 1.4, fill: ground },
      encoding: { x, y },
    },
    {
      data: { values: named },
      mark: { ...point, shape: "diamond", size: 130, fill: ink, stroke: ground, strokeWidth: 1.5 },
      encoding: { x, y },
    },
    ...[ground, ink].flatMap((colour) =>
      named.map((mark) => ({
        data: { values: [mark] },
        mark: {
          type: "text" as const,
          align: mark.leftward ? ("right" as const) : ("left" as const),
          dx: mark.leftward ? -12 : 12,
          color: colour,
          ...(colour === ground ? { stroke: colour, strokeWidth: 5 } : {}),
        },
        encoding: { x, y, text: { field: "label" } },
      })),
    ),
  ];
}

/** A response over two amounts: bands from pale (least) to deep (most), the pairs tried as rings, the best as a diamond. */
export function surfaceSpecification(chart: SurfaceChart, place: ChartPlace): Specification {
  const { settings } = place;
  const { x, y, values, tried, marks = [] } = chart;
  if (x.length < 2 || y.length < 2) throw new RangeError("surfaceSpecification: needs two places or more each way");
  const edges = (middles: ReadonlyArray<number>) => {
    const step = (middles[1]! - middles[0]!) / 2;
    return [middles[0]! - step, middles.at(-1)! + step];
  };
  const along = chartScale(chart.xLabel, chart.xUnit, [...edges(x), ...tried.map((pair) => pair.x)], settings);
  const up = chartScale(chart.yLabel, chart.yUnit, [...edges(y), ...tried.map((pair) => pair.y)], settings);
  const bands = bandsOf(values.flat());
  const names = bands.map((band) => formatRange({ ...band, unit: chart.unit }, settings));
  const places = namedPlaces(names, { letters: 26, lines: 1 });
  const bandOf = (value: number): string =>
    places.keyOf(names[bands.findIndex(({ to }, index) => value < to || index === bands.length - 1)]!);
  const xOf = measured("x", along.title, { line: true, inset: 8 });
  const yOf = measured("y", null, { line: true, inset: 8 });
  const centre = along.show((x[0]! + x.at(-1)!) / 2);
  const shown = (pair: { x: number; y: number }) => ({ x: along.show(pair.x), y: up.show(pair.y) });
  const named = marks.map((mark): NamedMark => {
    const at = shown(mark);
    return { ...at, label: labelText(mark.label, 40), leftward: at.x > centre };
  });
  const spec: TopLevelSpec = {
    ...chartFrame(place, 320),
    title: up.title,
    layer: [
      bandLayer(cellsOf(chart, along, up, bandOf), places.keys, xOf, yOf),
      ...markLayers(tried.map(shown), named, xOf, yOf),
    ],
  };
  return {
    spec,
    notes: [
      `Palest: ${visibleText(chart.valueLabel)} ${names[0]}; darkest: ${names.at(-1)}.`,
      `Rings: the ${tried.length} pairs of amounts that trays had (${tried.reduce((sum, { trays }) => sum + trays, 0)} trays). Away from them the surface is the curve's guess.`,
    ],
  };
}
