import type { Reading } from "./compared-tray.ts";

/** Share of the significance level that the main question may use at each kind of reading. */
const mainShare: Record<Reading, number> = { first: 0.9, awaited: 0.8, other: 0.1, unknown: 0.9 };

/** Finished cooks from which a first reading can settle much; a book read before is waited for until the second number. */
const cooksAwaited = { atFirst: 3, later: 4 };

/** Share that the other questions start from. */
export const othersShare = 0.1;

/**
 * Significance level at which the main question is settled at this reading.
 * @source after the idea of spending a level over looks, Lan and DeMets 1983, Biometrika 70:659-663; the shares are the
 *   project's own, from the simulation in test/simulation
 * @example readingLevel(0.05, "awaited") // 0.04
 */
export function readingLevel(alpha: number, reading: Reading): number {
  return mainShare[reading] * alpha;
}

/**
 * Which kind of reading a book is at. Without a plan the level is kept for the first reading if that has three cooks, else for
 * the first that has four: a book read after every cook would have spent it before anything could be settled. Cooks decide
 * that, never what they gave.
 * @param facts `finishedCooks` whose trays all have a result; `growing` whether any tray of the trial still grows;
 *   `plannedCooks` of the plan, if there is one; `earlier` the finished cooks at each reading in the record before this one,
 *   undefined where none is kept
 */
export function readingOf(facts: {
  finishedCooks: number;
  growing: boolean;
  plannedCooks?: number;
  earlier?: ReadonlyArray<number>;
}): Reading {
  const { finishedCooks, growing, plannedCooks, earlier } = facts;
  if (plannedCooks !== undefined) return !growing && finishedCooks === plannedCooks ? "awaited" : "other";
  if (earlier === undefined) return "unknown";
  const isAwaited = (cooks: number, place: number): boolean =>
    cooks >= (place === 0 ? cooksAwaited.atFirst : cooksAwaited.later);
  if (earlier.some(isAwaited) || !isAwaited(finishedCooks, earlier.length)) return "other";
  return earlier.length === 0 ? "first" : "awaited";
}
