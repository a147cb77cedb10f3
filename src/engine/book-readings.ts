import { type Reading, readingOf } from "../decisions/verdict/index.ts";
import type { Book } from "../records/book.ts";
import { cookOf } from "../records/ended-cooks.ts";
import { traysOfPlan } from "../records/planned-trial.ts";
import { hasEnded, type Tray } from "../records/tray.ts";

/** "" for the trays of no cook. */
const nameOf = (tray: Tray): string => cookOf(tray) ?? "";

/** Cooks of which no tray is still growing, by name. */
export function finishedCooks(trays: ReadonlyArray<Tray>): string[] {
  const growing = new Set(trays.filter((tray) => !hasEnded(tray)).map(nameOf));
  return [...new Set(trays.map(nameOf))].filter((cook) => !growing.has(cook)).sort();
}

/**
 * The record of readings with this one in it. A reading is a new set of finished cooks: the same cooks read again, with
 * corrected cells or not, are the same reading.
 * @param before the record beside the last report, oldest first; empty at the first reading
 * @example readingsWith([["C1"]], ["C1", "C2"]) // [["C1"], ["C1", "C2"]]
 */
export function readingsWith(
  before: ReadonlyArray<ReadonlyArray<string>>,
  finished: ReadonlyArray<string>,
): string[][] {
  const text = JSON.stringify(finished);
  const known = before.findIndex((cooks) => JSON.stringify(cooks) === text);
  const kept = known < 0 ? before : before.slice(0, known);
  return [...kept, finished].map((cooks) => [...cooks]);
}

/** Which reading of a book this is; undefined where neither a plan nor a record says so. */
export function readingOfBook({ readings, settings, trays }: Book): Reading | undefined {
  const { plannedCooks } = settings;
  if (readings === undefined && plannedCooks === 0) return undefined;
  // cooks that were there before the plan are not among those it counts
  const planned = traysOfPlan(trays);
  return readingOf({
    finishedCooks: finishedCooks(planned).length,
    growing: planned.some(({ outcome }) => outcome === "growing"),
    ...(plannedCooks === 0 ? {} : { plannedCooks }),
    ...(readings === undefined ? {} : { earlier: readings.slice(0, -1).map(({ length }) => length) }),
  });
}
