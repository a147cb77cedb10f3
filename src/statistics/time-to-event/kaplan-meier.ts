import { requireSameLength, requireSample } from "../require-numbers.ts";

/** Times of things that happened or had not happened yet when last looked at (right-censored). */
export interface SurvivalSample {
  /** time from the start, 0 or more, in any unit */
  times: ReadonlyArray<number>;
  /** true: it happened at that time; false: not yet by then */
  events: ReadonlyArray<boolean>;
}

/** One step of the curve of the share still waiting: one distinct time. */
export interface KaplanMeierStep {
  time: number;
  events: number;
  /** share still waiting just after the time, 0 to 1 */
  survival: number;
}

/**
 * Share still waiting over time (product-limit estimate).
 * @param sample times and whether each is an event; censored trays count as at risk up to and including their time
 * @returns one step per distinct time, ascending
 * @throws RangeError if the sample is empty, or a time is negative or not finite
 * @source Kaplan and Meier 1958, Journal of the American Statistical Association 53(282):457-481
 * @example kaplanMeier({ times: [3, 5, 5], events: [true, true, false] })[0].survival // 2 / 3
 */
export function kaplanMeier({ times, events }: SurvivalSample): KaplanMeierStep[] {
  requireSample("kaplanMeier", "times", times, 1);
  requireSameLength("kaplanMeier", "times", times, "events", events);
  const negative = times.find((time) => time < 0);
  if (negative !== undefined) throw new RangeError(`kaplanMeier: times must be 0 or more; received ${negative}`);
  const order = [...times.keys()].sort((a, b) => times[a]! - times[b]!);
  const steps: KaplanMeierStep[] = [];
  let survival = 1;
  for (let first = 0; first < order.length; ) {
    const time = times[order[first]!]!;
    let [next, happened] = [first, 0];
    for (; next < order.length && times[order[next]!] === time; next++) if (events[order[next]!]) happened++;
    const atRisk = order.length - first;
    survival *= (atRisk - happened) / atRisk;
    steps.push({ time, events: happened, survival });
    first = next;
  }
  return steps;
}
