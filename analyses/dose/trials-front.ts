import type { AnswerFront } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";

/** Whether trials differ: perhaps, where they would but for the other tests of the report. */
export type Differ = "yes" | "perhaps" | "no";

/**
 * What the front shows of trials together: the summary of what dose does, and whether they agree.
 * @param summary the effect over all trials with its range, in `unit`; @param allowed whether that allows for trials that differ
 */
export function trialsFront(
  summary: { value: number; low: number; high: number },
  unit: string,
  trials: number,
  sameWay: boolean,
  differ: Differ,
  allowed: boolean,
): AnswerFront {
  const many = trials === 2 ? "The two trials" : `The ${trials} trials`;
  return differenceFront({ ...summary, unit }, allowed ? "over all trials" : "if the same in all trials", "no gain", [
    differ !== "no"
      ? `${many} ${differ === "yes" ? "differ" : "may differ"} by more than chance${sameWay ? ", though they point the same way" : ""}.`
      : sameWay
        ? `${many} point the same way, and differ by no more than chance.`
        : `${many} do not point the same way, but differ by no more than chance.`,
  ]);
}
