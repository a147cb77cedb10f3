import type { Chart } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { proportionChart } from "../../src/statistics/control/proportion-chart.ts";
import type { LotsInOrder } from "../comparison/cooks-in-order.ts";
import { isFinished, isLost } from "../comparison/tray-response.ts";

/** Lost and finished trays of each cook in time order; undefined for fewer than two cooks. */
export function cookLossChart({
  lots,
  lotName,
  dated,
}: LotsInOrder): Extract<Chart, { kind: "control-chart" }> | undefined {
  const finished = lots
    .map(({ name, trays }) => ({ name, trays: trays.filter(isFinished) }))
    .filter(({ trays }) => trays.length > 0);
  if (finished.length < 2) return undefined;
  const sizes = finished.map(({ trays }) => startedCount(trays));
  const lost = finished.map(({ trays }) => startedCount(trays.filter(isLost)));
  const { centre, points } = proportionChart(lost, sizes);
  const outside = finished.filter((_, index) => points[index]!.outside).map(({ name }) => name);
  return {
    kind: "control-chart",
    title: `Share of trays lost, ${lotName} by ${lotName}`,
    description:
      outside.length === 0
        ? `No ${lotName} lies outside its limits.`
        : `Outside its limits: ${outside.slice(0, 10).join(", ")}.`,
    unit: "share",
    valueLabel: "lost, of finished trays",
    orderLabel: `${lotName}, ${dated ? "in order of inoculation" : "in the order of the sheets"}`,
    points: finished.map(({ name }, index) => ({
      order: index + 1,
      label: name,
      value: points[index]!.proportion,
      centre,
      lower: points[index]!.lower,
      upper: points[index]!.upper,
      ...(points[index]!.outside ? { signal: "beyond three standard errors" } : {}),
    })),
  };
}
