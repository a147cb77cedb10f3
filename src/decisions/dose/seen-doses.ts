import { studentTQuantile } from "../../statistics/distributions/student-t.ts";
import type { AllPrices } from "./all-prices.ts";
import type { SeenDose, SeenMean } from "./dose-facts.ts";
import type { TestedDoses, TrayColumns } from "./tested-doses.ts";

/**
 * Mean of some records with t limits over cooks, or over records where one cook holds them all.
 * @param rows the records; `value` gives each one's value
 * @param can the least and the most that a tray can give: with few cooks t limits reach far beyond
 * @source ratio of cook totals to cook sizes: Cochran 1977, Sampling Techniques, section 6.3 (from memory); with equal
 *   cooks it is the t interval of their means
 */
function meanOverCooks(
  { cook, trays }: TrayColumns,
  rows: number[],
  value: (row: number) => number,
  can: readonly [least: number, most: number],
): SeenMean {
  let count = 0;
  let sum = 0;
  for (const row of rows) {
    count += trays[row]!;
    sum += trays[row]! * value(row);
  }
  const mean = sum / count;
  const byCook = new Map<number, number>();
  for (const row of rows) byCook.set(cook[row]!, (byCook.get(cook[row]!) ?? 0) + trays[row]! * (value(row) - mean));
  const excesses = byCook.size > 1 ? [...byCook.values()] : rows.map((row) => trays[row]! * (value(row) - mean));
  const units = excesses.length;
  if (units < 2) return { mean };
  const square = excesses.reduce((total, excess) => total + excess * excess, 0);
  const half = (studentTQuantile(0.975, units - 1) * Math.sqrt((square * units) / (units - 1))) / count;
  return { mean, low: Math.max(can[0], mean - half), high: Math.min(can[1], mean + half) };
}

/** Mean days of the records that are lost, or good; undefined where none is dated. */
export function meanDays({ trays, lost, days }: TrayColumns, ofLost: 0 | 1): number | undefined {
  let count = 0;
  let sum = 0;
  for (let row = 0; row < days.length; row++) {
    if (lost[row] !== ofLost || Number.isNaN(days[row])) continue;
    count += trays[row]!;
    sum += trays[row]! * days[row]!;
  }
  return count === 0 ? undefined : sum / count;
}

/** A tray gives at most this much more than the best so far, as for started trays (the verdict rules, section 8). */
const mostOfTray = 1.25;

/** Means of each dose from its own trays alone; a tray without days is taken at the mean of its kind. */
export function seenDoses({ doses, asTried, columns }: TestedDoses, prices: AllPrices): SeenDose[] {
  const { dose, cook, recorded, trays, lost, grams, days } = columns;
  const goodDays = meanDays(columns, 0);
  const lostDays = meanDays(columns, 1) ?? goodDays;
  const leftOf = (row: number): number => {
    const wasLost = lost[row] === 1;
    const usual = (wasLost ? lostDays : goodDays) ?? 0;
    const held = goodDays === undefined || Number.isNaN(days[row]) ? usual : days[row]!;
    const income = wasLost ? prices.recoveredPerLostTray : prices.perGram * grams[row]! - prices.perGoodTray;
    return income - prices.perDoseUnit * recorded[row]! - prices.perShelfDay * held - prices.perStartedTray;
  };
  const mostGrams = mostOfTray * grams.reduce((most, one) => (Number.isNaN(one) ? most : Math.max(most, one)), 0);
  const canLeave = (amount: number): [number, number] => {
    const held = Math.max(goodDays ?? 0, lostDays ?? 0);
    const paid = prices.perDoseUnit * amount + prices.perShelfDay * held + prices.perStartedTray;
    const incomes = [
      prices.recoveredPerLostTray,
      -prices.perGoodTray,
      prices.perGram * mostGrams - prices.perGoodTray,
    ].map((income) => income - paid);
    return [Math.min(...incomes), Math.max(...incomes) + prices.perShelfDay * held];
  };
  const rowsOf = doses.map((): number[] => []);
  for (let row = 0; row < dose.length; row++) rowsOf[dose[row]!]!.push(row);
  const count = (rows: number[]): number => rows.reduce((sum, row) => sum + trays[row]!, 0);
  return doses.map((amount, at) => {
    const own = rowsOf[at]!;
    const weighed = own.filter((row) => !Number.isNaN(grams[row]));
    const lostOnes = own.filter((row) => lost[row] === 1);
    const finished = own.filter((row) => lost[row] === 1 || !Number.isNaN(grams[row]));
    return {
      dose: amount,
      asTried: asTried[at]!,
      trays: count(own),
      lost: count(lostOnes),
      weighed: count(weighed),
      cooks: new Set(own.map((row) => cook[row]!)).size,
      grams: weighed.length === 0 ? undefined : meanOverCooks(columns, weighed, (row) => grams[row]!, [0, mostGrams]),
      left: finished.length === 0 ? undefined : meanOverCooks(columns, finished, leftOf, canLeave(amount)),
    };
  });
}
