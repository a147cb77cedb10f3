import { daysBetween } from "./day-number.ts";
import { requireNotNegative } from "./require-amounts.ts";

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
