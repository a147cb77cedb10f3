import { describe, expect, test } from "vitest";
import { contrastTest, jointTest } from "../../../src/statistics/mixed-models/contrast-test.ts";
import type { FixedTerm } from "../../../src/statistics/mixed-models/design-columns.ts";
import { designEffect } from "../../../src/statistics/mixed-models/design-effect.ts";
import { estimatedMeans } from "../../../src/statistics/mixed-models/estimated-means.ts";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { fixedEffectTests } from "../../../src/statistics/mixed-models/fixed-effect-tests.ts";
import { intraclassCorrelation } from "../../../src/statistics/mixed-models/intraclass-correlation.ts";
import { predictedGroupEffects } from "../../../src/statistics/mixed-models/predicted-group-effects.ts";
import { randomInterceptTest } from "../../../src/statistics/mixed-models/random-intercept-test.ts";
import { repeatability } from "../../../src/statistics/mixed-models/repeatability.ts";
import { termTests } from "../../../src/statistics/mixed-models/term-tests.ts";
import { varianceIntervals } from "../../../src/statistics/mixed-models/variance-intervals.ts";
import { varianceState } from "../../../src/statistics/mixed-models/variance-likelihood.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
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

/** An invented unbalanced trial: two strains, a dose, cooks and jars within cooks. */
function inventedTrial(cooks: number, trays: number, seed: number) {
  const random = seededRandom(seed);
  const [yields, dose, strain, cook, jar]: [number[], number[], string[], string[], string[]] = [[], [], [], [], []];
  for (let c = 0; c < cooks; c++) {
    const cookEffect = 3 * random.normal();
    const jarEffects = [2 * random.normal(), 2 * random.normal(), 2 * random.normal()];
    for (let t = 0; t < trays; t++) {
      if (random.uniform() < 0.15) continue;
      const j = random.integer(3);
      const d = random.integer(5);
      const s = random.uniform() < 0.5 ? "grey" : "white";
      dose.push(d);
      strain.push(s);
      cook.push(`c${c}`);
      jar.push(`${j}`);
      yields.push(50 + 2 * d + (s === "grey" ? 4 : 0) + cookEffect + jarEffects[j]! + 2.5 * random.normal());
    }
  }
  return { yields, dose, strain, cook, jar };
}

