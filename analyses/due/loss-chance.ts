import { isLost } from "../../src/records/tray.ts";
import { type DatedTray, type Step, type Stretch, startOf } from "./wait-sample.ts";

/** Whether a tray got past a step, as far as it is written down. */
const gotThere = ({ days, tray }: DatedTray, step: Step): boolean =>
  days.picked.length > 0 ||
  (!days.grows && tray.outcome === "good") ||
  (step === "colonise" && (days.colonised !== undefined || days.fruiting !== undefined)) ||
  (step === "move" && days.fruiting !== undefined);

/** Rounds of expectation and maximisation: the share moves by less than a thousandth after them. */
const rounds = 30;

/**
 * Share of the book's trays that are lost before a step, of those that got to where the tray is now: those that were, and of
 * those that still wait as many as their days make likely. Half a tray is added on either side, so that no loss yet does not
 * mean never.
 * @param slowOf share of trays that get there that wait longer than this growing tray has; undefined where nothing tells
 * @source Jeffreys' prior for a share: Brown, Cai and DasGupta 2001, Statistical Science 16(2):101-133; the mixture of slow and
 * lost trays: Farewell 1982, Biometrics 38(4):1041-1046, its share by expectation and maximisation
 */
export function lostBefore(
  trays: ReadonlyArray<DatedTray>,
  { from, to: step }: Stretch,
  slowOf: (tray: DatedTray) => number | undefined,
): number {
  let [lost, ended] = [0, 0];
  const waiting: { slow: number; pool: number }[] = [];
  for (const one of trays) {
    if (one.tray.outcome === "asked" || startOf(one, from) === undefined) continue;
    const pool = one.tray.traysInPool;
    const passed = gotThere(one, step);
    if (passed || isLost(one.tray)) {
      ended += pool;
      if (!passed) lost += pool;
    } else if (one.days.grows) {
      const slow = slowOf(one);
      if (slow !== undefined) waiting.push({ slow, pool });
    }
  }
  const all = waiting.reduce((sum, { pool }) => sum + pool, ended) + 1;
  let share = (lost + 0.5) / (ended + 1);
  for (let round = 0; round < rounds; round++) {
    const likely = waiting.reduce((sum, { slow, pool }) => sum + pool * lossChance(share, slow), lost);
    share = (likely + 0.5) / all;
  }
  return share;
}

/**
 * Chance that a tray which is not there yet will never be: the slow ones and the lost ones are what is left.
 * @param lost share lost before the step, whatever the days; @param slow share of the others that take longer than this
 * @example lossChance(0.1, 0.05) // 0.6896...
 */
export const lossChance = (lost: number, slow: number): number => lost / (lost + (1 - lost) * slow);
