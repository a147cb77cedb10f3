import type { AnswerFront, Missing } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";
import type { TemperatureLayout } from "./chamber-runs.ts";

/** What temperatures that cannot be judged wait for. */
export function temperatureMissing({ because }: Extract<TemperatureLayout, { kind: "not-judged" }>): Missing {
  if (because === "not recorded") return { kind: "record", need: "the fruiting temperature of each tray" };
  if (because === "one level")
    return { kind: "vary", need: "a second fruiting temperature, changed from cook to cook" };
  return { kind: "layout", need: "three chamber runs of each temperature, swapped between chambers" };
}

/**
 * What the front shows of temperatures compared.
 * @param pair the largest difference of the measure that is told first; @param unit of that measure
 * @param isClear whether any measure differs clearly
 */
export function temperatureFront(
  pair: { first: string; second: string; difference: number; low: number; high: number },
  measure: { label: string; unit: string },
  isClear: boolean,
  runs: number,
): AnswerFront {
  const { first, second, difference: value, low, high } = pair;
  const label = measure.unit.startsWith("money")
    ? "left of a started tray"
    : measure.unit === "days"
      ? "days to harvest"
      : "a tray";
  return differenceFront(
    { value, low, high, unit: measure.unit },
    label,
    "no change",
    isClear
      ? [
          "Temperature matters: ",
          { value: Number(second), unit: "°C" },
          " against ",
          { value: Number(first), unit: "°C" },
          ".",
        ]
      : [`No temperature is shown to do better over ${runs} chamber runs.`],
  );
}
