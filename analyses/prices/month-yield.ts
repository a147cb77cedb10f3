import type { Trial } from "../../src/analysis.ts";
import type { Range } from "../../src/costing/products/product-mix.ts";
import { countedEnds } from "../../src/records/ended-cooks.ts";
import type { Tray } from "../../src/records/tray.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";

/** Grams a started tray gives on average over a month, and how far a month could fall to either side. */
export interface MonthYield {
  grams: Range;
  /** what the spread was taken from; "none" where there are too few to tell */
  from: "cooks" | "trays" | "none";
  units: number;
}

interface Unit {
  grams: number;
  weighed: number;
  good: number;
  started: number;
}

/** Grams per started tray: of the good ones weighed, times the share that was good. */
const perStarted = ({ grams, weighed, good, started }: Unit): number =>
  weighed === 0 ? 0 : (grams / weighed) * (good / started);

function unitsBy(trays: ReadonlyArray<Tray>, weight: "fresh" | "dried", keyOf: (tray: Tray) => string): Unit[] {
  const units = new Map<string, Unit>();
  for (const tray of trays) {
    const unit = units.get(keyOf(tray)) ?? { grams: 0, weighed: 0, good: 0, started: 0 };
    units.set(keyOf(tray), unit);
    unit.started += tray.traysInPool;
    if (tray.outcome !== "good") continue;
    unit.good += tray.traysInPool;
    const grams = weight === "fresh" ? tray.freshGrams : tray.dryGrams;
    if (grams === undefined) continue;
    unit.grams += grams;
    unit.weighed += tray.traysInPool;
  }
  // a unit whose good trays were never weighed says nothing
  return [...units.values()].filter(({ good, weighed }) => good === 0 || weighed > 0);
}

/**
 * What a month's trays may give: the interval in which the mean of a month's trays would lie, from the spread between the
 * book's own cooks, or between its trays where cooks are fewer than three.
 * @param mean grams per started tray, the middle of the range
 * @param traysAMonth how many trays a month would hold
 * @source prediction interval of a mean, mean +/- t s sqrt(1/k + 1/n); textbook
 */
export function monthYield(trial: Trial, weight: "fresh" | "dried", mean: number, traysAMonth: number): MonthYield {
  const finished = countedEnds(trial.trays);
  const cooks = finished.every(({ batch }) => batch !== undefined)
    ? unitsBy(finished, weight, ({ batch }) => batch!)
    : [];
  const byCook = cooks.length >= 3;
  const units = byCook ? cooks : unitsBy(finished, weight, ({ trayId }) => trayId);
  const count = units.length;
  if (count < 3) return { grams: { low: mean, mid: mean, high: mean }, from: "none", units: count };
  const values = units.map(perStarted);
  const centre = values.reduce((sum, value) => sum + value, 0) / count;
  const variance = values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (count - 1);
  const perUnit = units.reduce((sum, { started }) => sum + started, 0) / count;
  const unitsAMonth = Math.max(1, traysAMonth / perUnit);
  const reach =
    studentTQuantile((1 + trial.settings.intervalLevel) / 2, count - 1) *
    Math.sqrt(variance * (1 / count + 1 / unitsAMonth));
  return {
    grams: { low: Math.max(0, mean - reach), mid: mean, high: mean + reach },
    from: byCook ? "cooks" : "trays",
    units: count,
  };
}
