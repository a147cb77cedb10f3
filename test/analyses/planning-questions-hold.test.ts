import { expect, test } from "vitest";
import { doTrialsAgree } from "../../analyses/dose/do-trials-agree.ts";
import { howManyMoreTrays } from "../../analyses/planning/how-many-more-trays.ts";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { proposeTrial } from "../../analyses/planning/propose-trial.ts";
import { doDoseAndSupplementInteract } from "../../analyses/supplement/do-dose-and-supplement-interact.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Outcome } from "../../src/analysis.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const questions = [
  doDoseAndSupplementInteract,
  doTrialsAgree,
  howManyMoreTrays,
  whatChangedTheYield,
  isTheNextStepWorthTrying,
];

/** A book as bad as books get: any cell may be missing, any group tied, few trays, few values. */
function oddBook(seed: number): Tray[] {
  const random = seededRandom(seed);
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const missing = pick([0, 0.1, 0.5]);
  const kinds = 1 + random.integer(4);
  const tied = random.uniform() < 0.3;
  const weights = pick([1, 2, 40]);
  const given = <T>(value: T): T | undefined => (random.uniform() < missing ? undefined : value);
  return Array.from({ length: random.integer(40) }, (_, k) => {
    const dose = given(pick([0, 5, 10, 15, 20].slice(0, kinds)));
    const group = tied ? (dose ?? 0) : random.integer(4);
    const dryGrams = given(random.integer(weights));
    const known = {
      inoculumMillilitres: dose,
      batch: given(`C${group}`),
      jar: given(`J${random.integer(3)}`),
      chamber: given(pick(["A", "B"])),
      supplementGrade: given(pick(["fine", "coarse"])),
      supplementGrams: given(pick([20, 30, 40])),
      inoculatedOn: given(`2026-0${1 + random.integer(9)}-11`),
      harvestedOn: given(`2026-0${1 + random.integer(9)}-21`),
      dryGrams,
      freshGrams: given(9 * random.integer(40)),
    };
    return trayRecord({
      ...Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)),
      trayId: String(k),
      outcome: pick(["good", "good", "good", "contaminated", "failed", "growing"]),
      traysInPool: pick([1, 1, 1, 3]),
      sources: [{ file: pick(["a.csv", "b.csv"]), row: k }],
    });
  });
}

const everySentence = (outcome: Outcome) => [
  ...(outcome.kind === "answer" ? [outcome.sentence] : [outcome.reason, outcome.wouldSettle]),
  ...outcome.method,
  ...outcome.caveats,
];

test("no book, however odd, makes a question fail or print a number that is none", () => {
  for (let seed = 1; seed <= 30; seed++) {
    const trial = trialOfTrays(oddBook(seed));
    for (const question of questions) {
      const outcome = question.run(trial);
      for (const sentence of everySentence(outcome)) {
        expect(sentenceText(sentence, defaultSettings)).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
      }
      for (const { value, low = value, high = value } of outcome.estimates) {
        expect(Number.isFinite(value) && low <= high).toBe(true);
      }
      for (const { columns, rows } of outcome.tables) {
        for (const row of rows) {
          expect(row).toHaveLength(columns.length);
          for (const cell of row) expect(typeof cell === "number" && !Number.isFinite(cell)).toBe(false);
        }
      }
    }
    const proposal = proposeTrial(trial, { layout: "blocks", chambers: 0 });
    if (proposal.kind === "proposal") {
      for (const sentence of proposal.says) expect(sentenceText(sentence, defaultSettings)).not.toMatch(/NaN|Infinity/);
    }
  }
});
