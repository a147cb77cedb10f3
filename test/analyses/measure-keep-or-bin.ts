import { dueTrays } from "../../analyses/due/due-trays.ts";
import { type KeepOrBin, keepOrBin } from "../../analyses/due/keep-or-bin.ts";
import { placeMoney } from "../../analyses/process/flush-money.ts";
import { freshTrays } from "../../analyses/process/flush-shares.ts";
import { type YearTray, yearTrays, yearTruth } from "../../data-samples/first-year.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { line, product } from "../costing/sample-records.ts";
import { recordsOn } from "./measure-year.ts";
import { moneyTrial } from "./money-books.ts";

/** Advice on late trays over simulated years: money a tray better than the other choice, as it was said and as it came. */
export interface AdviceRates {
  trays: number;
  said: number;
  came: number;
  /** share of the advice after which the other choice would have left more */
  regretted: number;
}

const costs = [
  line({ item: "substrate and bag", packPrice: 1.2, per: "tray" }),
  line({ item: "rent", packPrice: 0.05, packUnit: "day", per: "shelf day" }),
];
const dried = [product({ currentPrice: 14, grams: 40 })];

/** Days until a lost tray is seen to be lost where nobody looks closely. */
const unseen = 21;

const seenLate = (tray: YearTray): YearTray => (tray.lost === undefined ? tray : { ...tray, lost: tray.lost + unseen });

/**
 * Follows the first advice on each late tray, week by week, for growers who see a loss three weeks late.
 * @param shelfPlaces few places are always full; many are never
 */
export function measureKeepOrBin(years: number, shelfPlaces: number): Record<KeepOrBin["advice"], AdviceRates> {
  const gains = { keep: [] as [number, number][], bin: [] as [number, number][] };
  for (let seed = 1; seed <= years; seed++) {
    const trays = yearTrays(seed).map(seenLate);
    const truth = new Map(trays.map((tray) => [tray.trayId, tray]));
    const advised = new Set<string>();
    const first = dayNumber(yearTruth.firstDay);
    for (let day = first + 90; day < first + 330; day += 7) {
      const records = recordsOn(trays, day);
      const trial = moneyTrial(records, costs, dried, { shelfPlaces });
      const weight = yieldWeightOf({ trays: records });
      if (weight === undefined) continue;
      const money = placeMoney(trial, weight, freshTrays(records, weight));
      if (money.kind === "cannot-tell") continue;
      for (const row of keepOrBin(trial, dueTrays(records, trial.settings, dateOfDay(day)))) {
        const own = truth.get(row.trayId)!;
        if (advised.has(row.trayId) || (own.harvested ?? 0) <= day === (own.lost === undefined)) continue;
        advised.add(row.trayId);
        const days = (own.lost ?? own.harvested!) - day;
        const waiting = (own.lost === undefined ? own.dryGrams! * money.left : 0) - days * money.costPerShelfDay;
        const place = row.place > 0 ? days * money.newTrayPerDay : 0;
        const sign = row.advice === "keep" ? 1 : -1;
        gains[row.advice].push([sign * (row.waiting - row.place), sign * (waiting - place)]);
      }
    }
  }
  const rates = (rows: [number, number][]): AdviceRates => {
    const mean = (at: 0 | 1) => rows.reduce((sum, row) => sum + row[at], 0) / Math.max(1, rows.length);
    return {
      ...{ trays: rows.length, said: mean(0), came: mean(1) },
      regretted: rows.filter(([, came]) => came < 0).length / Math.max(1, rows.length),
    };
  };
  return { keep: rates(gains.keep), bin: rates(gains.bin) };
}
