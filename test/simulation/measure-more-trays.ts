import { doseDecision, valueOfMoreTrays } from "../../src/decisions/dose/index.ts";
import { type DoseTruth, doseBook, trulyBest, trulyLeft } from "./dose-truths.ts";

/** What doubling the cooks was expected to save a tray, and what it did save, on average over one book of each truth. */
export function measureMoreTrays(
  truths: ReadonlyArray<DoseTruth>,
  firstSeed: number,
): { expected: number; saved: number } {
  let [expected, saved] = [0, 0];
  truths.forEach((truth, index) => {
    const { left } = trulyBest(truth);
    const trays = doseBook({ ...truth, cooks: 2 * truth.cooks }, firstSeed + index);
    const early = new Set(Array.from({ length: truth.cooks }, (_, cook) => `cook ${cook + 1}`));
    const first = doseDecision({ trays: trays.filter(({ cook }) => early.has(cook!)), prices: truth.prices });
    const both = doseDecision({ trays, prices: truth.prices });
    if (first.kind !== "decision" || both.kind !== "decision") throw new Error(`${truth.name}: no decision`);
    const { perTray } = valueOfMoreTrays(first, {
      traysPerDose: truth.cooks * truth.perCell,
      cooks: truth.cooks,
      traysAYear: 0,
    });
    expected += perTray;
    saved += left - trulyLeft(truth, first.use.dose) - (left - trulyLeft(truth, both.use.dose));
  });
  return { expected: expected / truths.length, saved: saved / truths.length };
}
