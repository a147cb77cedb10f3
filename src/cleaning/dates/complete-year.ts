import { dayNumber, isoDate, isRealDay } from "./calendar.ts";

/** A crop is over within this many days of any of its other dates. */
const longestCrop = 250;

/** Stages of a tray in the order they can happen. */
export const stageFields = ["inoculated_on", "colonised_on", "fruiting_on", "harvested_on", "dried_on"] as const;

/**
 * The year of a date typed without one: the only one that keeps the stages of its tray in order and within one crop;
 * where the row has no other date, the year of the whole sheet if that has only one.
 * @param days month and day, two where their order is open too
 * @param stage place of the date among the stages; @param others the row's full dates by stage
 * @param sheetYears first and last year of the sheet's full dates
 * @returns the ISO date, or undefined when none or several fit
 */
export function completeYear(
  days: ReadonlyArray<{ month: number; day: number }>,
  stage: number,
  others: ReadonlyArray<{ stage: number; iso: string }>,
  sheetYears: Readonly<{ first: number; last: number }> | undefined,
): string | undefined {
  let years: number[];
  if (others.length > 0) {
    years = [...new Set(others.flatMap(({ iso }) => [-1, 0, 1].map((step) => Number(iso.slice(0, 4)) + step)))];
  } else {
    if (sheetYears === undefined || sheetYears.first !== sheetYears.last) return undefined;
    years = [sheetYears.first];
  }
  const fitting = years.flatMap((year) =>
    days.flatMap(({ month, day }) => {
      if (!isRealDay(year, month, day)) return [];
      const iso = isoDate(year, month, day);
      const fits = others.every((other) => {
        if (other.stage < stage && other.iso > iso) return false;
        if (other.stage > stage && other.iso < iso) return false;
        return Math.abs(dayNumber(other.iso) - dayNumber(iso)) <= longestCrop;
      });
      return fits ? [iso] : [];
    }),
  );
  return fitting.length === 1 ? fitting[0] : undefined;
}
