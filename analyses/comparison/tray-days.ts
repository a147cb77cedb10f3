import { daysToColonise, daysToHarvest } from "../../src/measures/crop-days.ts";
import { daysBetween } from "../../src/measures/day-number.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { TrayResponse } from "./tray-response.ts";

/** Days from inoculation to the first look that showed the tray fully colonised. */
export const colonisationDays: TrayResponse = {
  label: "days to colonise",
  unit: "days",
  of: ({ inoculatedOn, colonisedOn, daysToColonise: typed }) =>
    daysToColonise({
      ...(inoculatedOn === undefined ? {} : { from: inoculatedOn }),
      ...(colonisedOn === undefined ? {} : { to: colonisedOn }),
      ...(typed === undefined ? {} : { days: typed }),
    }),
};

/** Days from inoculation to harvest. */
export const harvestDays: TrayResponse = {
  label: "days to harvest",
  unit: "days",
  of: ({ inoculatedOn, harvestedOn, daysToHarvest: typed }) =>
    daysToHarvest({
      ...(inoculatedOn === undefined ? {} : { from: inoculatedOn }),
      ...(harvestedOn === undefined ? {} : { to: harvestedOn }),
      ...(typed === undefined ? {} : { days: typed }),
    }),
};

/** The last date any record of the book mentions: unfinished trays were seen then at the latest. */
export function lastDateOf(trays: ReadonlyArray<Tray>): string | undefined {
  let last: string | undefined;
  for (const tray of trays) {
    for (const date of [tray.inoculatedOn, tray.colonisedOn, tray.fruitingOn, tray.harvestedOn, tray.driedOn]) {
      if (date !== undefined && (last === undefined || date > last)) last = date;
    }
  }
  return last;
}

/** A waiting time known to lie above `lower` and at or below `upper` (Infinity while still waiting), in days. */
export interface WaitingTime {
  lower: number;
  upper: number;
}

/**
 * How long a tray took to colonise, as far as it is known: trays are looked at once a day, so "day 12" means after day 11
 * and by day 12; a tray not yet colonised has waited from inoculation to the book's last date.
 * @param lastDate the book's last date
 * @returns undefined when nothing is known, or the tray was lost before it had colonised
 */
export function colonisationWait(tray: Tray, lastDate: string | undefined): WaitingTime | undefined {
  const days = colonisationDays.of(tray);
  if (days !== undefined) return { lower: Math.max(0, days - 1), upper: Math.max(days, 0.5) };
  const bounds = tray.bounds.days_to_colonise;
  if (bounds !== undefined) return { lower: bounds.low ?? 0, upper: bounds.high ?? Number.POSITIVE_INFINITY };
  if (tray.outcome !== "growing" || tray.colonisedOn !== undefined || tray.inoculatedOn === undefined) return undefined;
  if (lastDate === undefined) return undefined;
  const waited = daysBetween(tray.inoculatedOn, lastDate);
  return waited > 0 ? { lower: waited, upper: Number.POSITIVE_INFINITY } : undefined;
}
