import { describe, expect, test } from "vitest";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { fixedEffectTests } from "../../../src/statistics/mixed-models/fixed-effect-tests.ts";
import { designEffect } from "../../../src/statistics/mixed-models/group-design-effect.ts";
import { intraclassCorrelation } from "../../../src/statistics/mixed-models/intraclass-correlation.ts";
import { predictedGroupEffects } from "../../../src/statistics/mixed-models/predicted-group-effects.ts";
import { randomInterceptTest } from "../../../src/statistics/mixed-models/random-intercept-test.ts";
import { repeatability } from "../../../src/statistics/mixed-models/repeatability.ts";
import { varianceIntervals } from "../../../src/statistics/mixed-models/variance-intervals.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

// Davies 1949, Statistical Methods in Research and Production: yield of dyestuff, 5 preparations of each of 6 batches
// (from memory). Printed analysis of variance: between batches 56357.5 on 5, within 58830.0 on 24; so the variances by
// equating mean squares are 1764.05 and 2451.25, which is REML in a balanced layout.
const dyestuff = [
  [1545, 1440, 1440, 1520, 1580],
  [1540, 1555, 1490, 1560, 1495],
  [1595, 1550, 1605, 1510, 1560],
  [1445, 1440, 1595, 1465, 1545],
  [1595, 1630, 1515, 1635, 1625],
  [1520, 1455, 1450, 1480, 1445],
];
const response = dyestuff.flat();
const batch = dyestuff.flatMap((rows, k) => rows.map(() => `batch ${k + 1}`));
const fit = fitMixedModel({ response, terms: [], random: [{ name: "batch", groups: batch }] });

describe("dyestuff: balanced, one grouping", () => {
  test("variances from mean squares", () => {
    expectAgreement(
      {
        method: "mixed model, REML",
        dataset: "dyestuff (Davies)",
        statistic: "mean, variances, standard error",
        source: "Davies 1949, mean squares 11271.5 and 2451.25 (from memory)",
      },
      [
        [fit.coefficients[0]!, 1527.5],
        [fit.components[0]!.variance, (11271.5 - 2451.25) / 5],
        [fit.residual.variance, 2451.25],
        [fit.standardErrors[0]!, Math.sqrt(11271.5 / 30)],
      ],
      10,
    );
    expect(fixedEffectTests(fit)[0]!.df).toBeCloseTo(5, 8);
    expect(fixedEffectTests(fit, { method: "satterthwaite" })[0]!.df).toBeCloseTo(5, 8);
  });
  test("maximum likelihood divides by the number of batches", () => {
    const ml = fitMixedModel({ response, terms: [], random: [{ name: "batch", groups: batch }], method: "ML" });
    assertClose(ml.components[0]!.variance, ((5 / 6) * 11271.5 - 2451.25) / 5, 1e-6);
    assertClose(ml.residual.variance, 2451.25, 1e-6);
    // printed in Bates, Maechler, Bolker and Walker's paper on the same data as 1388.3 and 2451.3 (from memory)
    assertClose(ml.components[0]!.variance, 1388.33, 0.01);
    expect(() => fixedEffectTests(ml)).toThrow(/REML/);
    expect(fixedEffectTests(ml, { method: "satterthwaite" })[0]!.df).toBeGreaterThan(5);
  });
  test("exact F of the batches is the analysis of variance F", () => {
    const tested = randomInterceptTest(fit, "batch");
    assertClose(tested.exact!.f, 11271.5 / 2451.25, 1e-9);
    expect([tested.exact!.numeratorDf, tested.exact!.denominatorDf]).toEqual([5, 24]);
    expect(tested.p).toBeLessThan(0.05);
    expect(tested.exact!.p).toBeLessThan(0.01);
  });
  test("profile limits of the deviance: the excess at each limit is the chi-square quantile", () => {
    const [between, within] = varianceIntervals(fit, 0.9);
    for (const limit of [between!.lower, between!.upper]) expect(limit).toBeGreaterThanOrEqual(0);
    // balanced closed form of the restricted deviance, less what does not depend on the variances
    const deviance = (b: number, w: number) => {
      const group = w + 5 * b;
      return 24 * Math.log(w) + 58830 / w + 5 * Math.log(group) + 56357.5 / group;
    };
    const least = deviance(fit.components[0]!.variance, fit.residual.variance);
    const profile = (b: number) => {
      let best = Number.POSITIVE_INFINITY;
      for (let w = 1000; w < 6000; w += 0.25) best = Math.min(best, deviance(b, w));
      return best - least;
    };
    // chi-square(0.90, 1) = 2.705543 (printed tables)
    assertClose(profile(between!.upper), 2.705543, 1e-4);
    assertClose(between!.lower === 0 ? 2.705543 : profile(between!.lower), 2.705543, 1e-4);
    const profileWithin = (w: number) => {
      let best = Number.POSITIVE_INFINITY;
      for (let b = 0; b < 20000; b += 1) best = Math.min(best, deviance(b, w));
      return best - least;
    };
    assertClose(profileWithin(within!.lower), 2.705543, 1e-4);
    assertClose(profileWithin(within!.upper), 2.705543, 1e-4);
  });
  test("intraclass correlation, repeatability, design effect", () => {
    const correlation = intraclassCorrelation(fit);
    assertClose(correlation.estimate, 1764.05 / (1764.05 + 2451.25), 1e-9);
    expect(correlation.lower).toBeLessThan(correlation.estimate);
    expect(correlation.upper).toBeLessThan(1);
    const repeated = repeatability(fit, 5);
    assertClose(repeated.ofMean.estimate, 1764.05 / (1764.05 + 2451.25 / 5), 1e-9);
    assertClose(repeated.limit, 1.96 * Math.sqrt(2 * 2451.25), 0.01);
    const effect = designEffect({ ...correlation, estimate: 0.3 }, [8, 8, 8]);
    assertClose(effect.factor, 3.1, 1e-12); // made: 1 + 7 * 0.3
    assertClose(effect.effectiveObservations, 24 / 3.1, 1e-12);
  });
  test("predicted effects shrink batch means by the ratio of variances", () => {
    const effects = predictedGroupEffects(fit, "batch");
    const shrink = 1764.05 / (1764.05 + 2451.25 / 5);
    dyestuff.forEach((rows, k) => {
      const mean = rows.reduce((sum, value) => sum + value / 5, 0);
      assertClose(effects[k]!.effect, shrink * (mean - 1527.5), 1e-6);
    });
    assertClose(
      effects.reduce((sum, one) => sum + one.effect, 0),
      0,
      1e-8,
    );
  });
});

