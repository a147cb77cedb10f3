import type { TopLevelSpec } from "vega-lite";
import type { SurfaceChart } from "../../analysis.ts";
import { formatRange } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours, tints } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
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

/** A response over two amounts: bands from pale (least) to deep (most), the pairs tried as rings, the best as a diamond. */
export function surfaceSpecification(chart: SurfaceChart, place: ChartPlace): Specification {
  const { settings } = place;
  const { x, y, values, tried, marks = [] } = chart;
  if (x.length < 2 || y.length < 2) throw new RangeError("surfaceSpecification: needs two places or more each way");
  const [stepX, stepY] = [(x[1]! - x[0]!) / 2, (y[1]! - y[0]!) / 2];
  const edges = (middles: ReadonlyArray<number>, step: number) => [middles[0]! - step, middles.at(-1)! + step];
  const along = chartScale(chart.xLabel, chart.xUnit, [...edges(x, stepX), ...tried.map((pair) => pair.x)], settings);
  const up = chartScale(chart.yLabel, chart.yUnit, [...edges(y, stepY), ...tried.map((pair) => pair.y)], settings);
  const bands = bandsOf(values.flat());
  const names = bands.map((band) => formatRange({ ...band, unit: chart.unit }, settings));
  const places = namedPlaces(names, { letters: 26, lines: 1 });
  const bandOf = (value: number): string =>
    places.keyOf(names[bands.findIndex(({ to }, index) => value < to || index === bands.length - 1)]!);
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
      open = {
        x: along.show(x[place]! - stepX),
        x2: right,
        y: up.show(y[line]! - stepY),
        y2: up.show(y[line]! + stepY),
        band,
      };
      cells.push(open);
    });
  });
  const xOf = measured("x", along.title, { line: true, inset: 8 });
  const yOf = measured("y", null, { line: true, inset: 8 });
  const centre = along.show((x[0]! + x.at(-1)!) / 2);
  const named = marks.map((mark) => ({
    x: along.show(mark.x),
    y: up.show(mark.y),
    label: labelText(mark.label, 40),
    leftward: along.show(mark.x) > centre,
  }));
  const scale = { domain: places.keys, range: places.keys.map((_, band) => tints[band]!) };
  const spec: TopLevelSpec = {
    ...chartFrame(place, 320),
    title: up.title,
    layer: [
      {
        data: { values: cells },
        mark: { type: "rect", opacity: 1, strokeWidth: 0.8 },
        encoding: {
          x: xOf,
          x2: { field: "x2" },
          y: yOf,
          y2: { field: "y2" },
          // an edge in the cell's own colour closes the seams between cells
          stroke: { field: "band", type: "nominal", scale, legend: null },
          color: {
            field: "band",
            type: "nominal",
            scale,
            legend: null,
          },
        },
      },
      {
        data: { values: tried.map((pair) => ({ x: along.show(pair.x), y: up.show(pair.y) })) },
        mark: {
          type: "point",
          shape: "circle",
          filled: true,
          size: 42,
          opacity: 1,
          stroke: chartColours.ink,
          strokeWidth: 1.4,
          fill: chartColours.ground,
        },
        encoding: { x: xOf, y: yOf },
      },
      {
        data: { values: named },
        mark: {
          type: "point",
          shape: "diamond",
          filled: true,
          size: 130,
          opacity: 1,
          fill: chartColours.ink,
          stroke: chartColours.ground,
          strokeWidth: 1.5,
        },
        encoding: { x: xOf, y: yOf },
      },
      ...[chartColours.ground, chartColours.ink].flatMap((colour) =>
        named.map((mark) => ({
          data: { values: [mark] },
          mark: {
            type: "text" as const,
            align: mark.leftward ? ("right" as const) : ("left" as const),
            dx: mark.leftward ? -12 : 12,
            color: colour,
            ...(colour === chartColours.ground ? { stroke: colour, strokeWidth: 5 } : {}),
          },
          encoding: { x: xOf, y: yOf, text: { field: "label" } },
        })),
      ),
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
