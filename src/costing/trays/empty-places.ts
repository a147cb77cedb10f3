import { compensatedSum } from "../compensated-sum.ts";
import type { TrayCosts } from "./tray-costs.ts";

/** What a line per shelf day cost for places that stood empty. */
export interface EmptyPlaces {
  item: string;
  /** money for every place and day of the period */
  paid: number;
  /** of which no tray carried */
  empty: number;
}

/**
 * Rent and overhead counted per day of shelf, over all places of the settings from the first inoculation to the last day
 * anything is recorded on, less what trays carried. It is beside what the lines put on trays: a line per shelf day costs
 * what its trays took.
 * @returns lines with something left, none where the trays have no dates or no line is counted so
 * @example emptyPlaces(costs) // []
 */
export function emptyPlaces(costs: TrayCosts): EmptyPlaces[] {
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  costs.lives.forEach(({ start, end }, index) => {
    // without a date of inoculation days count from the tray's own start
    if (start === undefined || costs.trays[index]!.inoculatedOn === undefined) return;
    first = Math.min(first, start);
    last = Math.max(last, end ?? start);
  });
  if (!(last > first)) return [];
  const placeDays = costs.settings.shelfPlaces * (last - first);
  return costs.items.flatMap(({ item, kind, per, line, costPerUse }, row) => {
    const isForAllTime = line.stage === undefined || line.stage === "filling" || line.stage === "inoculation";
    const isForAll = line.onlyWhereColumn === undefined && line.fromDate === undefined && isForAllTime;
    if ((kind !== "space" && kind !== "overhead") || per !== "shelf day" || !isForAll) return [];
    const paid = costPerUse * placeDays;
    const empty = paid - compensatedSum(costs.amounts[row]!);
    return empty > 0 ? [{ item, paid, empty }] : [];
  });
}
