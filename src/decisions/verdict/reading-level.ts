import type { Reading } from "./compared-tray.ts";

/** Share of the significance level that the main question may use at each kind of reading. */
const mainShare: Record<Reading, number> = { first: 0.9, planned: 0.8, other: 0.1, unknown: 0.9 };

/** Share that the other questions start from. */
export const othersShare = 0.1;

/**
 * Significance level at which the main question is settled at this reading.
 * @source after the idea of spending a level over looks, Lan and DeMets 1983, Biometrika 70:659-663; the shares are the
 *   project's own, from the simulation in test/simulation
 * @example readingLevel(0.05, "planned") // 0.04
 */
export function readingLevel(alpha: number, reading: Reading): number {
  return mainShare[reading] * alpha;
}

/**
 * Which kind of reading a book is at.
 * @param facts `finishedCooks` whose trays all have a result; `growing` whether any tray of the trial still grows;
 *   `plannedCooks` of the plan, if there is one; `earlierReadings` noted in the record, undefined where none is kept
 * @example readingOf({ finishedCooks: 4, growing: false, plannedCooks: 4 }) // "planned"
 */
export function readingOf(facts: {
  finishedCooks: number;
  growing: boolean;
  plannedCooks?: number;
  earlierReadings?: number;
}): Reading {
  const { finishedCooks, growing, plannedCooks, earlierReadings } = facts;
  if (plannedCooks !== undefined) return !growing && finishedCooks === plannedCooks ? "planned" : "other";
  if (earlierReadings === undefined) return "unknown";
  return earlierReadings === 0 ? "first" : "other";
}
