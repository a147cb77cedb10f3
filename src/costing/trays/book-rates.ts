import { isLost } from "../../records/tray.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { type CostScope, costAccount } from "./cost-account.ts";
import type { TrayCosts } from "./tray-costs.ts";
import { daysCharged } from "./tray-life.ts";

/** What a gram cost by scope, with all losses of the period; a weight nobody recorded has none. */
export type GramRates = Record<CostScope, { fresh?: number; dried?: number }>;

/**
 * Cost of a fresh and of a dried gram in each scope, for products to be made of.
 * @returns cannot-tell when nothing was good
 * @example gramRates(costs).rates.full.dried // 0.09538...
 */
export function gramRates(costs: TrayCosts): { kind: "rates"; rates: GramRates } | CannotTell {
  const rates: GramRates = { full: {}, "without owner labour": {}, variable: {} };
  for (const scope of ["full", "without owner labour", "variable"] as const) {
    const account = costAccount(costs, scope);
    if (account.kind === "cannot-tell") return account;
    for (const gram of ["fresh", "dried"] as const) {
      const cost = account.perGram[gram];
      if (cost.kind === "gram-cost") rates[scope][gram] = cost.withAllLosses;
    }
  }
  return { kind: "rates", rates };
}

/** What one started tray gives and takes on average; a figure nobody recorded is absent. */
export interface TrayYield {
  fresh?: number;
  dried?: number;
  shelfDays?: number;
  /** hours of work by the labour lines, over all trays */
  labourHours: number;
}

/**
 * Means per started tray over the finished ones: lost trays count with no grams and with the days they stood. Good
 * trays without a weight count at the mean of those with one.
 * @returns cannot-tell when no tray is finished
 */
export function yieldPerStartedTray(costs: TrayCosts): { kind: "yield"; perTray: TrayYield } | CannotTell {
  let [started, good, days, dayTrays] = [0, 0, 0, 0];
  const weights = { fresh: { grams: 0, trays: 0 }, dried: { grams: 0, trays: 0 } };
  costs.trays.forEach((tray, index) => {
    const isGood = tray.outcome === "good";
    if (!isGood && !isLost(tray)) return;
    started += tray.traysInPool;
    const stood = daysCharged(costs.lives[index]!, "filling");
    if (stood !== undefined) {
      days += stood * tray.traysInPool;
      dayTrays += tray.traysInPool;
    }
    if (!isGood) return;
    good += tray.traysInPool;
    for (const [weight, grams] of [
      [weights.fresh, tray.freshGrams],
      [weights.dried, tray.dryGrams],
    ] as const) {
      if (grams === undefined) continue;
      weight.grams += grams;
      weight.trays += tray.traysInPool;
    }
  });
  if (started === 0) return cannotTell("no tray is finished");
  const meanPerStarted = ({ grams, trays }: { grams: number; trays: number }): number =>
    (grams / trays) * (good / started);
  const allTrays = costs.trays.reduce((sum, { traysInPool }) => sum + traysInPool, 0);
  const hours = costs.items.reduce(
    (sum, { kind, line, taken }) => sum + (kind === "labour" && line.packUnit === "hour" ? taken * line.amount : 0),
    0,
  );
  const perTray: TrayYield = { labourHours: hours / allTrays };
  if (weights.fresh.trays > 0) perTray.fresh = meanPerStarted(weights.fresh);
  if (weights.dried.trays > 0) perTray.dried = meanPerStarted(weights.dried);
  if (dayTrays > 0) perTray.shelfDays = days / dayTrays;
  return { kind: "yield", perTray };
}

/** Days of a month, over four years. */
export const meanMonthDays = 365.25 / 12;

/**
 * Trays that can be started in a month of average length when every place is filled again as soon as it is free.
 * @param shelfDays days one tray holds a place
 * @throws RangeError if the places are negative or the days are not above 0
 * @example trayStartsInMonth(40, 60) // 20.291...
 */
export function trayStartsInMonth(shelfPlaces: number, shelfDays: number): number {
  if (!(shelfPlaces >= 0) || !(shelfDays > 0)) {
    throw new RangeError(
      `trayStartsInMonth: shelfPlaces must be 0 or more and shelfDays above 0; received ${shelfPlaces} and ${shelfDays}`,
    );
  }
  return (shelfPlaces * meanMonthDays) / shelfDays;
}
