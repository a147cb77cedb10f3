import type { Trial } from "../../src/analysis.ts";
import type { Suppositions } from "../../src/decisions/verdict/index.ts";
import { hasEnded, type Tray } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { type TrayResponse, yieldPerStartedTray } from "../comparison/tray-response.ts";
import { bookCosts, bookPrices, meanNetPrice } from "./book-prices.ts";
import { trayMoney } from "./tray-money.ts";

const perTray = (label: string, unit: string, values: ReadonlyMap<Tray, number>): TrayResponse => ({
  label,
  unit,
  of: (tray) => values.get(tray),
});

/** Energy that a finished tray took; undefined without costs, or where every tray is charged the same. */
export function energyResponse(trial: Trial): TrayResponse | undefined {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return undefined;
  const rows = costs.items.flatMap(({ kind }, row) => (kind === "energy" ? [costs.amounts[row]!] : []));
  const values = new Map<Tray, number>();
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  costs.trays.forEach((tray, index) => {
    if (!hasEnded(tray)) return;
    const energy = rows.reduce((sum, amounts) => sum + amounts[index]!, 0) / tray.traysInPool;
    values.set(tray, energy);
    least = Math.min(least, energy);
    most = Math.max(most, energy);
  });
  return most - least > 1e-9 * Math.max(1, Math.abs(most))
    ? perTray("energy of a started tray", "money", values)
    : undefined;
}

/** A measure of money with what is supposed of it. */
export interface EarningResponse {
  response: TrayResponse;
  /** trays treated alike, and true gains, in the measure's own unit: shares of what a tray sells for */
  suppositions: Suppositions;
}

/** Shares of a tray's takings, as the verdict rules suppose them of its weight. Common practice, no source. */
const [traySdShare, gainSdShare] = [0.18, 0.12];

function earning(
  label: string,
  unit: string,
  values: ReadonlyMap<Tray, number>,
  takings: ReadonlyMap<Tray, number>,
): EarningResponse[] {
  const mean = [...values.keys()].reduce((sum, tray) => sum + (takings.get(tray) ?? 0), 0) / values.size;
  if (!(mean > 0)) return [];
  const suppositions = { traySd: traySdShare * mean, gainSd: gainSdShare * mean };
  return [{ response: perTray(label, unit, values), suppositions }];
}

/** What a started tray earned, and earned for each day it held its place; none without prices. */
export function earningResponses(trial: Trial): EarningResponse[] {
  const weight = yieldWeightOf(trial);
  const prices = bookPrices(trial);
  if (weight === undefined || prices.kind === "cannot-tell") return [];
  const money = trayMoney(trial, prices, weight);
  const net = meanNetPrice(prices, trial, weight === "dry" ? "dried" : "fresh");
  if (money.kind === "cannot-tell" || net.kind === "cannot-tell") return [];
  const [profit, perDay] = [new Map<Tray, number>(), new Map<Tray, number>()];
  const [takings, takingsPerDay] = [new Map<Tray, number>(), new Map<Tray, number>()];
  const grams = yieldPerStartedTray(weight);
  for (const { tray, profit: earned, days } of money.records) {
    const sold = (grams.of(tray) ?? 0) * net.perGram;
    profit.set(tray, earned / tray.traysInPool);
    takings.set(tray, sold);
    if (days === undefined || days <= 0) continue;
    perDay.set(tray, earned / days);
    takingsPerDay.set(tray, (sold * tray.traysInPool) / days);
  }
  return [
    ...earning("profit per started tray", "money", profit, takings),
    ...earning("profit per started tray and shelf day", "money/shelf day", perDay, takingsPerDay),
  ];
}
