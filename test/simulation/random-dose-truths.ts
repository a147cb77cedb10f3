import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { DoseTruth } from "./dose-truths.ts";

/** Forms none of which is a shape of the program's own mixture: yield at a share x of the highest dose, from 0 to about 1. */
const forms: ((x: number, a: number, b: number) => number)[] = [
  // Hill, Ricker, logarithm, double logistic, bent bell, two straight lines with a fall after the top
  (x, a, b) => x ** (1 + 3 * b) / ((0.15 + 0.7 * a) ** (1 + 3 * b) + x ** (1 + 3 * b)),
  (x, a) => (x / (0.2 + 0.9 * a)) * Math.exp(1 - x / (0.2 + 0.9 * a)),
  (x, a) => Math.log(1 + (2 + 20 * a) * x) / Math.log(3 + 20 * a),
  (x, a, b) => 1 / (1 + Math.exp(-(x - 0.15 - 0.3 * a) / 0.07)) - (0.3 + 0.5 * b) / (1 + Math.exp(-(x - 0.75) / 0.1)),
  (x, a, b) => Math.exp(-(((Math.log(x + 0.05) - Math.log(0.2 + 0.8 * a)) / (0.5 + b)) ** 2)),
  (x, a, b) => (x < 0.2 + 0.7 * a ? x / (0.2 + 0.7 * a) : 1 - b * (x - 0.2 - 0.7 * a)),
];
const layouts: ReadonlyArray<readonly number[]> = [
  [3, 6, 9, 12],
  [2, 4, 8, 16],
  [5, 10, 15, 20],
  [2, 4, 6, 8, 10, 12],
  [4, 8, 12],
  [1, 3, 6, 10, 15],
  [6, 18],
];

function oneTruth(index: number, random: SeededRandom): DoseTruth {
  const pick = <T>(from: ReadonlyArray<T>): T => from[random.integer(from.length)]!;
  const form = pick(forms);
  const doses = pick(layouts);
  const top = doses.at(-1)!;
  const [a, b] = [random.uniform(), random.uniform()];
  const rise = pick([2, 5, 10, 18]);
  const base = 18 + 14 * random.uniform();
  const slope = random.uniform() < 0.5 ? 0 : 0.25 * random.uniform();
  const floor = 0.12 * random.uniform();
  const perDoseUnit = (pick([0, 0.5, 1, 3]) * 1.2) / top;
  const traySd = pick([2, 4, 6]);
  return {
    name: `random ${index}`,
    doses,
    cooks: pick([2, 3, 4, 6]),
    perCell: pick([2, 3, 5]),
    grams: (dose) => base + rise * form(dose / top, a, b),
    loss: (dose) => floor + slope * (dose / top) ** 2,
    duds: pick([0, 0, 0.05]),
    cookSd: pick([1, 3]),
    cookDoseSd: pick([0, 1, 2]),
    traySd: () => traySd,
    prices: {
      perGram: pick([0.15, 0.3, 0.5]),
      perDoseUnit,
      perGoodTray: 0.3,
      perShelfDay: 0.03,
      perStartedTray: 4,
      recoveredPerLostTray: 0.1,
    },
  };
}

/** Seeded truths of families, layouts and prices that nothing in the program was fitted to. */
export function randomDoseTruths(count: number, seed: number): DoseTruth[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, index) => oneTruth(index + 1, random));
}
