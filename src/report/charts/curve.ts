import type { CurveChart } from "../../analysis.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import type { Specification } from "./specification.ts";

const height = 290;

/** What changes with an amount, as a line. */
export function curveSpecification(chart: CurveChart, place: ChartPlace): Specification {
  const { settings, width } = place;
  const along = chartScale(chart.xLabel, chart.xUnit, chart.x, settings);
  const up = chartScale(chart.yLabel, chart.yUnit, chart.y, settings);
  const shownX = chart.x.map(along.show);
  const [least, most] = [Math.min(...shownX), Math.max(...shownX)];
  const margin = (12 * (most - least || 1)) / Math.max(100, width - 60);
  const x = measured("x", along.title, { line: true, domain: [least - margin, most + margin] });
  return {
    spec: {
      ...chartFrame(place, height),
      title: up.title,
      data: { values: shownX.map((value, index) => ({ x: value, y: up.show(chart.y[index]!) })) },
      mark: { type: "line", strokeWidth: 2, color: chartColours.ink },
      encoding: { x, y: measured("y", null) },
    },
    notes: [],
  };
}
