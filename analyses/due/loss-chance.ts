import { isLost } from "../comparison/tray-response.ts";
import { type DatedTray, type Step, type Stretch, startOf } from "./wait-sample.ts";

/** Whether a tray got past a step, as far as it is written down. */
const gotThere = ({ days, tray }: DatedTray, step: Step): boolean =>
  days.picked.length > 0 ||
  (!days.grows && tray.outcome === "good") ||
  (step === "colonise" && (days.colonised !== undefined || days.fruiting !== undefined)) ||
  (step === "move" && days.fruiting !== undefined);

/**
 * Share of the book's ended trays that were lost before a step, of those that got to where the tray is now; half a tray is
 * added on either side, so that no loss yet does not mean never.
 * @source Jeffreys' prior for a share: Brown, Cai and DasGupta 2001, Statistical Science 16(2):101-133
 */
export function lostBefore(trays: ReadonlyArray<DatedTray>, { from, to: step }: Stretch): number {
  let [lost, ended] = [0, 0];
  for (const one of trays) {
    if (one.days.grows || one.tray.outcome === "asked" || startOf(one, from) === undefined) continue;
    const passed = gotThere(one, step);
    if (!passed && !isLost(one.tray)) continue;
    const pool = one.tray.traysInPool;
    ended += pool;
    if (!passed) lost += pool;
  }
  return (lost + 0.5) / (ended + 1);
}

/**
 * Chance that a tray which is not there yet will never be: the slow ones and the lost ones are what is left.
 * @param lost share lost before the step, whatever the days; @param slow share of the others that take longer than this
 * @example lossChance(0.1, 0.05) // 0.6896...
 */
export const lossChance = (lost: number, slow: number): number => lost / (lost + (1 - lost) * slow);
