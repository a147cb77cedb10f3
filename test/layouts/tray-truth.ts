import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";

/** What is so of one tray, however its sheet is typed. */
export interface TrueTray {
  name: string;
  batch: string;
  /** mL */
  dose: number;
  strain: string;
  inoculatedOn: string;
  harvestedOn?: string;
  /** grams of each flush; none for a lost tray */
  fresh: number[];
  dry?: number;
  isLost: boolean;
}

const dayAfter = (iso: string, days: number): string =>
  new Date(Date.parse(`${iso}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Trays of one book: two or three cooks, two or three doses in each, up to a fifth of them lost. Seeded. */
export function trueTrays(random: SeededRandom, flushes: number): TrueTray[] {
  const batches = 2 + random.integer(2);
  const doses = [5, 10, 15, 20].slice(random.integer(2)).slice(0, 2 + random.integer(2));
  const each = 1 + random.integer(3);
  const start = dayAfter("2026-01-05", random.integer(120));
  const strains = ["Blue", "Pearl"];
  const trays: TrueTray[] = [];
  for (let batch = 0; batch < batches; batch++) {
    const inoculatedOn = dayAfter(start, 7 * batch);
    const strain = strains[batch % 2]!;
    for (const dose of doses) {
      for (let tray = 0; tray < each; tray++) {
        const name = `T${trays.length + 1}`;
        const base = { name, batch: "ABC"[batch]!, dose, strain, inoculatedOn };
        if (random.integer(6) === 0) {
          trays.push({ ...base, fresh: [], isLost: true });
          continue;
        }
        const fresh = Array.from(
          { length: flushes },
          (_, flush) => (1500 + 30 * dose + random.integer(1000)) / (flush === 0 ? 10 : 20),
        ).map((grams) => Math.round(grams));
        const total = fresh.reduce((sum, grams) => sum + grams, 0);
        const dry = Math.round((total / (8.6 + random.integer(20) / 10)) * 10) / 10;
        trays.push({
          ...base,
          ...{ fresh, dry, isLost: false },
          harvestedOn: dayAfter(inoculatedOn, 30 + random.integer(20)),
        });
      }
    }
  }
  return trays;
}
