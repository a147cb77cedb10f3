import type { Trial } from "../../src/analysis.ts";
import { compensatedSum } from "../../src/costing/compensated-sum.ts";
import type { DoseWork } from "../../src/decisions/dose/index.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { type BookPrices, meanNetPrice } from "./book-prices.ts";
import { itemHours } from "./tray-money.ts";

/**
 * Hours of work by what they follow, and what own time is paid of them, from the labour lines and the packing of products.
 * @returns undefined where no labour line in hours is there, or nothing was good
 */
export function doseWork(trial: Trial, prices: BookPrices, weight: "fresh" | "dried"): DoseWork | undefined {
  const net = meanNetPrice(prices, trial, weight);
  if (net.kind === "cannot-tell") return undefined;
  const { costs } = prices;
  const finished = costs.trays.flatMap((tray, index) => (hasEnded(tray) ? [{ tray, index }] : []));
  const good = finished.filter(({ tray }) => tray.outcome === "good");
  const sum = (of: (one: (typeof finished)[number]) => number, among = finished): number =>
    compensatedSum(among.map(of));
  const started = sum(({ tray }) => tray.traysInPool);
  const goodTrays = sum(({ tray }) => tray.traysInPool, good);
  const grams = sum(({ tray }) => (weight === "dried" ? tray.dryGrams : tray.freshGrams) ?? 0, good);
  if (goodTrays === 0 || grams === 0) return undefined;
  const hours = { started: 0, good: 0, gram: net.hoursPerGram * grams };
  let ownPay = trial.settings.ownerLabourRate * hours.gram;
  costs.items.forEach((item, row) => {
    const taken = itemHours(costs, row);
    if (taken === undefined) return;
    const { per } = item;
    const follows = per === "good tray" ? "good" : per === "kg fresh" || per === "kg dried" ? "gram" : "started";
    const share = item.stage === "drying" ? net.driedShare : 1;
    hours[follows] += share * sum(({ index }) => taken[index]!);
    if (item.ownerLabour) ownPay += share * sum(({ index }) => costs.amounts[row]![index]!);
  });
  if (!(hours.started > 0)) return undefined;
  return {
    hoursPerStartedTray: hours.started / started,
    hoursPerGoodTray: hours.good / goodTrays,
    hoursPerGram: hours.gram / grams,
    ownPayPerHour: ownPay / (hours.started + hours.good + hours.gram),
  };
}
