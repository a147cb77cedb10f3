import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord } from "./demo-records.ts";

/** A book whose truth is known. */
export interface SimulatedBook {
  seed: number;
  cooks: number;
  traysPerDose: number;
  doses: ReadonlyArray<number>;
  /** true mean of a good tray at a dose */
  mean(dose: number): number;
  cookSd: number;
  traySd: number;
  /** standard deviation of what a cook adds to one dose alone */
  cookDoseSd?: number;
  /** share lost at a dose */
  loss?(dose: number): number;
  file?: string;
  /** what cook names begin with */
  prefix?: string;
  /** whatever else a tray has */
  extra?(place: { cook: number; dose: number; copy: number }): Partial<Tray>;
}

const day = (number: number): string => new Date(Date.UTC(2026, 0, 1 + number)).toISOString().slice(0, 10);

/** Randomised blocks: every cook holds every dose equally often; cooks follow each other by a fortnight. */
export function simulateBook(book: SimulatedBook): Tray[] {
  const random = seededRandom(book.seed);
  const { prefix = "C" } = book;
  return Array.from({ length: book.cooks }, (_, cook) => {
    const cookEffect = random.normal() * book.cookSd;
    return book.doses.flatMap((dose) => {
      const own = random.normal() * (book.cookDoseSd ?? 0);
      return Array.from({ length: book.traysPerDose }, (_, copy) => {
        const grams = book.mean(dose) + cookEffect + own + random.normal() * book.traySd;
        const lost = random.uniform() < (book.loss?.(dose) ?? 0);
        return trayRecord({
          trayId: `${prefix}${cook + 1}-${dose}-${copy + 1}`,
          batch: `${prefix}${cook + 1}`,
          inoculumMillilitres: dose,
          inoculatedOn: day(14 * cook),
          sources: [{ file: book.file ?? "harvests/one.csv", row: 2 }],
          ...(lost
            ? { outcome: "contaminated" as const }
            : { harvestedOn: day(14 * cook + 45), dryGrams: grams, freshGrams: grams * 9 }),
          ...book.extra?.({ cook, dose, copy }),
        });
      });
    });
  }).flat();
}
