import type { TopLevelSpec } from "vega-lite";
import type { WaitingChart } from "../../analysis.ts";
import { endsOf } from "../../records/ends.ts";
import { labelText } from "../visible-text.ts";
import { measured } from "./axes.ts";
import { chartColours } from "./chart-palette.ts";
import { type ChartPlace, doseNamed, markOfDose, pickNames } from "./chart-place.ts";
import { chartScale } from "./chart-scale.ts";
import { chartFontSize, chartFrame, haloed } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";
import { lineEnds } from "./line-ends.ts";
import type { Specification } from "./specification.ts";

const height = 260;

interface Line {
  group: string;
  at: ReadonlyArray<number>;
  share: ReadonlyArray<number>;
  look: ReturnType<typeof markOfDose>;
  /** the step at which half of the trays still wait, or the last one */
  half: number;
  pick: string;
}

const linesOf = (chart: WaitingChart, doses: ChartPlace["doses"]): Line[] =>
  chart.groups.map(({ group, days, share }) => {
    const half = share.findIndex((value) => value <= 0.5);
    const dose = doseNamed(group, doses);
    return {
      group,
      at: days,
      share,
      look: markOfDose(dose, doses),
      half: half < 0 ? days.length - 1 : half,
      pick: `pick ${pickNames(dose, undefined, doses)}`,
    };
  });

/** Lines that share one colour are kept apart by their dashes. */
const dashes: ReadonlyArray<number[]> = [
  [1, 0],
  [6, 3],
  [2, 2],
  [9, 3, 2, 3],
];

/** Share of trays still waiting, falling in steps as the days pass; each line is named where it reaches the foot. */
export function waitingSpecification(chart: WaitingChart, place: ChartPlace): Specification {
  const { settings, doses, width } = place;
  const everyDay = chart.groups.flatMap((group) => group.days);
  const days = chartScale(chart.timeLabel, "days", everyDay, settings);
  const shares = chartScale(
    "still waiting",
    "share",
    chart.groups.flatMap((group) => group.share),
    settings,
  );
  const [first, longest] = endsOf(everyDay);
  const lines = linesOf(chart, doses);
  // names stand in a column right of the last day, in the order in which lines reach the half
  const ends = lineEnds(
    lines.map(({ at, half }) => (at[half]! / longest) * height),
    18,
    [10, height - 40],
  );
  const room = Math.max(...lines.map(({ group }) => letterWidth(labelText(group, 22), chartFontSize))) + 26;
  const domain: [number, number] = [first, longest + (longest - first || 1) * (room / Math.max(80, width - 50 - room))];
  const x = measured("day", days.title, { domain, line: true });
  const y = { ...measured("share", null, { domain: [0, 100] }) };
  const spec: TopLevelSpec = {
    ...chartFrame(place, height),
    title: shares.title,
    layer: [
      ...lines.map(({ at, share, look, pick }, index) => ({
        data: { values: at.map((day, step) => ({ day: days.show(day), share: shares.show(share[step]!), pick })) },
        mark: {
          type: "line" as const,
          interpolate: "step-after" as const,
          strokeWidth: 2.2,
          aria: true,
          color: look.colour,
          ...(look.hollow ? { strokeDash: dashes[index % dashes.length]! } : {}),
        },
        encoding: { x, y, description: { field: "pick", type: "nominal" as const } },
      })),
      ...lines.flatMap(({ group, look }, index) =>
        ends[index] === undefined
          ? []
          : haloed({
              align: "left" as const,
              dx: 8,
              y: ends[index],
              fontWeight: "bold" as const,
              color: look.hollow ? chartColours.ink : look.letters,
            }).map((mark) => ({
              data: { values: [{ day: days.show(longest), label: labelText(group, 22) }] },
              mark,
              encoding: { x, text: { field: "label" } },
            })),
      ),
    ],
  };
  return { spec, notes: ["A line steps down on each day that trays get there; names are in the order of the lines."] };
}
