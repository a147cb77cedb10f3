import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { againstUsual, decideComparison, rangesOfMeans } from "../../src/decisions/verdict/index.ts";

const oats = JSON.parse(readFileSync(new URL("../reference/lmm-Oats.json", import.meta.url), "utf8")).data as {
  Block: string[];
  nitro: number[];
  yield: number[];
};
const trays = oats.yield.map((value, row) => ({ level: oats.nitro[row]!, cook: oats.Block[row]!, row, value }));

test("nitrogen on oats: each mean with half the variance of the difference, whose error is 3.816533", () => {
  // Yates 1935, Supplement to the Journal of the Royal Statistical Society 2:181-247; error and degrees of freedom as in
  // test/decisions/verdict-check-values.test.ts; t of .975 with 9.320204 degrees of freedom is 2.25033 (R qt)
  const ranges = rangesOfMeans(decideComparison(trays));
  expect(ranges.map(({ level }) => level)).toEqual([0, 0.2, 0.4, 0.6]);
  expect(ranges[0]!.mean).toBeCloseTo(79.3889, 3);
  for (const { mean, lower, upper } of ranges) {
    expect(upper - mean).toBeCloseTo(mean - lower, 9);
    expect((upper - mean) / (3.816533 / Math.SQRT2)).toBeCloseTo(2.2503, 2);
  }
});

test("against the usual dose: the difference of means, wider than one alone would be", () => {
  const decision = decideComparison(trays);
  const against = againstUsual(decision, 0);
  expect(against.at(-1)!.estimate).toBeCloseTo(44, 9);
  // two-sided Dunnett, three against one, about 9 degrees of freedom: 2.81 (Dunnett 1964, Biometrics 20:482-491, table II)
  expect((against.at(-1)!.upper - 44) / 3.816533).toBeGreaterThan(2.7);
  expect((against.at(-1)!.upper - 44) / 3.816533).toBeLessThan(2.9);
  expect(againstUsual(decision, 0.3)).toEqual([]);
});

test("three and three trays of one cook: means 33 and 37, each with the variance 23.095 on 8 degrees of freedom", () => {
  // the rules' own worked example: residual 26 on 4, supposed 4 (.18 x 35)^2
  const decision = decideComparison(
    [30, 33, 36, 35, 39, 37].map((value, row) => ({ level: row < 3 ? 3 : 9, cook: "C1", row, value })),
  );
  const [low, high] = rangesOfMeans(decision);
  const half = 2.306004 * Math.sqrt(23.095 / 3);
  expect(low).toMatchObject({ level: 3, mean: 33 });
  expect(high!.upper - high!.mean).toBeCloseTo(half, 4);
});
