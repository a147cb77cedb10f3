import type { DosePrices, DoseTray } from "../../src/decisions/dose/index.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** How trays of a dose truly turn out, what they cost, and how the trial is laid out. */
export interface DoseTruth {
  name: string;
  doses: ReadonlyArray<number>;
  cooks: number;
  /** trays of each dose in each cook */
  perCell: number;
  /** each cook has one dose only, in turn */
  wholeCooks?: boolean;
  grams(dose: number): number;
  loss(dose: number): number;
  /** share of good trays that weigh a fifth */
  duds: number;
  cookSd: number;
  cookDoseSd: number;
  traySd(dose: number): number;
  prices: Required<DosePrices>;
  /** left out of the mean over truths, as in the specification: nothing can see it, or few methods can answer it */
  apart?: boolean;
}

const days = 50;
const usual: Omit<DoseTruth, "name" | "grams"> = {
  doses: [3, 6, 9, 12],
  cooks: 4,
  perCell: 3,
  loss: () => 0.05,
  duds: 0,
  cookSd: 3,
  cookDoseSd: 1,
  traySd: () => 4,
  prices: {
    perGram: 0.3,
    perDoseUnit: 0.1,
    perGoodTray: 0.3,
    perShelfDay: 0.03,
    perStartedTray: 5,
    recoveredPerLostTray: 0.1,
  },
};
const quadratic = (dose: number): number => 36 - 0.25 * (dose - 8.5) ** 2;
const saturating = (dose: number): number => 38 * (1 - Math.exp(-0.35 * dose));

/** Eighteen truths of the kinds in Gramwright's own specification of the dose decision, section 7; the numbers are ours. */
export const doseTruths: ReadonlyArray<DoseTruth> = [
  { ...usual, name: "flat", grams: () => 32 },
  { ...usual, name: "small gain", grams: (dose) => 29 + 0.45 * dose },
  { ...usual, name: "quadratic", grams: quadratic },
  { ...usual, name: "saturating", grams: saturating },
  { ...usual, name: "plateau at 7", grams: (dose) => 24 + 2 * Math.min(dose, 7) },
  { ...usual, name: "plateau at 4", grams: (dose) => 25 + 2.5 * Math.min(dose, 4) },
  { ...usual, name: "threshold", grams: (dose) => 28 + 8 / (1 + Math.exp(-(dose - 7) / 0.7)) },
  { ...usual, name: "losses rising", grams: saturating, loss: (dose) => 0.02 + 0.0022 * dose * dose },
  { ...usual, name: "duds", grams: quadratic, duds: 0.08 },
  {
    ...usual,
    name: "dear culture",
    grams: saturating,
    prices: { ...usual.prices, perDoseUnit: 0.4 },
  },
  { ...usual, name: "still rising", grams: (dose) => 22 + 1.4 * dose },
  { ...usual, name: "falling", grams: (dose) => 38 - 0.8 * dose },
  { ...usual, name: "two cooks x 6", grams: quadratic, cooks: 2, perCell: 6 },
  { ...usual, name: "three doses", grams: (dose) => 24 + 2 * Math.min(dose, 7), doses: [3, 6, 12], perCell: 4 },
  { ...usual, name: "six doses, two trays", grams: quadratic, doses: [2, 4, 6, 8, 10, 12], perCell: 2 },
  { ...usual, name: "dose acts differently by cook", grams: quadratic, cookDoseSd: 3 },
  {
    ...usual,
    name: "sharp peak in a gap",
    grams: (dose) => 30 + 10 * Math.exp(-(((dose - 7.5) / 0.9) ** 2)),
    apart: true,
  },
  { ...usual, name: "whole cooks", grams: quadratic, cooks: 12, perCell: 6, wholeCooks: true, apart: true },
];

/** Expected money of a started tray at a dose, days alike for good and lost trays. */
export function trulyLeft({ grams, loss, duds, prices }: DoseTruth, dose: number): number {
  const { perGram, perDoseUnit, perGoodTray, perShelfDay, perStartedTray, recoveredPerLostTray } = prices;
  const lost = loss(dose);
  const product = grams(dose) * (1 - 0.8 * duds);
  const income = (1 - lost) * (perGram * product - perGoodTray) + lost * recoveredPerLostTray;
  return income - perDoseUnit * dose - perShelfDay * days - perStartedTray;
}

/** The dose of the range tried that truly leaves most. */
export function trulyBest(truth: DoseTruth): { dose: number; left: number } {
  const low = truth.doses[0]!;
  const steps = 600;
  let best = { dose: low, left: trulyLeft(truth, low) };
  for (let i = 1; i <= steps; i++) {
    const dose = low + ((truth.doses.at(-1)! - low) * i) / steps;
    const left = trulyLeft(truth, dose);
    if (left > best.left) best = { dose, left };
  }
  return best;
}

function oneTray(truth: DoseTruth, dose: number, level: number, cook: string, random: SeededRandom): DoseTray {
  const lost = random.uniform() < truth.loss(dose);
  const dud = random.uniform() < truth.duds;
  const weight = (level + truth.traySd(dose) * random.normal()) * (dud ? 0.2 : 1);
  const held = Math.max(10, days + 2 * random.normal());
  return { dose, cook, lost, grams: lost ? undefined : Math.max(0, weight), days: held };
}

/** One seeded book of a truth. */
export function doseBook(truth: DoseTruth, seed: number): DoseTray[] {
  const random = seededRandom(seed);
  const { doses, cooks, perCell, wholeCooks, cookSd, cookDoseSd, grams } = truth;
  return Array.from({ length: cooks }, (_, c) => {
    const offset = cookSd * random.normal();
    const own = wholeCooks ? [doses[c % doses.length]!] : doses;
    return own.flatMap((dose) => {
      const level = grams(dose) + offset + cookDoseSd * random.normal();
      return Array.from({ length: perCell }, () => oneTray(truth, dose, level, `cook ${c + 1}`, random));
    });
  }).flat();
}
