import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import type { Trial } from "../../src/analysis.ts";
import { line, product } from "../costing/sample-records.ts";
import { holds, plainReading, type Reading, toldNothing } from "./reading.ts";

const pricePerGram = 0.5;
const costPerMillilitre = 0.1;

/** The trial with a price for dried product and a cost of liquid culture, and nothing else to pay. */
export const withPrices = (trial: Trial): Trial => ({
  ...trial,
  costLines: [
    line({ item: "culture", kind: "culture", packPrice: costPerMillilitre, packUnit: "mL", per: "inoculum mL" }),
  ],
  products: [product({ product: "dried", grams: 10, currentPrice: 10 * pricePerGram })],
});

const dosesOf = (trial: Trial): number[] =>
  [...new Set(trial.trays.map((tray) => tray.inoculumMillilitres!))].sort((a, b) => a - b);

/** The dose in the range tried that really leaves most, to a thousandth of the range. */
function trulyBest(doses: ReadonlyArray<number>, truly: (dose: number) => number): number {
  const [low, high] = [doses[0]!, doses.at(-1)!];
  const grid = Array.from({ length: 1001 }, (_, step) => low + ((high - low) * step) / 1000);
  const left = (dose: number) => pricePerGram * truly(dose) - costPerMillilitre * dose;
  return grid.reduce((a, b) => (left(b) > left(a) ? b : a));
}

/**
 * Which dose earns most. An alarm is an optimum reported as settled inside the range tried; the interval should hold the dose
 * of the range that really leaves most.
 */
export function readBestDose(trial: Trial, truly: (dose: number) => number): Reading {
  const outcome = whichDoseEarnsMost.run(withPrices(trial));
  if (outcome.kind === "cannot-tell") return toldNothing;
  const { value, low, high } = outcome.estimates[0]!;
  const doses = dosesOf(trial);
  const inside = value > doses[0]! && value < doses.at(-1)!;
  return plainReading(
    outcome.certainty === "settled" && inside,
    low === undefined || high === undefined || holds(low, high, trulyBest(doses, truly)),
  );
}

/** What a glance at the means says: the tested dose whose trays left most is the best there is. */
export function readBestMean(trial: Trial, truly: (dose: number) => number): Reading {
  const doses = dosesOf(trial);
  const left = doses.map((dose) => {
    const grams = trial.trays.flatMap((tray) => (tray.inoculumMillilitres === dose ? (tray.dryGrams ?? 0) : []));
    return pricePerGram * (grams.reduce((sum, own) => sum + own, 0) / grams.length) - costPerMillilitre * dose;
  });
  const best = left.indexOf(Math.max(...left));
  const step = doses[1]! - doses[0]!;
  return plainReading(
    best > 0 && best < doses.length - 1,
    Math.abs(doses[best]! - trulyBest(doses, truly)) <= step / 2,
  );
}
