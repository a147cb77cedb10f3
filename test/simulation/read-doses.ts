import { compareTreatment } from "../../analyses/comparison/compare-treatment.ts";
import type { TrayResponse } from "../../analyses/comparison/tray-response.ts";
import type { Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { studentTTest } from "../../src/statistics/descriptive/student-t-test.ts";
import { holds, plainReading, type Reading, toldNothing } from "./reading.ts";

/** A result of a tray, which way is good, and what it really is at a dose. */
export interface Asked {
  response: TrayResponse;
  better: "higher" | "lower";
  truly(doseMillilitres: number): number;
}

/** The project's comparison of doses on one book. */
export function readDoses(trial: Trial, asked: Asked): Reading {
  const compared = compareTreatment(trial, doseFactor, asked.response, asked.better);
  if (compared.kind === "cannot-tell") return toldNothing;
  const { comparison, headline, certainty } = compared;
  const trueOf = new Map(comparison.arms.map(({ arm, dose }) => [arm, asked.truly(dose!)]));
  const covers = ({ first, second, low, high }: { first: string; second: string; low: number; high: number }) =>
    holds(low, high, trueOf.get(second)! - trueOf.get(first)!);
  return {
    alarm: certainty === "settled",
    cannotTell: false,
    headlineCovers: covers(headline),
    allPairsCover: comparison.pairs.every(covers),
    meansCover: comparison.arms.map(({ arm, low, high }) => holds(low, high, trueOf.get(arm)!)),
  };
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
  const test = studentTTest(best.values, against.values);
  return plainReading(test.p < 0.05, holds(test.lower, test.upper, asked.truly(best.dose) - asked.truly(against.dose)));
}
