import { expect, test } from "vitest";
import { effectSizeOfF, etaSquared, omegaSquared } from "../../../src/statistics/groups/effect-size-of-f.ts";
import { standardisedDifference } from "../../../src/statistics/groups/standardised-difference.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import resistivity from "../../reference/nist-SiRstv.json" with { type: "json" };
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import sleep from "../../reference/paired-sleep.json" with { type: "json" };

test("eta squared and its interval by noncentral F", () => {
  const { g, Residuals } = plants.expected.anova;
  const size = effectSizeOfF({ f: g.F, numeratorDf: g.df, denominatorDf: Residuals.df });
  // limits of the noncentrality 0.30009115017893295 and 25.959340258891313: scipy 1.17.1, ncf.cdf solved with brentq
  expectAgreement(
    {
      method: "effect size of F",
      dataset: "PlantGrowth",
      statistic: "partial eta² (one-way: eta²), partial omega²",
      source: "R 4.2.2",
    },
    [
      [size.partialEtaSquared, plants.expected.etaSquared],
      [size.partialOmegaSquared, plants.expected.omegaSquared],
    ],
    9,
  );
  expectAgreement(
    { method: "effect size of F", dataset: "PlantGrowth", statistic: "95 % limits", source: "scipy 1.17.1" },
    [
      [size.lower, 0.30009115017893295 / (30 + 0.30009115017893295)],
      [size.upper, 25.959340258891313 / (30 + 25.959340258891313)],
    ],
    9,
  );
});

test("the lower limit is 0 when the test would not reject", () => {
  const { between } = resistivity.expected.certified;
  const size = effectSizeOfF({ f: between.F, numeratorDf: 4, denominatorDf: 20 });
  expect(size.lower).toBe(0);
  // noncentrality 13.720759593193138: scipy 1.17.1, ncf.cdf solved with brentq
  expectAgreement(
    { method: "effect size of F", dataset: "NIST SiRstv", statistic: "upper limit", source: "scipy 1.17.1" },
    [[size.upper, 13.720759593193138 / (25 + 13.720759593193138)]],
    9,
  );
  const none = effectSizeOfF({ f: 0, numeratorDf: 2, denominatorDf: 9 });
  expect([none.partialEtaSquared, none.lower, none.upper, none.partialOmegaSquared]).toEqual([0, 0, 0, 0]);
});

test("Cohen's d, Hedges' g and their interval", () => {
  const first = sleep.data.extra.slice(0, 10);
  const second = sleep.data.extra.slice(10);
  const size = standardisedDifference(first, second);
  // scipy 1.17.1: ttest_ind, nct.cdf solved with brentq, exact factor by gammaln
  expectAgreement(
    { method: "standardised difference", dataset: "sleep", statistic: "d, g, 95 % limits", source: "scipy 1.17.1" },
    [
      [size.cohensD, 0.8321810813495393],
      [size.hedgesG, 0.7969352391911216],
      [size.lower, -0.09545039821141556],
      [size.upper, 1.7388168991067325],
    ],
    9,
  );
  const turned = standardisedDifference(second, first);
  assertClose(turned.lower, -size.upper, 1e-9);
  assertClose(turned.upper, -size.lower, 1e-9);
  const scaled = standardisedDifference(
    first.map((value) => value * 28.35 + 4),
    second.map((value) => value * 28.35 + 4),
  );
  assertClose(scaled.hedgesG, size.hedgesG, 1e-12);
  const equal = standardisedDifference([1, 2, 3], [1, 2, 3]);
  expect(equal.cohensD).toBe(0);
  assertClose(equal.lower, -equal.upper, 1e-9);
});

test("effect sizes: wrong calls", () => {
  expect(() => effectSizeOfF({ f: Number.POSITIVE_INFINITY, numeratorDf: 1, denominatorDf: 4 })).toThrow(
    /received Infinity/,
  );
  expect(() => effectSizeOfF({ f: 1, numeratorDf: 0, denominatorDf: 4 })).toThrow(RangeError);
  expect(() => standardisedDifference([1, 1], [2, 2])).toThrow(/without spread/);
  expect(() => standardisedDifference([1], [2])).toThrow(RangeError);
  expect(() => standardisedDifference([], [2, 3])).toThrow(RangeError);
  expect(() => etaSquared(2, 1)).toThrow(RangeError);
  expect(() => etaSquared(0, 0)).toThrow(RangeError);
  expect(omegaSquared({ sumOfSquares: 0.1, degreesOfFreedom: 1, residualMeanSquare: 1, totalSumOfSquares: 9 })).toBe(0);
});
