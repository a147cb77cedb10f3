import { daysBetween } from "./day-number.ts";
import { requireNotNegative, requirePositive } from "./require-amounts.ts";

/** What a sheet says about one stretch of a tray's life. Two dates win over a typed number of days. */
export interface Stretch {
  /** ISO 8601 date */
  from?: string | undefined;
  /** ISO 8601 date */
  to?: string | undefined;
  /** typed directly */
  days?: number | undefined;
}

/**
 * Days a stretch took, from its two dates or else as typed.
 * @returns undefined when neither is recorded, or when the dates run backwards (the cleaning log has that row)
 * @throws RangeError if a date does not exist or the typed days are negative
 */
function stretchDays(routine: string, { from, to, days }: Stretch): number | undefined {
  if (days !== undefined) requireNotNegative(routine, "days", days);
  if (from === undefined || to === undefined) return days;
  const counted = daysBetween(from, to);
  return counted < 0 ? undefined : counted;
}

/**
 * Days from inoculation to the first look that showed the tray fully colonised.
 * @param stretch from: inoculated; to: colonised; days: typed
 * @returns undefined when not recorded, or when the dates run backwards
 * @throws RangeError if a date does not exist or the typed days are negative
 * @example daysToColonise({ from: "2026-01-01", to: "2026-01-09" }) // 8
 */
export const daysToColonise = (stretch: Stretch): number | undefined => stretchDays("daysToColonise", stretch);

/**
 * Days from inoculation to harvest.
 * @param stretch from: inoculated; to: harvested; days: typed
 * @returns undefined when not recorded, or when the dates run backwards
 * @throws RangeError if a date does not exist or the typed days are negative
 * @example daysToHarvest({ days: 55 }) // 55
 */
export const daysToHarvest = (stretch: Stretch): number | undefined => stretchDays("daysToHarvest", stretch);

/**
 * Days a tray held its place on a shelf.
 * @param stretch from: put there; to: taken away, harvested or lost; days: typed
 * @returns undefined when not recorded, or when the dates run backwards
 * @throws RangeError if a date does not exist or the typed days are negative
 * @example shelfDays({ from: "2026-01-20", to: "2026-02-25" }) // 36
 */
export const shelfDays = (stretch: Stretch): number | undefined => stretchDays("shelfDays", stretch);

/**
 * Yield for each day a shelf place was held: the fair profitabilityMeasure when places are what is short.
 * @param grams of one kind of weight, fresh or dried; @param daysOnShelf above 0
 * @returns grams per shelf day
 * @throws RangeError if grams is negative or daysOnShelf is not above 0
 * @example yieldPerShelfDay(45, 60) // 0.75
 */
export function yieldPerShelfDay(grams: number, daysOnShelf: number): number {
  requireNotNegative("yieldPerShelfDay", "grams", grams);
  requirePositive("yieldPerShelfDay", "daysOnShelf", daysOnShelf);
  return grams / daysOnShelf;
}
