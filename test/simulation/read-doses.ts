import { type TrayResponse, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { decideTreatment, thingsOf } from "../../analyses/treatment/treatment-decision.ts";
import type { Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { pooledDifference } from "./pooled-difference.ts";
import { holds, plainReading, type Reading, toldNothing } from "./reading.ts";

/** A result of a tray, which way is good, and what it really is at a dose. */
export interface Asked {
  response: TrayResponse;
  better: "higher" | "lower";
  truly(doseMillilitres: number): number;
}

/** What the verdict rules say of the doses of one book. */
export function readDoses(trial: Trial, { response, better, truly }: Asked): Reading {
  const thing = thingsOf(trial).find(({ factor }) => factor === doseFactor);
  if (thing === undefined) return toldNothing;
  const isStarted = response.label.includes("started");
  const of = decideTreatment(trial, thing, {
    response: isStarted ? yieldPerGoodTray("dry") : response,
    better,
    withLost: response.unit === "g",
    ...(response.unit === "g" ? {} : { suppositions: { traySd: 1.4, gainSd: 1.1 } }),
  });
  const decision = isStarted ? of?.started() : of?.decision;
  if (decision?.difference === undefined) return toldNothing;
  const { to, from, interval } = decision.difference;
  const truth = truly(Number(to)) - truly(Number(from));
  return plainReading(
    decision.verdict === "settled",
    interval === undefined || holds(interval.lower, interval.upper, truth),
  );
}

/**
 * What a spreadsheet would say: all trays of a dose in one heap, the best-looking dose against the lowest (or, where the
 * lowest looks best, against the worst) by Student's t test at 5 %.
 */
export function readHeaps(trial: Trial, asked: Asked): Reading {
  const heaps = new Map<number, number[]>();
  for (const tray of trial.trays) {
    const value = asked.response.of(tray);
    if (value === undefined || tray.inoculumMillilitres === undefined) continue;
    const heap = heaps.get(tray.inoculumMillilitres) ?? [];
    heaps.set(tray.inoculumMillilitres, heap);
    heap.push(value);
  }
  const sign = asked.better === "higher" ? 1 : -1;
  const arms = [...heaps]
    .filter(([, values]) => values.length >= 2)
    .map(([dose, values]) => ({ dose, values, mean: values.reduce((sum, value) => sum + value, 0) / values.length }))
    .sort((a, b) => sign * (b.mean - a.mean));
  if (arms.length < 2) return toldNothing;
  const [best, worst] = [arms[0]!, arms.at(-1)!];
  const lowest = arms.reduce((a, b) => (b.dose < a.dose ? b : a));
  const against = best === lowest ? worst : lowest;
  const test = pooledDifference(best.values, against.values);
  return plainReading(test.p < 0.05, holds(test.lower, test.upper, asked.truly(best.dose) - asked.truly(against.dose)));
}
