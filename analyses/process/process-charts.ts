import type { Chart, Table } from "../../src/analysis.ts";
import type { Lot, LotsInOrder } from "../comparison/cooks-in-order.ts";
import { type ChangeLog, changeText } from "./cook-differences.ts";
import type { ProcessMeasure } from "./process-measures.ts";
import type { Steadiness } from "./steadiness.ts";

/** The chart of single cooks and, where asked, that of the moving average. */
export function measureCharts(
  measure: ProcessMeasure,
  watch: Steadiness,
  order: LotsInOrder,
  withAverages: boolean,
): Chart[] {
  const { response, lots } = measure;
  const orderLabel = `${order.lotName}, ${order.dated ? "in order of inoculation" : "in the order of the sheets"}`;
  const { chart, signals } = watch;
  const marked = lots.filter((_, index) => signals.has(index)).map(({ lot }) => lot.name);
  const single: Chart = {
    kind: "control-chart",
    title: `${titleOf(measure)}, ${order.lotName} by ${order.lotName}`,
    description: marked.length === 0 ? "No signal." : `Signals at ${marked.slice(0, 10).join(", ")}.`,
    unit: response.unit,
    valueLabel: `mean ${response.label}`,
    orderLabel,
    points: lots.map(({ lot, value }, index) => ({
      order: index + 1,
      label: lot.name,
      value,
      centre: chart.centre,
      lower: chart.lower,
      upper: chart.upper,
      ...(signals.has(index) ? { signal: signals.get(index)! } : {}),
    })),
  };
  if (!withAverages) return [single];
  return [single, stepChart(measure, watch, order, orderLabel), averageChart(measure, watch, orderLabel)];
}

const titleOf = ({ response }: ProcessMeasure): string =>
  `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)}`;

function stepChart(
  measure: ProcessMeasure,
  { chart }: Steadiness,
  { lotName }: LotsInOrder,
  orderLabel: string,
): Chart {
  return {
    kind: "control-chart",
    title: `${titleOf(measure)}: step from the ${lotName} before`,
    description: `Each point is how far a ${lotName} lies from the one before, either way (moving range).`,
    unit: measure.response.unit,
    valueLabel: `moving range of ${measure.response.label}`,
    orderLabel,
    points: chart.movingRanges.map((step, index) => ({
      order: index + 2,
      label: measure.lots[index + 1]!.lot.name,
      value: step,
      centre: chart.meanMovingRange,
      upper: chart.movingRangeUpper,
      ...(step > chart.movingRangeUpper ? { signal: "step beyond its limit" } : {}),
    })),
  };
}

function averageChart(measure: ProcessMeasure, { chart, averages }: Steadiness, orderLabel: string): Chart {
  return {
    kind: "control-chart",
    title: `${titleOf(measure)}: weighted moving average`,
    description:
      "Each point weighs the newest cook by a fifth and the average before by four fifths; lasting shifts show here first.",
    unit: measure.response.unit,
    valueLabel: `moving average of ${measure.response.label}`,
    orderLabel,
    points: measure.lots.map(({ lot }, index) => {
      const { average, lower, upper, outside } = averages[index]!;
      return {
        order: index + 1,
        label: lot.name,
        value: average,
        centre: chart.centre,
        lower,
        upper,
        ...(outside ? { signal: "moving average beyond its limits" } : {}),
      };
    }),
  };
}

/** Every signal with what was new in its cook. */
export function signalTable(
  rows: { measure: ProcessMeasure; watch: Steadiness }[],
  changes: ChangeLog,
  lots: ReadonlyArray<Lot>,
): Table {
  return {
    caption: "Signals on the charts, and what was new in that cook",
    columns: [
      { label: "Measure" },
      { label: "cook" },
      { label: "inoculated" },
      { label: "signal" },
      { label: "new against the cook before" },
    ],
    rows: rows.flatMap(({ measure, watch }) =>
      [...watch.signals]
        .sort(([a], [b]) => a - b)
        .slice(0, 20)
        .map(([at, rule]) => {
          const { lot } = measure.lots[at]!;
          const news = changes.at(lots.indexOf(lot)).map(changeText).join("; ");
          return [measure.response.label, lot.name, lot.startedOn ?? null, rule, news || "nothing recorded"];
        }),
    ),
    note: "A signal on a chart is a reason to look. Whether a change is shown is judged by the p of each measure, which allows for the number of cooks.",
  };
}
