import { requireSameLength, requireSample } from "../require-numbers.ts";

/** Times of things that happened or had not happened yet when last looked at (right-censored). */
export interface SurvivalSample {
  /** time from the start, above 0 or equal to it, in any unit */
  times: ReadonlyArray<number>;
  /** true: it happened at that time; false: not yet by then */
  events: ReadonlyArray<boolean>;
}

/** How many were still waiting at a time, and what became of them there. */
export interface RiskStep {
  time: number;
  /** not yet happened and not yet lost just before the time */
  atRisk: number;
  events: number;
  censored: number;
}

/**
 * Fails unless the sample has at least one row and each time is a finite number of 0 or more.
 * @internal
 */
export function requireSurvivalSample(routine: string, sample: SurvivalSample): void {
  requireSample(routine, "times", sample.times, 1);
  requireSameLength(routine, "times", sample.times, "events", sample.events);
  const negative = sample.times.find((time) => time < 0);
  if (negative !== undefined) throw new RangeError(`${routine}: times must be 0 or more; received ${negative}`);
}

/**
 * One step per distinct time, ascending. An observation lost at the time of an event counts as still at risk there.
 * @internal
 */
export function riskSteps(sample: SurvivalSample): RiskStep[] {
  const order = [...sample.times.keys()].sort((a, b) => sample.times[a]! - sample.times[b]!);
  const steps: RiskStep[] = [];
  let atRisk = sample.times.length;
  let current: RiskStep | undefined;
  for (const i of order) {
    const time = sample.times[i]!;
    if (current === undefined || current.time !== time) {
      atRisk -= current === undefined ? 0 : current.events + current.censored;
      current = { time, atRisk, events: 0, censored: 0 };
      steps.push(current);
    }
    if (sample.events[i]) current.events++;
    else current.censored++;
  }
  return steps;
}