describe("properties on an invented unbalanced trial", () => {
  const trial = inventedTrial(9, 12, 5);
  const terms: FixedTerm[] = [
    { kind: "number", name: "dose", values: trial.dose },
    { kind: "power", name: "dose squared", values: trial.dose, exponent: 2 },
    { kind: "factor", name: "strain", values: trial.strain },
    { kind: "interaction", of: ["strain", "dose"] },
  ];
  const random = [
    { name: "cook", groups: trial.cook },
    { name: "jar", groups: trial.jar, within: "cook" },
  ];
  const nested = fitMixedModel({ response: trial.yields, terms, random });

  test("the score is 0 and matches differences of the deviance", () => {
    const { model, state } = nested.working;
    for (const slope of state.score) assertClose(slope, 0, 1e-9);
    const away = Float64Array.from(state.variances, (variance, i) => variance * (1.3 + 0.2 * i));
    const at = varianceState(model, away)!;
    away.forEach((variance, i) => {
      const step = 1e-5 * variance;
      const moved = (by: number) =>
        varianceState(
          model,
          away.map((v, k) => (k === i ? v + by : v)),
        )!;
      const [up, down] = [moved(step), moved(-step)];
      assertClose(at.score[i]!, (up.deviance - down.deviance) / (2 * step), 1e-5 * (1 + Math.abs(at.score[i]!)));
      away.forEach((_, j) => {
        const difference = (up.score[j]! - down.score[j]!) / (2 * step);
        assertClose(at.hessian[i]![j]!, difference, 1e-5 * (1 + Math.abs(difference)));
      });
    });
  });
  test("order of rows and unit of the response do not matter", () => {
    const order = seededRandom(3).shuffle(trial.yields.map((_, i) => i));
    const take = <T>(values: ReadonlyArray<T>) => order.map((i) => values[i]!);
    const other = fitMixedModel({
      response: take(trial.yields).map((value) => value * 1000),
      terms: [
        { kind: "number", name: "dose", values: take(trial.dose) },
        { kind: "power", name: "dose squared", values: take(trial.dose), exponent: 2 },
        { kind: "factor", name: "strain", values: take(trial.strain) },
        { kind: "interaction", of: ["strain", "dose"] },
      ],
      random: [
        { name: "cook", groups: take(trial.cook) },
        { name: "jar", groups: take(trial.jar), within: "cook" },
      ],
    });
    nested.components.forEach((component, k) => {
      assertClose(other.components[k]!.variance / 1e6, component.variance, 1e-9 * component.variance + 1e-12);
    });
    const [mine, theirs] = [termTests(nested), termTests(other)];
    mine.forEach((one, k) => {
      assertClose(theirs[k]!.f, one.f, 1e-7 * one.f);
      assertClose(theirs[k]!.denominatorDf, one.denominatorDf, 1e-7 * one.denominatorDf);
    });
  });
  test("moving the reference level leaves term tests of factors and estimated means alone", () => {
    const moved = fitMixedModel({
      response: trial.yields,
      terms: terms.map((term) => (term.kind === "factor" ? { ...term, reference: "white" } : term)),
      random,
    });
    const of = (model: typeof nested) => termTests(model).map((one) => [one.f, one.denominatorDf]);
    of(nested).forEach(([f, df], k) => {
      assertClose(of(moved)[k]![0]!, f!, 1e-7 * f!);
      assertClose(of(moved)[k]![1]!, df!, 1e-7 * df!);
    });
    const grey = (model: typeof nested) =>
      estimatedMeans(model, ["strain"]).find((one) => one.levels.strain === "grey")!;
    assertClose(grey(moved).estimate, grey(nested).estimate, 1e-8);
    assertClose(grey(moved).df, grey(nested).df, 1e-6);
  });
  test("an estimated mean at a stated dose follows the squared dose too", () => {
    const [name, value] = ["dose", 4];
    const mean = estimatedMeans(nested, ["strain"], { at: { [name]: value } })[1]!;
    const [intercept, dose, squared, white, slope] = nested.coefficients as [number, number, number, number, number];
    assertClose(mean.estimate, intercept + 4 * dose + 16 * squared + white + 4 * slope, 1e-9);
  });
  test("a single contrast's F is its t squared, by either method", () => {
    for (const method of ["kenward-roger", "satterthwaite"] as const) {
      const weights = [0, 1, 0, 0.5, 0];
      const [single, joint] = [contrastTest(nested, weights, { method }), jointTest(nested, [weights], { method })];
      assertClose(joint.f, single.t ** 2, 1e-9 * joint.f);
      assertClose(joint.denominatorDf, single.df, 1e-8 * single.df);
      assertClose(joint.p, single.p, 1e-9);
    }
  });
  test("nested correlations: same jar is never below same cook", () => {
    const [sameCook, sameJar] = [
      intraclassCorrelation(nested, ["cook"]),
      intraclassCorrelation(nested, ["cook", "jar"]),
    ];
    expect(sameJar.estimate).toBeGreaterThan(sameCook.estimate);
    expect(sameJar.lower).toBeLessThan(sameJar.estimate);
    expect(sameJar.upper).toBeGreaterThan(sameJar.estimate);
    expect(varianceIntervals(nested).map((one) => one.name)).toEqual(["cook", "jar", "residual"]);
    expect(randomInterceptTest(nested, "jar").exact).toBeUndefined();
  });
});

