import type { TopLevelSpec } from "vega-lite";
import type { WaitingChart } from "../../analysis.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { seriesColours, seriesDashes } from "./chart-palette.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFrame } from "./chart-theme.ts";
import { namedPlaces } from "./named-places.ts";
import { placesLegend } from "./series-marks.ts";
import type { Specification } from "./specification.ts";

/** Share of trays still waiting, falling in steps as the days pass. */
export function waitingSpecification(chart: WaitingChart, settings: NumberSettings): Specification {
  const days = chartScale(
    chart.timeLabel,
    "days",
    chart.groups.flatMap((group) => group.days),
    settings,
  );
  const shares = chartScale(
    "Still waiting",
    "share",
    chart.groups.flatMap((group) => group.share),
    settings,
  );
  const names = namedPlaces(
    chart.groups.map(({ group }) => group),
    { letters: 26, lines: 1 },
  );
  const cycle = <Item>(items: ReadonlyArray<Item>) => names.keys.map((_, index) => items[index % items.length]!);
  const legend = placesLegend(names, null);
  const spec: TopLevelSpec = {
    ...chartFrame(settings, 280),
    title: shares.title,
    data: {
      values: chart.groups.flatMap(({ group, days: at, share }) =>
        at.map((day, index) => ({
          group: names.keyOf(group),
          day: days.show(day),
          share: shares.show(share[index]!),
        })),
      ),
    },
    mark: { type: "line", interpolate: "step-after", strokeWidth: 2.2 },
    encoding: {
      x: {
        field: "day",
        type: "quantitative",
        axis: { title: days.title, grid: false, domain: true },
      },
      y: { field: "share", type: "quantitative", scale: { domain: [0, 100] }, axis: { title: null } },
      color: { field: "group", type: "nominal", scale: { domain: names.keys, range: cycle(seriesColours) }, legend },
      strokeDash: {
        field: "group",
        type: "nominal",
        scale: { domain: names.keys, range: cycle(seriesDashes) },
        legend,
      },
    },
  };
  return { spec, notes: ["A line steps down on each day that trays get there."] };
}
