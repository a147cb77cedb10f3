import { dayNumber } from "../dates/calendar.ts";

/** Days from one ISO date to another; undefined when one is missing. */
export const daysFrom = (from: string | undefined, to: string | undefined): number | undefined =>
  from === undefined || to === undefined ? undefined : dayNumber(to) - dayNumber(from);
