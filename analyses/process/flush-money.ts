import type { Trial } from "../../src/analysis.ts";
import { daysCharged } from "../../src/costing/trays/tray-life.ts";
import { hasEnded } from "../../src/records/tray.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { bookPrices, meanNetPrice } from "../costs/book-prices.ts";
import type { FreshTray, LaterFlushes } from "./flush-shares.ts";

/** What a gram and a place leave. Money. */
export interface PlaceMoney {
  kind: "money";
  /** net of fees, packing and sending */
  pricePerGram: number;
  /** costs counted per shelf day */
  costPerShelfDay: number;
  /** costs counted per gram of what is picked or dried */
  costPerGram: number;
  /** price of a gram less what a gram costs to pick and dry */
  left: number;
  /** everything else a started tray costs */
  costOfStarting: number;
  /** what a new tray leaves for each day its place is held */
  newTrayPerDay: number;
  products: string[];
}

/** What a later flush and a new tray leave for each day a place is held. */
export interface FlushMoney extends PlaceMoney {
  laterPerDay: number;
}

const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);

/**
 * What a gram leaves, and what a new tray leaves for each day its place is held, with all it takes to start one.
 * @returns the reason where the book lacks prices or costs for it
 */
export function placeMoney(
  trial: Trial,
  weight: YieldWeight,
  fresh: ReadonlyArray<FreshTray>,
): PlaceMoney | { kind: "cannot-tell"; reason: string } {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") return prices;
  const price = meanNetPrice(prices, trial, weight === "dry" ? "dried" : "fresh");
  if (price.kind === "cannot-tell") return price;
  const { costs } = prices;
  let [days, dayMoney, grams, gramMoney, otherMoney, trays] = [0, 0, 0, 0, 0, 0];
  costs.trays.forEach((tray, index) => {
    if (!hasEnded(tray)) return;
    trays += tray.traysInPool;
    days += (daysCharged(costs.lives[index]!, "filling") ?? 0) * tray.traysInPool;
    if (tray.outcome === "good") grams += (weight === "dry" ? tray.dryGrams : tray.freshGrams) ?? 0;
    costs.items.forEach(({ per, stage }, row) => {
      const amount = costs.amounts[row]![index]! * (stage === "drying" ? price.driedShare : 1);
      if (per === "shelf day") dayMoney += amount;
      else if (per === "kg fresh" || per === "kg dried") gramMoney += amount;
      else otherMoney += amount;
    });
  });
  const [costPerShelfDay, costPerGram, costOfStarting] = [
    days > 0 ? dayMoney / days : 0,
    grams > 0 ? gramMoney / grams : 0,
    otherMoney / trays,
  ];
  const left = price.perGram - costPerGram;
  const started = sum(fresh.map(({ tray }) => tray.traysInPool));
  const newGrams = sum(fresh.map(({ grams: own, tray }) => own * tray.traysInPool));
  const newDays = sum(fresh.map(({ days: own, tray }) => own * tray.traysInPool));
  return {
    kind: "money",
    pricePerGram: price.perGram,
    costPerShelfDay,
    costPerGram,
    costOfStarting,
    left,
    newTrayPerDay: (newGrams * left - started * costOfStarting) / newDays - costPerShelfDay,
    products: price.products,
  };
}

/**
 * Money a place leaves a day: a later flush pays for its days and its grams only; a new tray also for everything it takes to
 * start one.
 * @returns the reason where the book lacks prices or costs for it
 */
export function flushMoney(
  trial: Trial,
  weight: YieldWeight,
  kept: ReadonlyArray<LaterFlushes>,
  fresh: ReadonlyArray<FreshTray>,
): FlushMoney | { kind: "cannot-tell"; reason: string } {
  const money = placeMoney(trial, weight, fresh);
  if (money.kind === "cannot-tell") return money;
  const laterGrams = sum(kept.map(({ laterGrams: own, tray }) => own * tray.traysInPool));
  const laterDays = sum(kept.map(({ extraDays, tray }) => extraDays * tray.traysInPool));
  return { ...money, laterPerDay: (laterGrams * money.left) / laterDays - money.costPerShelfDay };
}
