import type { Missing, Outcome, Topic, Trial } from "../analysis.ts";
import { doseOf, hasEnded } from "../records/tray.ts";

/** results a dose has at least before it is compared */
const enough = 4;

/** Whether no dose has the results that a comparison starts from. */
function tooFewTrays({ trays }: Trial): boolean {
  const results = new Map<number | string, number>();
  for (const tray of trays) {
    if (!hasEnded(tray)) continue;
    const dose = doseOf(tray);
    results.set(dose, (results.get(dose) ?? 0) + tray.traysInPool);
  }
  return [...results.values()].every((count) => count < enough);
}

/**
 * What an answer that cannot be given waits for, where it does not say so itself: by what the book lacks. Cost lines come
 * before products, because no product is priced without them.
 */
function missingFrom(topic: Topic, trial: Trial): Missing | undefined {
  if (topic === "money" && (trial.costLines ?? []).length === 0)
    return { kind: "costs", need: "substrate, bags, culture, rent and your own time in costs.csv" };
  if (topic === "money" && (trial.products ?? []).length === 0)
    return { kind: "products", need: "what you sell, with its price, in products.csv" };
  return tooFewTrays(trial) ? { kind: "trays", need: "4 trays of each dose in each of two cooks" } : undefined;
}

/** An outcome without an answer, with what it waits for; any other as it is. Until a tray is picked, that comes first. */
export function withMissing(outcome: Outcome, topic: Topic, trial: Trial): Outcome {
  if (outcome.kind === "answer" || outcome.failure !== undefined) return outcome;
  const { missing: stated } = outcome;
  const waitsForTrays = stated === undefined || stated.kind === "record" || stated.kind === "trays";
  if (waitsForTrays && trial.trays.length > 0 && !trial.trays.some((tray) => tray.outcome === "good"))
    return { ...outcome, missing: { kind: "trays", need: "trays that are picked and weighed" } };
  if (stated !== undefined) return outcome;
  const missing = missingFrom(topic, trial);
  return missing === undefined ? outcome : { ...outcome, missing };
}
