import { studentTQuantile } from "../../statistics/distributions/student-t.ts";
import type { SeenDose, SeenMean } from "./dose-facts.ts";
import type { AllPrices } from "./money-draws.ts";
import type { PlacedTray, TestedDoses } from "./tested-doses.ts";

/** A record's value and how many trays it is for. */
interface Weighted {
  cook: number;
  trays: number;
  value: number;
}

/**
 * Mean of trays with t limits over cooks, or over records where one cook holds them all.
 * @source ratio of cook totals to cook sizes: Cochran 1977, Sampling Techniques, section 6.3 (from memory); with equal cooks
 *   it is the t interval of their means
 */
function meanOverCooks(all: ReadonlyArray<Weighted>): SeenMean {
  const trays = all.reduce((sum, one) => sum + one.trays, 0);
  const mean = all.reduce((sum, one) => sum + one.trays * one.value, 0) / trays;
  const byCook = new Map<number, number>();
  for (const one of all) byCook.set(one.cook, (byCook.get(one.cook) ?? 0) + one.trays * (one.value - mean));
  const excesses = byCook.size > 1 ? [...byCook.values()] : all.map((one) => one.trays * (one.value - mean));
  const units = excesses.length;
  if (units < 2) return { mean };
  const square = excesses.reduce((sum, excess) => sum + excess * excess, 0);
  const half = (studentTQuantile(0.975, units - 1) * Math.sqrt((square * units) / (units - 1))) / trays;
  return { mean, low: mean - half, high: mean + half };
}

const meanDays = (trays: ReadonlyArray<PlacedTray>): number | undefined => {
  const dated = trays.filter(({ days }) => days !== undefined);
  const count = dated.reduce((sum, tray) => sum + tray.trays, 0);
  return count === 0 ? undefined : dated.reduce((sum, tray) => sum + tray.trays * tray.days!, 0) / count;
};

/** Means of each dose from its own trays alone; a tray without days is taken at the mean of its kind. */
export function seenDoses(tested: TestedDoses, prices: AllPrices): SeenDose[] {
  const good = meanDays(tested.trays.filter(({ lost }) => !lost));
  const lostOnes = meanDays(tested.trays.filter(({ lost }) => lost)) ?? good;
  const leftOf = (tray: PlacedTray): number => {
    const days = good === undefined ? 0 : (tray.days ?? (tray.lost ? lostOnes! : good));
    const income = tray.lost ? prices.recoveredPerLostTray : prices.perGram * tray.grams! - prices.perGoodTray;
    return income - prices.perDoseUnit * tray.dose - prices.perShelfDay * days - prices.perStartedTray;
  };
  const perDose = tested.doses.map((): PlacedTray[] => []);
  for (const tray of tested.trays) perDose[tray.doseAt]!.push(tray);
  return tested.doses.map((dose, at) => {
    const own = perDose[at]!;
    const count = (trays: ReadonlyArray<PlacedTray>): number => trays.reduce((sum, tray) => sum + tray.trays, 0);
    const weighed = own.filter(({ lost, grams }) => !lost && grams !== undefined);
    const finished = own.filter(({ lost, grams }) => lost || grams !== undefined);
    const valued = (trays: ReadonlyArray<PlacedTray>, value: (tray: PlacedTray) => number): Weighted[] =>
      trays.map((tray) => ({ cook: tray.cookAt, trays: tray.trays, value: value(tray) }));
    return {
      dose,
      asTried: tested.asTried[at]!,
      trays: count(own),
      lost: count(own.filter(({ lost }) => lost)),
      weighed: count(weighed),
      cooks: new Set(own.map(({ cookAt }) => cookAt)).size,
      grams: weighed.length === 0 ? undefined : meanOverCooks(valued(weighed, ({ grams }) => grams!)),
      days: meanDays(own.filter(({ lost }) => !lost)),
      left: finished.length === 0 ? undefined : meanOverCooks(valued(finished, leftOf)),
    };
  });
}
