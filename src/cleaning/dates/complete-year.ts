import { dayNumber, isoDate, isRealDay } from "./calendar.ts";

/** A crop is over within this many days of any of its other dates. */
const longestCrop = 250;

/** Stages of a tray in the order they can happen. */
export const stageFields = ["inoculated_on", "colonised_on", "fruiting_on", "harvested_on", "dried_on"] as const;

/** The first and the last full date of a column, ISO 8601. */
export interface DateSpan {
  first: string;
  last: string;
}

/**
 * The year of a date typed without one: the only one in which it lies within a crop's length of the full dates of its
 * row or column and keeps the stages of its tray in order and within one crop.
 * @param days month and day, two where their order is open too
 * @param stage place of the date among the stages; @param others the row's full dates by stage
 * @param span of those full dates
 * @returns the ISO date, or undefined when none or several fit
 * @example completeYear([{ month: 1, day: 3 }], 0, [], { first: "2025-12-01", last: "2026-01-20" }) // "2026-01-03"
 */
export function completeYear(
  days: ReadonlyArray<{ month: number; day: number }>,
  stage: number,
  others: ReadonlyArray<{ stage: number; iso: string }>,
  span: DateSpan,
): string | undefined {
  const [from, to] = [dayNumber(span.first) - longestCrop, dayNumber(span.last) + longestCrop];
  const [firstYear, lastYear] = [Number(span.first.slice(0, 4)) - 1, Number(span.last.slice(0, 4)) + 1];
  const fitting: string[] = [];
  for (let year = firstYear; year <= lastYear; year++) {
    for (const { month, day } of days) {
      if (!isRealDay(year, month, day)) continue;
      const iso = isoDate(year, month, day);
      const number = dayNumber(iso);
      if (number < from || number > to) continue;
      const fits = others.every((other) => {
        if (other.stage < stage && other.iso > iso) return false;
        if (other.stage > stage && other.iso < iso) return false;
        return Math.abs(dayNumber(other.iso) - number) <= longestCrop;
      });
      if (fits) fitting.push(iso);
    }
  }
  return fitting.length === 1 ? fitting[0] : undefined;
}

/**
 * A date typed without its year, counted on from the row above: nearest to the column's date above, or in the stated year
 * where nothing stands above.
 * @param above ISO date of the row above, or the stated year
 * @returns the ISO date, or undefined where day and month could be swapped or the day does not exist
 * @example countedOn([{ month: 1, day: 3 }], "2025-12-20") // "2026-01-03"
 * @example countedOn([{ month: 11, day: 3 }], 2025) // "2025-11-03"
 */
export function countedOn(
  days: ReadonlyArray<{ month: number; day: number }>,
  above: string | number,
): string | undefined {
  const [only] = days;
  if (only === undefined || days.length > 1) return undefined;
  const stated = typeof above === "number";
  const years = stated ? [above] : [-1, 0, 1].map((by) => Number(above.slice(0, 4)) + by);
  const distance = (iso: string): number => (stated ? 0 : Math.abs(dayNumber(iso) - dayNumber(above)));
  return years
    .filter((year) => isRealDay(year, only.month, only.day))
    .map((year) => isoDate(year, only.month, only.day))
    .sort((a, b) => distance(a) - distance(b))[0];
}
