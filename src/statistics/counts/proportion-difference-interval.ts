import { requireOpenProbability } from "../require-numbers.ts";
import { wilsonInterval } from "./proportion-interval.ts";

/** A difference of two proportions with its interval, between -1 and 1. */
export interface ProportionDifference {
  difference: number;
  lower: number;
  upper: number;
  level: number;
}

/**
 * Interval of the difference of two independent proportions, from the score limits of each.
 * @param successesA of trialsA independent trials in arm A; successesB of trialsB in arm B
 * @param level confidence level, 0.95 unless stated
 * @returns proportion A minus proportion B and its interval
 * @throws RangeError if the counts are not whole, successes exceed trials, or the level is not between 0 and 1
 * @source Newcombe 1998, Statistics in Medicine 17(8):873-890, method 10
 * @example proportionDifferenceInterval(56, 70, 48, 80).lower // 0.0524...
 */
export function proportionDifferenceInterval(
  successesA: number,
  trialsA: number,
  successesB: number,
  trialsB: number,
  level = 0.95,
): ProportionDifference {
  requireOpenProbability("proportionDifferenceInterval", "level", level);
  const a = wilsonInterval(successesA, trialsA, level);
  const b = wilsonInterval(successesB, trialsB, level);
  const difference = a.proportion - b.proportion;
  return {
    difference,
    lower: difference - Math.hypot(a.proportion - a.lower, b.upper - b.proportion),
    upper: difference + Math.hypot(a.upper - a.proportion, b.proportion - b.lower),
    level,
  };
}
