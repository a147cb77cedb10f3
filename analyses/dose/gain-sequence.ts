import type { Trial } from "../../src/analysis.ts";
import { studentTTwoTailed } from "../../src/statistics/distributions/student-t.ts";
import { confidenceSequence } from "../../src/statistics/sequential/confidence-sequence.ts";
import {
  type BlockedValue,
  type ContrastSoFar,
  RunningContrasts,
} from "../../src/statistics/sequential/running-contrasts.ts";
import type { TreatmentComparison } from "../comparison/compare-treatment.ts";
import type { Observation } from "../comparison/tray-response.ts";
import { type Looks, looksOf } from "./looks.ts";

/** What one look showed. */
export interface LookResult {
  /** from 1 */
  look: number;
  label: string;
  /** units compared so far */
  units: number;
  difference: number;
  /** of this look alone, valid however often one looks; ends may be infinite */
  low: number;
  high: number;
  /** always-valid p so far, allowing for all levels */
  p: number;
  /** what an ordinary t test would have said at this look, as if it were the only one and these the only levels */
  plainP: number;
}

/** A gain followed from look to look. */
export interface GainSequence {
  kind: "sequence";
  by: Looks["by"];
  dated: boolean;
  /** how often the book was looked at, looks that could show nothing included */
  lookCount: number;
  reference: string;
  /** the level that stands highest above the reference; the lowest when all stand below */
  arm: string;
  /** looks at which there was something to compare */
  results: LookResult[];
  /** the interval all looks together leave */
  low: number;
  high: number;
  difference: number;
  p: number;
  /** the first look at which no effect was ruled out; undefined while it is not */
  realSince: number | undefined;
  /** looks after that whose own interval holds no effect again */
  lapses: number;
  /** later looks fall outside what earlier ones left */
  contradicts: boolean;
  unit: string;
}

/** What counts as one value: a tray (or a unit treated as a whole), or the mean of a dose in one cook. */
export type Counting = "trays" | "cooks";

/**
 * Values per arm at which the sequence is tightest. It has to be chosen before looking, so it is the same for every book:
 * about where a dose trial of four cooks with six trays a dose ends.
 */
export const tightestPerArm: Readonly<Record<Counting, number>> = { trays: 24, cooks: 4 };

/** Trays, or the means of units treated as a whole or of a dose in a cook, look by look. */
function valuesByLook(
  compared: TreatmentComparison,
  looks: Looks,
  arms: ReadonlyArray<string>,
  counting: Counting,
): BlockedValue[][] {
  const { layout } = compared;
  const position = new Map(arms.map((arm, index) => [arm, index]));
  const grouped = compared.observations.every(({ groups }) => groups.length > 0);
  if (layout.unit === "tray" && counting === "trays") {
    return looks.looks.map(({ observations }) =>
      observations.map(({ arm, value, groups }) => ({
        arm: position.get(arm)!,
        value,
        block: grouped ? groups[0]! : "all",
      })),
    );
  }
  const units = new Map<string, { first: Observation; sum: number; count: number; look: number }>();
  looks.looks.forEach(({ observations }, look) => {
    for (const one of observations) {
      const key = JSON.stringify(counting === "cooks" ? [one.groups[0], one.arm] : one.groups);
      const unit = units.get(key) ?? { first: one, sum: 0, count: 0, look };
      units.set(key, unit);
      unit.sum += one.value;
      unit.count++;
      unit.look = look;
    }
  });
  const byLook: BlockedValue[][] = looks.looks.map(() => []);
  for (const { first, sum, count, look } of units.values()) {
    const block = layout.block === undefined || !grouped ? "all" : first.groups[0]!;
    byLook[look]!.push({ arm: position.get(first.arm)!, value: sum / count, block });
  }
  return byLook;
}

/**
 * Follows every level against the reference (the lowest, or first by name) over the looks of the book, with intervals and p
 * that hold however often one looks, and tells of the level that now stands highest. The chance of a false alarm is shared
 * over the levels, so that picking the highest is paid for.
 * @param counting "cooks" takes the mean of a dose in a cook as one value: it holds also when the gain itself differs from
 *   cook to cook, and needs many more cooks
 */
export function gainSequence(
  trial: Trial,
  compared: TreatmentComparison,
  counting: Counting = "trays",
): GainSequence | { kind: "none"; reason: string } {
  const { comparison, observations, layout } = compared;
  const arms = comparison.arms.map(({ arm }) => arm);
  const looks = looksOf(observations);
  const values = valuesByLook(compared, looks, arms, counting);
  const centre = observations.reduce((sum, { value }) => sum + value / observations.length, 0);
  const running = new RunningContrasts(arms.length, centre);
  const perArm: { look: number; units: number; contrast: ContrastSoFar }[][] = arms.map(() => []);
  let units = 0;
  values.forEach((own, look) => {
    if (own.length === 0) return;
    running.add(own);
    units += own.length;
    running.contrasts().forEach((contrast, arm) => {
      if (contrast !== undefined) perArm[arm]!.push({ look, units, contrast });
    });
  });
  const last = perArm.map((rows) => rows.at(-1)?.contrast.difference);
  const rivals = last.flatMap((difference, arm) => (difference === undefined ? [] : [{ arm, difference }]));
  if (rivals.length === 0) {
    return {
      kind: "none",
      reason:
        layout.unit === "tray"
          ? "no cook holds the lowest level beside another one"
          : "too few whole units were compared to measure their scatter",
    };
  }
  const highest = rivals.reduce((a, b) => (b.difference > a.difference ? b : a));
  const chosen = highest.difference > 0 ? highest : rivals.reduce((a, b) => (b.difference < a.difference ? b : a));
  const rows = perArm[chosen.arm]!;
  const rivalry = arms.length - 1;
  const level = 1 - (1 - trial.settings.intervalLevel) / rivalry;
  const intervals = confidenceSequence({
    looks: rows.map(({ contrast }) => contrast),
    level,
    tightestAt: tightestPerArm[counting] / 2,
  });
  const { significanceLevel: alpha } = trial.settings;
  const results = rows.map(({ look, units: sofar, contrast }, index): LookResult => {
    const { low, high, p } = intervals[index]!;
    return {
      look: look + 1,
      label: looks.looks[look]!.label,
      units: sofar,
      difference: contrast.difference,
      low,
      high,
      p: Math.min(1, p * rivalry),
      plainP: studentTTwoTailed(contrast.difference / contrast.standardError, contrast.degreesOfFreedom),
    };
  });
  const end = intervals.at(-1)!;
  const excludes = (from: number, to: number) => from > 0 || to < 0;
  const shown = results.findIndex(
    ({ p }, index) => p < alpha && excludes(intervals[index]!.runningLow, intervals[index]!.runningHigh),
  );
  return {
    kind: "sequence",
    by: looks.by,
    dated: looks.dated,
    lookCount: looks.looks.length,
    reference: arms[0]!,
    arm: arms[chosen.arm]!,
    results,
    low: end.runningLow,
    high: end.runningHigh,
    difference: results.at(-1)!.difference,
    p: results.at(-1)!.p,
    realSince: shown < 0 ? undefined : results[shown]!.look,
    lapses: shown < 0 ? 0 : results.slice(shown + 1).filter(({ low, high }) => !excludes(low, high)).length,
    contradicts: intervals.some(({ contradicts }) => contradicts),
    unit:
      counting === "cooks"
        ? "means of a dose in a cook"
        : layout.unit === "tray"
          ? "trays"
          : "units treated as a whole",
  };
}
