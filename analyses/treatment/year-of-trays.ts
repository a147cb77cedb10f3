import type { Trial } from "../../src/analysis.ts";
import { daysBetween } from "../../src/measures/day-number.ts";

/** Fillings of the shelves in a year where a book has no dates: a crop of about two months. Common practice, no source. */
const usualFillings = 6;

/** Trays started in a year at the rate of the book; from the shelf places where dates are missing or span under a month. */
export function startsPerYear({ trays, settings }: Pick<Trial, "trays" | "settings">): number {
  let [first, last]: [string | undefined, string | undefined] = [undefined, undefined];
  let started = 0;
  for (const { inoculatedOn: date, traysInPool } of trays) {
    if (date === undefined) continue;
    started += traysInPool;
    if (first === undefined || date < first) first = date;
    if (last === undefined || date > last) last = date;
  }
  const days = first === undefined || last === undefined ? 0 : daysBetween(first, last);
  if (days < 28) return usualFillings * settings.shelfPlaces;
  // the last cook's own interval to the next counts too: as many gaps as cooks, on average
  const dates = new Set(trays.flatMap(({ inoculatedOn }) => inoculatedOn ?? [])).size;
  return (started * 365.25) / (days * (dates / Math.max(1, dates - 1)));
}
