import type { Chart } from "../../src/analysis.ts";
import type { LossAlarm } from "./loss-alarm.ts";

/** Share lost of each cook in time order, with the share from which a cook is an alarm; undefined for fewer than two cooks. */
export function cookLossChart(alarm: LossAlarm | undefined): Extract<Chart, { kind: "control-chart" }> | undefined {
  if (alarm === undefined || alarm.lots.length < 2) return undefined;
  const { lots, lotName, dated } = alarm;
  const sum = (of: (lot: LossAlarm["lots"][number]) => number) => lots.reduce((total, lot) => total + of(lot), 0);
  const centre = sum(({ lost }) => lost) / sum(({ trays }) => trays);
  const isAlarm = ({ lost, alarmFrom }: LossAlarm["lots"][number]) => alarmFrom !== undefined && lost >= alarmFrom;
  const named = lots.filter(isAlarm).map(({ name }) => name);
  return {
    kind: "control-chart",
    title: `Share of trays lost, ${lotName} by ${lotName}`,
    description:
      named.length === 0
        ? `No ${lotName} reaches its limit.`
        : `At or beyond the limit: ${named.slice(0, 10).join(", ")}.`,
    unit: "share",
    valueLabel: "lost, of started trays",
    orderLabel: `${lotName}, ${dated ? "in order of inoculation" : "in the order of the sheets"}`,
    points: lots.map((lot, index) => ({
      order: index + 1,
      label: lot.name,
      value: lot.lost / lot.trays,
      centre,
      ...(lot.alarmFrom === undefined ? {} : { upper: lot.alarmFrom / lot.trays }),
      ...(isAlarm(lot) ? { signal: "more lost than usual" } : {}),
    })),
  };
}