// Box and Tiao 1973, Bayesian Inference in Statistical Analysis, table 5.1.4: generated so that batches differ less than chance
// would have it (from memory)
const lowBatches = [
  [7.298, 3.846, 2.434, 9.566, 7.99],
  [5.22, 6.556, 0.608, 11.788, -0.892],
  [0.11, 10.386, 13.434, 5.51, 8.166],
  [2.212, 4.852, 7.092, 9.288, 4.98],
  [0.282, 9.014, 4.458, 9.446, 7.198],
  [1.722, 4.782, 8.106, 0.758, 3.758],
];

describe("variance at the boundary", () => {
  const low = fitMixedModel({ response: lowBatches.flat(), terms: [], random: [{ name: "batch", groups: batch }] });
  test("is 0, flagged and said", () => {
    expect(low.components[0]!.variance).toBe(0);
    expect(low.components[0]!.atBoundary).toBe(true);
    expect(low.notes.join()).toMatch(/"batch" is estimated as 0/);
    assertClose(low.coefficients[0]!, 5.6656, 0.0001); // printed in Box and Tiao
    const values = lowBatches.flat();
    const mean = values.reduce((sum, value) => sum + value / 30, 0);
    assertClose(low.residual.variance, values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 29, 1e-9);
  });
  test("everything downstream stays finite", () => {
    expect(randomInterceptTest(low, "batch")).toMatchObject({ likelihoodRatio: 0, p: 1 });
    expect(randomInterceptTest(low, "batch").exact!.f).toBeLessThan(1);
    expect(predictedGroupEffects(low, "batch").every((one) => one.effect === 0 && one.predictionError === 0)).toBe(
      true,
    );
    const interval = varianceIntervals(low)[0]!;
    expect(interval.lower).toBe(0);
    expect(interval.upper).toBeGreaterThan(0);
    const correlation = intraclassCorrelation(low);
    expect([correlation.estimate, correlation.lower]).toEqual([0, 0]);
    expect(correlation.upper).toBeGreaterThan(0);
    expect(fixedEffectTests(low, { method: "satterthwaite" })[0]!.df).toBeCloseTo(29, 6);
    // Kenward-Roger keeps the batches in the count
    const kenwardRoger = fixedEffectTests(low)[0]!;
    expect(kenwardRoger.df).toBeLessThan(29);
    expect(Number.isFinite(kenwardRoger.p)).toBe(true);
  });
});
