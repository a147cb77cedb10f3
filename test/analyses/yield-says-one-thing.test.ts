import { expect, test } from "vitest";
import { howManyMoreTrays } from "../../analyses/planning/how-many-more-trays.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Outcome } from "../../src/analysis.ts";
import { allowForManyQuestions } from "../../src/engine/allow-for-tests.ts";
import { answerOf, outcomeOf } from "../../src/engine/ask-question.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trialOfTrays } from "./demo-records.ts";
import { simulateBook } from "./simulated-book.ts";

const said = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");

test("random books: means always, one number for the yield, and nothing is both decided and open", () => {
  const random = seededRandom(99);
  for (let run = 0; run < 40; run++) {
    const gain = [0, 0.3, 0.7, 1.5][random.integer(4)]!;
    const trays = simulateBook({
      seed: 500 + run,
      cooks: 1 + random.integer(6),
      traysPerDose: 1 + random.integer(4),
      doses: [
        [3, 9],
        [3, 6, 9],
        [2, 4, 6, 8],
      ][random.integer(3)]!,
      cookSd: 3,
      traySd: 3.5,
      mean: (dose) => 28 + gain * dose,
      loss: (dose) => 0.02 * dose,
      extra: ({ cook, copy }) => ({ supplementGrade: (cook + copy) % 2 ? "fine" : "coarse" }),
    });
    const trial = trialOfTrays(trays);
    const asked = [whatChangedTheYield, howManyMoreTrays].map((one) => answerOf(one, outcomeOf(one, trial)));
    const [{ outcome: gained }, { outcome: more }] = allowForManyQuestions(asked, 0.05) as [
      (typeof asked)[0],
      (typeof asked)[0],
    ];
    const settled = gained.kind === "answer" && gained.certainty === "settled";
    expect(said(more).includes("Already decided"), `${run}: ${said(gained)} ${said(more)}`).toBe(settled);
    expect(gained.tables[0]!.rows.some((row) => typeof row[3] === "number")).toBe(true);
    if (gained.kind !== "answer" || gained.figure === undefined || !("value" in gained.figure)) continue;
    expect(Math.abs(gained.figure.value)).toBeCloseTo(Math.abs(gained.estimates[0]!.value), 9);
  }
});
