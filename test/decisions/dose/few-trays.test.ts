import { expect, test } from "vitest";
import { weighedCells } from "../../../src/decisions/dose/cell-sums.ts";
import type { DoseTray } from "../../../src/decisions/dose/index.ts";
import { testedDoses } from "../../../src/decisions/dose/tested-doses.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";
import { decided } from "./dose-books.ts";

const oneCook = (pairs: ReadonlyArray<readonly [dose: number, grams: number]>): DoseTray[] =>
  pairs.map(([dose, grams]) => ({ dose, grams, cook: "A", lost: false }));

test("six trays of one cook take what trays usually do beside their own scatter", () => {
  // check value of Gramwright's own specification of the verdict, section 9: RSS 26, s2 23.095
  const trays = [30, 33, 36, 35, 39, 37].map((grams, at) => [at < 3 ? 3 : 6, grams] as const);
  const { within, supposed, degreesOfFreedom } = weighedCells(testedDoses(oneCook(trays), 1));
  assertClose(within, 26, 1e-9);
  // the mean is no degree of freedom of a straight difference: one less than here
  assertClose((within + supposed) / (degreesOfFreedom - 1), 23.095, 1e-9);
});

test("eight doses of one tray each get a dose, its range and a step, and none is settled", () => {
  const decision = decided({
    trays: oneCook(
      [2, 4, 6, 8, 10, 12, 14, 16].map((dose, at) => [dose, 24 + 1.1 * dose + [1, -2, 0.5, 2, -1, 0, 1, -1.5][at]!]),
    ),
  });
  expect(decision.certainty).toBe("leaning");
  expect(decision.use.dose).toBeGreaterThanOrEqual(14);
  expect(decision.notRuledOut.ruledOut).toContain(2);
  expect(decision.edges.map(({ side }) => side)).toEqual(["highest"]);
});

// independent simulation: every dose of the one cook from a jar of its own, and jars differ as far as trays do
test("over sixty cooks with a jar a dose the range holds the best dose", () => {
  const random = seededRandom(17);
  let held = 0;
  for (let book = 0; book < 60; book++) {
    const pairs = [3, 6, 9, 12].flatMap((dose) => {
      const jar = 3.5 * random.normal();
      const grams = () => 34 - 0.12 * (dose - 8) ** 2 + jar + 3.5 * random.normal();
      return Array.from({ length: 6 }, () => [dose, grams()] as const);
    });
    const { low, high } = decided({ trays: oneCook(pairs), settings: { draws: 1000 } }).notRuledOut;
    if (low <= 8 && 8 <= high) held++;
  }
  // the least that 95 % leaves by chance, two standard errors; what a jar may do left out it was 51 of 60
  expect(held).toBeGreaterThanOrEqual(54);
});

// independent simulation: yields 36 - (dose - 7)^2 / 2 of trays with a coefficient of variation of .18
test("over sixty such cooks the range holds the best dose and the choice beats the best mean", () => {
  const random = seededRandom(12);
  const grown = (dose: number): number => 36 - 0.5 * (dose - 7) ** 2;
  let [held, ours, bestMean] = [0, 0, 0];
  for (let book = 0; book < 60; book++) {
    const pairs = [3, 4, 5, 6, 7, 8].map((dose) => [dose, grown(dose) + 5.8 * random.normal()] as const);
    const { use, notRuledOut } = decided({ trays: oneCook(pairs), settings: { draws: 1000 } });
    if (notRuledOut.low <= 7 && notRuledOut.high >= 7) held++;
    ours += 36 - grown(use.dose);
    bestMean += 36 - grown(pairs.toSorted((a, b) => b[1] - a[1])[0]![0]);
  }
  expect(held).toBeGreaterThanOrEqual(57);
  expect(ours).toBeLessThan(bestMean);
});
