import type { AllPrices } from "./all-prices.ts";
import type { CurveDraws } from "./curve-draws.ts";
import type { DayDraws } from "./day-draws.ts";
import type { DoseWork } from "./dose-tray.ts";
import type { LossDraws } from "./loss-draws.ts";

/** Money of a started tray per grid dose and draw (draw i at place j is entry j * count + i), and its means. */
export interface MoneyDraws {
  count: number;
  points: number;
  left: Float64Array;
  /** days of a started tray; absent without dates */
  days?: Float64Array;
  /** left of a started tray before own pay, per hour of work; absent without hours */
  perHour?: Float64Array;
  /** expected income of a started tray per grid dose: (1 - p) P grams */
  income: Float64Array;
}

/**
 * What a started tray leaves in each draw: (1 - p)(P grams - G) + p r - C dose - S days - O, grams below 0 counting as 0.
 * @source expected value of the two outcomes of a tray, this project's own
 */
export function moneyDraws(
  grid: ReadonlyArray<number>,
  { grams, count }: CurveDraws,
  { share }: LossDraws,
  dated: DayDraws | undefined,
  prices: AllPrices,
  work: DoseWork | undefined,
): MoneyDraws {
  const { perGram, perDoseUnit, perGoodTray, perShelfDay, perStartedTray, recoveredPerLostTray } = prices;
  const points = grid.length;
  const left = new Float64Array(count * points);
  const days = dated === undefined ? undefined : new Float64Array(count * points);
  const perHour = work === undefined ? undefined : new Float64Array(count * points);
  const income = new Float64Array(points);
  for (let j = 0; j < points; j++) {
    const paid = perDoseUnit * grid[j]! + perStartedTray;
    for (let at = j * count; at < (j + 1) * count; at++) {
      const lost = share[at]!;
      const good = 1 - lost;
      const product = good * Math.max(0, grams[at]!);
      let money = perGram * product - good * perGoodTray + lost * recoveredPerLostTray;
      money -= paid;
      if (days !== undefined) {
        const goodDays = dated!.days[at]!;
        days[at] = good * goodDays + lost * (dated!.lostDays ?? goodDays);
        money -= perShelfDay * days[at]!;
      }
      left[at] = money;
      income[j]! += perGram * product;
      if (perHour !== undefined) {
        const hours = work!.hoursPerStartedTray + good * work!.hoursPerGoodTray + product * work!.hoursPerGram;
        perHour[at] = (money + hours * work!.ownPayPerHour) / hours;
      }
    }
  }
  for (let j = 0; j < points; j++) income[j]! /= count;
  return { count, points, left, days, perHour, income };
}

/** Mean of the draws of one grid place. */
export function placeMean(values: Float64Array, count: number, at: number): number {
  let sum = 0;
  for (let i = at * count; i < (at + 1) * count; i++) sum += values[i]!;
  return sum / count;
}

/** Share of draws in which place `lower` lies below place `upper`. */
export function chanceBelow(values: Float64Array, count: number, lower: number, upper: number): number {
  let below = 0;
  for (let i = 0; i < count; i++) if (values[lower * count + i]! < values[upper * count + i]!) below++;
  return below / count;
}
