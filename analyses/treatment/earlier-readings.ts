import type { Trial } from "../../src/analysis.ts";
import {
  atSignificance,
  type ComparedTray,
  type Decision,
  type Reading,
  readingOf,
} from "../../src/decisions/verdict/index.ts";
import { cookOf } from "../../src/records/ended-cooks.ts";

import { traysOfPlan } from "../../src/records/planned-trial.ts";

/** What one recorded reading of a book says of the trays it had. */
export interface ReadingWord {
  /** finished cooks at that reading */
  cooks: number;
  decision: Decision;
}

/** Readings before the last twelve say nothing more about since when. */
const mostReadings = 12;

/**
 * Whether trays of a cook that is not finished are weighed already: each of them is another look, so the level that is kept for
 * the finished cooks is theirs alone.
 * @param cookOfRow the cook of a tray, or the day that stands for it, as the record names it
 */
export function hasLaterTrays(
  { readings }: Trial,
  trays: ReadonlyArray<ComparedTray>,
  cookOfRow: (row: number) => string,
): boolean {
  if (readings === undefined) return false;
  const finished = new Set(readings.at(-1));
  return trays.some(({ row, value }) => value !== "lost" && !finished.has(cookOfRow(row)));
}

/**
 * Decides again on the trays that each recorded reading had, with their cells as they are today and at the level which that
 * reading had.
 * @param cookOfRow as for {@link hasLaterTrays}
 * @param now the decision on all trays, which stands last
 * @param isLater whether it had trays that the last recorded reading did not
 * @returns in the order of the record; empty where none is kept
 */
export function atReadings(
  { readings, settings, trays: all }: Trial,
  trays: ReadonlyArray<ComparedTray>,
  cookOfRow: (row: number) => string,
  now: Decision,
  isLater: boolean,
  decide: (trays: ReadonlyArray<ComparedTray>, at: { reading: Reading }) => Decision,
): ReadingWord[] {
  if (readings === undefined) return [];
  const earlier = isLater ? readings : readings.slice(0, -1);
  const { plannedCooks } = settings;
  const ofPlan = new Set(traysOfPlan(all).map((tray) => cookOf(tray) ?? ""));
  const words = earlier.map((names, place): ReadingWord | undefined => {
    const cooks = new Set(names);
    const some = trays.filter(({ row }) => cooks.has(cookOfRow(row)));
    if (some.length === 0) return undefined;
    const reading = readingOf({
      finishedCooks: names.filter((name) => ofPlan.has(name)).length,
      growing: false,
      ...(plannedCooks === 0 ? {} : { plannedCooks }),
      earlier: earlier.slice(0, place).map(({ length }) => length),
    });
    return { cooks: names.length, decision: decide(some, { reading }) };
  });
  const known = words.filter((word): word is ReadingWord => word !== undefined).slice(-mostReadings);
  return [...known, { cooks: readings.at(-1)?.length ?? 0, decision: now }];
}

/**
 * Settled at an earlier reading stays settled while the trays do not speak against it: the same direction, and clear of
 * nothing at the level of one reading. The levels of all readings together keep the chance of a false one.
 */
export function standingSince(
  readings: ReadonlyArray<ReadingWord>,
  now: Decision,
  alpha: number,
): { decision: Decision; settledBefore: boolean } {
  const direction = ({ difference }: Decision) => Math.sign(difference?.estimate ?? 0);
  const settled = readings
    .slice(0, -1)
    .some(({ decision }) => decision.verdict === "settled" && direction(decision) === direction(now));
  if (!settled || now.verdict === "settled" || now.p === undefined || now.p >= alpha) {
    return { decision: now, settledBefore: false };
  }
  const decision = atSignificance(now, alpha);
  return decision.verdict === "settled"
    ? { decision: { ...decision, significance: now.significance }, settledBefore: true }
    : { decision: now, settledBefore: false };
}

/** Finished cooks at the first reading from which on the word has been settled; undefined where it is not, or no record is kept. */
export function settledSince(readings: ReadonlyArray<ReadingWord>, decision: Decision): number | undefined {
  if (decision.verdict !== "settled" || readings.length < 2) return undefined;
  return readings.find((one) => one.decision.verdict === "settled")?.cooks;
}
