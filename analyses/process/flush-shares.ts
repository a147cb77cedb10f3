import { dayNumber } from "../../src/measures/day-number.ts";
import { hasEnded, pickingsOf, type Tray } from "../../src/records/tray.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";

/** A good tray with a later flush, picked apart. */
export interface LaterFlushes {
  tray: Tray;
  firstGrams: number;
  laterGrams: number;
  /** days from the first picking to the last */
  extraDays: number;
  /** later pickings */
  pickings: number;
}

/** Why a tray with several flushes could not be used. */
export type FlushGap = "a picking has no weight" | "a picking has no date, or dates run backwards";

const dayOf = (date: string | undefined): number | undefined => (date === undefined ? undefined : dayNumber(date));

/**
 * Picks a tray's flushes apart: the first, and all later ones together.
 * @returns undefined for a tray with fewer than two pickings; the reason where weights or dates do not tell
 */
export function laterFlushes(tray: Tray, weight: YieldWeight): LaterFlushes | FlushGap | undefined {
  const flushes = pickingsOf(tray);
  const [first, ...later] = flushes;
  if (first === undefined || later.length === 0) return undefined;
  const grams = flushes.map((flush) => (weight === "dry" ? flush.dryGrams : flush.freshGrams));
  if (grams.some((one) => one === undefined)) return "a picking has no weight";
  const days = flushes.map(({ harvestedOn }) => dayOf(harvestedOn));
  const [start, end] = [days[0], days.at(-1)];
  const known = days.flatMap((day) => day ?? []);
  if (start === undefined || end === undefined || known.some((day, index) => index > 0 && day < known[index - 1]!)) {
    return "a picking has no date, or dates run backwards";
  }
  return {
    tray,
    firstGrams: grams[0]! / tray.traysInPool,
    laterGrams: grams.slice(1).reduce<number>((sum, one) => sum + one!, 0) / tray.traysInPool,
    extraDays: end - start,
    pickings: later.length,
  };
}

/** What a place gives when a new tray is started in it: saleable grams of the first flush, and days until it is picked. */
export interface FreshTray {
  tray: Tray;
  /** 0 for a lost tray */
  grams: number;
  days: number;
  fruitingDays: number | undefined;
}

/**
 * First flush of every finished tray, lost ones with nothing. A lost tray without a date of its end is taken to have stood as
 * long as the others took to their first picking.
 */
export function freshTrays(trays: ReadonlyArray<Tray>, weight: YieldWeight): FreshTray[] {
  const rows: (Omit<FreshTray, "days"> & { days: number | undefined })[] = trays.flatMap((tray) => {
    const lost = tray.outcome !== "good" && hasEnded(tray);
    const [first, ...later] = pickingsOf(tray);
    const from = dayOf(tray.inoculatedOn);
    const fruited = dayOf(tray.fruitingOn);
    const end = dayOf(lost ? tray.harvestedOn : (first?.harvestedOn ?? tray.harvestedOn));
    const between = (start: number | undefined) =>
      start === undefined || end === undefined || end < start ? undefined : end - start;
    if (lost)
      return [
        { tray, grams: 0, days: between(from), fruitingDays: fruited === undefined ? undefined : between(fruited) },
      ];
    if (tray.outcome !== "good") return [];
    const grams = weight === "dry" ? first?.dryGrams : first?.freshGrams;
    const days = between(from) ?? (later.length === 0 ? tray.daysToHarvest : undefined);
    if (grams === undefined || days === undefined) return [];
    return [{ tray, grams: grams / tray.traysInPool, days, fruitingDays: between(fruited) }];
  });
  const dated = rows.flatMap(({ days }) => days ?? []);
  if (dated.length === 0) return [];
  const usual = dated.reduce((sum, days) => sum + days, 0) / dated.length;
  return rows.map((row) => ({ ...row, days: row.days ?? usual }));
}
