import type { DoseDecision, DoseQuestion, DoseTray } from "../../../src/decisions/dose/index.ts";
import { doseDecision } from "../../../src/decisions/dose/index.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";

/** The twelve trays of the check values in Gramwright's own specification of the dose decision, section 8. */
export const twelveTrays: DoseTray[] = (
  [
    ["A", 3, [24, 28]],
    ["A", 6, [33, 31]],
    ["A", 9, [34, 36]],
    ["B", 3, [29, 27]],
    ["B", 6, [36, 34]],
    ["B", 9, [33, 37]],
  ] as const
).flatMap(([cook, dose, weights]) => weights.map((grams) => ({ cook, dose, grams, lost: false })));

/** The decision, or a failed test with the reason. */
export function decided(question: DoseQuestion): DoseDecision {
  const decision = doseDecision(question);
  if (decision.kind !== "decision") throw new Error(`no decision: ${decision.reason}`);
  return decision;
}

/** Trays of every dose in every cook, with a curve, cooks that differ by `cookSd`, trays by `traySd`, and losses. */
export function grownTrays(given: {
  doses: number[];
  cooks: number;
  perCell: number;
  grams(dose: number): number;
  loss?(dose: number): number;
  days?(dose: number): number;
  cookSd?: number;
  traySd?: number;
  seed?: number;
}): DoseTray[] {
  const { doses, cooks, perCell, grams, loss = () => 0, days, cookSd = 2, traySd = 3, seed = 1 } = given;
  const random = seededRandom(seed);
  return Array.from({ length: cooks }, (_, c) => {
    const offset = cookSd * random.normal();
    return doses.flatMap((dose) =>
      Array.from({ length: perCell }, () => {
        const lost = random.uniform() < loss(dose);
        const weight = grams(dose) + offset + traySd * random.normal();
        const held = days === undefined ? undefined : days(dose) + random.normal();
        return { dose, cook: `cook ${c + 1}`, lost, grams: lost ? undefined : Math.max(0, weight), days: held };
      }),
    );
  }).flat();
}
