import { dayNumber } from "../../src/measures/day-number.ts";
import { pickingsOf, type Tray } from "../../src/records/tray.ts";
import { lastDateOf } from "../comparison/tray-days.ts";

/** The days of a tray's life that are known on a given day, as day numbers. */
export interface KnownDays {
  inoculated: number | undefined;
  colonised: number | undefined;
  fruiting: number | undefined;
  /** pickings, in order */
  picked: number[];
  /** whether the tray still grew on that day, as far as the sheets tell */
  grows: boolean;
}

/** The day the list is for, and the last day up to which the sheets tell anything. */
export interface DueDay {
  on: number;
  known: number;
}

/** The day a list is for: never later known than the book's last date. */
export function dueDay(trays: ReadonlyArray<Tray>, on: string): DueDay {
  const last = lastDateOf(trays);
  const day = dayNumber(on);
  return { on: day, known: last === undefined ? day : Math.min(day, dayNumber(last)) };
}

/**
 * What is known of a tray on a day. What happened later is not known yet, so that a past day gives the list as it was then;
 * only trays lost later are left out, since sheets do not say when a tray was lost.
 * @returns undefined for a tray that had not been started
 */
export function knownDays(tray: Tray, { on }: DueDay): KnownDays | undefined {
  const dayOf = (date: string | undefined) => (date === undefined ? undefined : dayNumber(date));
  const inoculated = dayOf(tray.inoculatedOn);
  if (inoculated !== undefined && inoculated > on) return undefined;
  const after = (days: number | undefined) =>
    days === undefined || inoculated === undefined ? undefined : inoculated + Math.round(days);
  const colonised = dayOf(tray.colonisedOn) ?? after(tray.daysToColonise);
  const fruiting = dayOf(tray.fruitingOn);
  const first = dayOf(tray.harvestedOn) ?? after(tray.daysToHarvest);
  const pickings = first === undefined ? [] : [first];
  for (const { harvestedOn } of pickingsOf(tray)) {
    const day = dayOf(harvestedOn);
    if (day !== undefined && !pickings.includes(day)) pickings.push(day);
  }
  pickings.sort((a, b) => a - b);
  const picked = pickings.filter((day) => day <= on);
  const begun = inoculated ?? colonised ?? fruiting ?? pickings[0];
  if (begun !== undefined && begun > on) return undefined;
  const known = (day: number | undefined) => (day === undefined || day > on ? undefined : day);
  return {
    inoculated: known(inoculated),
    colonised: known(colonised),
    fruiting: known(fruiting),
    picked,
    grows: tray.outcome === "growing" || (tray.outcome === "good" && pickings.length > picked.length),
  };
}