describe("collinear columns and empty cells", () => {
  const trial = inventedTrial(6, 10, 9);
  const random = [{ name: "cook", groups: trial.cook }];
  test("are left out and named", () => {
    const double = trial.dose.map((value) => 2 * value + 1);
    const model = fitMixedModel({
      response: trial.yields,
      terms: [
        { kind: "number", name: "dose", values: trial.dose },
        { kind: "number", name: "twice the dose", values: double },
      ],
      random,
    });
    expect(model.coefficientNames).toEqual(["intercept", "dose"]);
    expect(model.collinear).toEqual([{ column: "twice the dose", determinedBy: ["intercept", "dose"] }]);
    expect(model.notes.join()).toMatch(/"twice the dose" is left out/);
    expect(termTests(model).map((one) => one.term)).toEqual(["dose"]);
  });
  test("a mean that needs an empty cell is refused, its term tested as far as it goes", () => {
    const medium = trial.strain.map((strain, i) => (strain === "grey" || i % 2 === 0 ? "oat" : "rye"));
    const model = fitMixedModel({
      response: trial.yields,
      terms: [
        { kind: "factor", name: "strain", values: trial.strain },
        { kind: "factor", name: "medium", values: medium },
        { kind: "interaction", of: ["strain", "medium"] },
      ],
      random,
    });
    expect(model.collinear.map((one) => one.column)).toEqual(["strain: white × medium: rye"]);
    expect(() => estimatedMeans(model, ["medium"])).toThrow(/no observation/);
    const tests = termTests(model);
    expect(tests.map((one) => one.term)).toEqual(["strain", "medium"]);
    expect(tests[0]!.hypothesis).toBe("columns left");
  });
});

describe("wrong calls", () => {
  const good = { response: [1, 2, 3, 5], terms: [], random: [{ name: "cook", groups: ["a", "a", "b", "b"] }] };
  test.each([
    ["one observation", { ...good, response: [1] }, /at least 2 values/],
    ["not finite", { ...good, response: [1, 2, 3, Number.NaN] }, /finite/],
    ["lengths", { ...good, response: [1, 2, 3] }, /equally long/],
    ["one group", { ...good, random: [{ name: "cook", groups: ["a", "a", "a", "a"] }] }, /at least 2 groups/],
    ["groups of one", { ...good, random: [{ name: "cook", groups: ["a", "b", "c", "d"] }] }, /2 observations or more/],
    ["no grouping", { ...good, random: [] }, /at least one grouping/],
    ["no variation", { ...good, response: [4, 4, 4, 4] }, /must vary/],
    ["no variation within groups", { ...good, response: [1, 1, 5, 5] }, /vary within groups/],
    [
      "grouping in the fixed part",
      {
        ...good,
        response: [1, 2, 3, 5, 4, 8],
        random: [{ name: "cook", groups: ["a", "a", "b", "b", "c", "c"] }],
        terms: [{ kind: "factor" as const, name: "cook", values: ["a", "a", "b", "b", "c", "c"] }],
      },
      /already account/,
    ],
    [
      "too few observations",
      { ...good, terms: [{ kind: "factor" as const, name: "x", values: ["a", "b", "c", "a"] }] },
      /at least 5 observations/,
    ],
    [
      "one level",
      { ...good, terms: [{ kind: "factor" as const, name: "x", values: ["a", "a", "a", "a"] }] },
      /at least 2 levels/,
    ],
    [
      "the same split twice",
      { ...good, random: [good.random[0]!, { name: "load", groups: ["1", "1", "2", "2"] }] },
      /split the observations alike/,
    ],
  ])("%s", (_, input, message) => {
    expect(() => fitMixedModel(input)).toThrow(RangeError);
    expect(() => fitMixedModel(input)).toThrow(message);
  });
  test("smallest trial: two cooks of two", () => {
    const model = fitMixedModel(good);
    // mean squares 6.25 and 1.25, so 2.5 and 1.25
    assertClose(model.components[0]!.variance, 2.5, 1e-9);
    assertClose(model.residual.variance, 1.25, 1e-9);
    const [mean] = fixedEffectTests(model);
    assertClose(mean!.df, 1, 1e-8);
  });
  test("a group of one among larger ones is fine", () => {
    const model = fitMixedModel({
      response: [1, 2, 3, 5, 9],
      terms: [],
      random: [{ name: "cook", groups: ["a", "a", "b", "b", "c"] }],
    });
    expect(model.components[0]!.groups).toBe(3);
    expect(predictedGroupEffects(model, "cook")[2]!.level).toBe("c");
  });
});
