import type { Trial } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { isFinished, type TrayResponse, yieldWeightOf } from "../comparison/tray-response.ts";
import { bookCosts, bookPrices } from "../costs/book-prices.ts";
import { trayMoney } from "../costs/tray-money.ts";

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
    if (!isFinished(tray)) return;
    const energy = rows.reduce((sum, amounts) => sum + amounts[index]!, 0) / tray.traysInPool;
    values.set(tray, energy);
    least = Math.min(least, energy);
    most = Math.max(most, energy);
  });
  return most - least > 1e-9 * Math.max(1, Math.abs(most))
    ? perTray("energy of a started tray", "money", values)
    : undefined;
}

/** The label of the response that says whether a temperature pays. */
export const profitPerStartedTray = "profit per started tray";

/** What a started tray earned, and earned for each day it held its place; none without prices. */
export function earningResponses(trial: Trial): TrayResponse[] {
  const weight = yieldWeightOf(trial.trays);
  const prices = bookPrices(trial);
  if (weight === undefined || prices.kind === "cannot-tell") return [];
  const money = trayMoney(trial, prices, weight);
  if (money.kind === "cannot-tell") return [];
  const profit = new Map<Tray, number>();
  const perDay = new Map<Tray, number>();
  for (const { tray, profit: earned, days } of money.records) {
    profit.set(tray, earned / tray.traysInPool);
    if (days !== undefined && days > 0) perDay.set(tray, earned / days);
  }
  return [
    perTray(profitPerStartedTray, "money", profit),
    ...(perDay.size === 0 ? [] : [perTray("profit per started tray and shelf day", "money/shelf day", perDay)]),
  ];
}
