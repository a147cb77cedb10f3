import { dayNumber } from "../dates/calendar.ts";

const known = new Map<string, number>();

/** Days from one ISO date to another; undefined when one is missing. Dates of a book repeat, so each is counted once. */
export function daysFrom(from: string | undefined, to: string | undefined): number | undefined {
  if (from === undefined || to === undefined) return undefined;
  return numberOf(to) - numberOf(from);
}

function numberOf(iso: string): number {
  let day = known.get(iso);
  if (day === undefined) {
    day = dayNumber(iso);
    if (known.size < 50_000) known.set(iso, day);
  }
  return day;
}
