import { dateOfDay } from "../../src/measures/day-number.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord } from "./demo-records.ts";

/** Trays whose true days are known: cooks a week apart, each with an effect of its own on how long its trays take. */
export interface DueBook {
  seed: number;
  cooks: number;
  traysPerCook: number;
  /** standard deviation between cooks and between trays of one cook, as a share of the days */
  cookSd: number;
  traySd: number;
  lost?: number;
  /** "skewed": a long tail of late trays */
  law?: "bell" | "skewed";
  strains?: number;
  /** chance that a picked tray gives a second flush, about 12 days later */
  second?: number;
}

const start = 20_454; // 2026-01-01

/** Draws such a book; every tray that is not lost is harvested, whatever the day. */
export function dueBook({
  seed,
  cooks,
  traysPerCook,
  cookSd,
  traySd,
  lost = 0,
  law = "bell",
  strains = 1,
  second = 0,
}: DueBook): Tray[] {
  const random = seededRandom(seed);
  const draw = (mean: number, cook: number): number => {
    const z = law === "bell" ? random.normal() : -Math.log(1 - random.uniform()) - 1;
    return Math.max(1, Math.round(mean * (1 + cook * cookSd + z * traySd)));
  };
  return Array.from({ length: cooks }, (_, cook) => {
    const effect = random.normal();
    return Array.from({ length: traysPerCook }, (_, tray) => {
      const inoculated = start + 7 * cook;
      const slow = strains > 1 && tray % strains === 1 ? 1.4 : 1;
      const colonised = inoculated + draw(15 * slow, effect);
      const fruiting = colonised + 1 + (tray % 2);
      const harvested = fruiting + draw(25 * slow, random.normal() * 0.5 + effect * 0.5);
      const isLost = random.uniform() < lost;
      const pickings = [harvested, ...(second > 0 && random.uniform() < second ? [harvested + draw(12, effect)] : [])];
      return trayRecord({
        trayId: `C${cook + 1}-${tray + 1}`,
        batch: `C${cook + 1}`,
        strain: `strain ${1 + (tray % strains)}`,
        inoculumMillilitres: 6,
        inoculatedOn: dateOfDay(inoculated),
        ...(isLost
          ? { outcome: "contaminated" as const }
          : {
              colonisedOn: dateOfDay(colonised),
              fruitingOn: dateOfDay(fruiting),
              harvestedOn: dateOfDay(harvested),
              dryGrams: 30,
              flushes: pickings.map((day, index) => ({ number: index + 1, dryGrams: 30, harvestedOn: dateOfDay(day) })),
            }),
      });
    });
  }).flat();
}

/** day of a simulated book's first cook */
export const firstDay = start;
