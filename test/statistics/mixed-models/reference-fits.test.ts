import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { estimatedMeans } from "../../../src/statistics/mixed-models/estimated-means.ts";
import { fitMixedModel, type MixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { fixedEffectTests } from "../../../src/statistics/mixed-models/fixed-effect-tests.ts";
import { pairwiseComparisons } from "../../../src/statistics/mixed-models/pairwise-comparisons.ts";
import { predictedGroupEffects } from "../../../src/statistics/mixed-models/predicted-group-effects.ts";
import type { RandomFactor } from "../../../src/statistics/mixed-models/random-factor.ts";
import { termTests } from "../../../src/statistics/mixed-models/term-tests.ts";
import { expectAgreement } from "../../agreement.ts";

// Reference fits of published data; each file names the program that made them and the book or paper the data are from.

type Numbers = Record<string, number>;
interface Expected {
  n: number;
  varianceComponents: Numbers;
  remlLogLik: number;
  remlCriterion: number;
  fixed: Record<string, Numbers>;
  blups: Record<string, Numbers>;
  anovaTypeIII?: Record<string, Numbers>;
  emmeans?: Record<string, ExpectedMeans>;
}
interface ExpectedMeans {
  level: string[];
  emmean: number[];
  se: number[];
  df: number[];
  lower95: number[];
  upper95: number[];
  pairs: { contrast: string[]; estimate: number[]; se: number[]; df: number[]; t: number[]; pTukey: number[] };
}
interface Reference {
  originallyPublished: string;
  madeWith: string;
  data: Record<string, (string | number)[]>;
  expected: unknown;
  tolerance: Numbers;
}

function reference(file: string): Reference {
  return JSON.parse(readFileSync(new URL(`../../reference/${file}.json`, import.meta.url), "utf8")) as Reference;
}

const digits = (relative: number): number => -Math.log10(relative);
// a t or an F carries the relative error of its estimate plus that of its standard error, each allowed on its own
const pair = (a: number, b: number | undefined): [number, number] => {
  if (b === undefined) throw new Error("the reference file lacks a value this test compares");
  return [a, b];
};

function compare(
  dataset: string,
  file: Reference,
  expected: Expected,
  fit: MixedModel,
  groupKey: (grouping: string, level: string, within: string | undefined) => string,
  groupingKeys: Record<string, string>,
): void {
  const source = `${file.originallyPublished}; reference fit ${file.madeWith}`;
  const row = (method: string, statistic: string) => ({ method, dataset, statistic, source });
  const { fixedEffectsRelative, varianceComponentsRelative, remlLogLikAbsolute, dfRelative, pRelative } =
    file.tolerance as { [key: string]: number };
  const [byEffect, byVariance, byDf, byP] = [
    fixedEffectsRelative!,
    varianceComponentsRelative!,
    dfRelative!,
    pRelative!,
  ].map(digits) as [number, number, number, number];

  expect(fit.observations).toBe(expected.n);
  const variances: Numbers = { Residual: fit.residual.variance };
  for (const component of fit.components) variances[`${groupingKeys[component.name]} (Intercept)`] = component.variance;
  expect(Object.keys(variances).sort()).toEqual(Object.keys(expected.varianceComponents).sort());
  expectAgreement(
    row("mixed model, REML", "variance components"),
    Object.entries(variances).map(([name, value]) => pair(value, expected.varianceComponents[name])),
    byVariance,
  );
  expect(Math.abs(fit.logLikelihood - expected.remlLogLik)).toBeLessThanOrEqual(remlLogLikAbsolute!);
  expectAgreement(
    row("mixed model, REML", "restricted log likelihood"),
    [
      [fit.logLikelihood, expected.remlLogLik],
      [fit.deviance, expected.remlCriterion],
    ],
    digits(remlLogLikAbsolute! / Math.abs(expected.remlLogLik)),
  );

  const reported = Object.values(expected.fixed);
  const satterthwaite = fixedEffectTests(fit, { method: "satterthwaite" });
  const kenwardRoger = fixedEffectTests(fit, { method: "kenward-roger" });
  expect(satterthwaite.length).toBe(reported.length);
  const rows = <T>(tests: T[], pick: (test: T) => number, key: string) =>
    tests.map((one, k) => pair(pick(one), reported[k]![key]));
  expectAgreement(
    row("mixed model, REML", "fixed effects, standard errors, t"),
    [
      ...rows(satterthwaite, (one) => one.estimate, "estimate"),
      ...rows(satterthwaite, (one) => one.standardError, "se"),
      ...rows(satterthwaite, (one) => one.t, "t"),
      ...rows(kenwardRoger, (one) => one.standardError, "seKenwardRoger"),
      ...rows(kenwardRoger, (one) => one.t, "tKenwardRoger"),
    ],
    byEffect,
  );
  expectAgreement(
    row("mixed model, t tests", "Satterthwaite and Kenward-Roger df"),
    [
      ...rows(satterthwaite, (one) => one.df, "dfSatterthwaite"),
      ...rows(kenwardRoger, (one) => one.df, "dfKenwardRoger"),
    ],
    byDf,
  );
  expectAgreement(
    row("mixed model, t tests", "p"),
    [...rows(satterthwaite, (one) => one.p, "pSatterthwaite"), ...rows(kenwardRoger, (one) => one.p, "pKenwardRoger")],
    byP,
  );

  const predictions = fit.components.flatMap((component) =>
    predictedGroupEffects(fit, component.name).map((group) =>
      pair(
        group.effect,
        expected.blups[groupingKeys[component.name]!]![groupKey(component.name, group.level, group.within)],
      ),
    ),
  );
  expect(predictions.length).toBe(Object.values(expected.blups).reduce((sum, one) => sum + Object.keys(one).length, 0));
  expectAgreement(row("mixed model, REML", "predicted group effects"), predictions, byVariance);

  if (expected.anovaTypeIII !== undefined) {
    const bySatterthwaite = termTests(fit, { method: "satterthwaite" });
    const byKenwardRoger = termTests(fit);
    expect(byKenwardRoger.map((one) => one.term)).toEqual(Object.keys(expected.anovaTypeIII));
    const terms = Object.values(expected.anovaTypeIII);
    expect(byKenwardRoger.map((one) => one.numeratorDf)).toEqual(terms.map((one) => one.numDf));
    expectAgreement(
      row("mixed model, F tests of terms", "F"),
      terms.flatMap((term, k) => [
        pair(bySatterthwaite[k]!.f, term.F_Satterthwaite),
        pair(byKenwardRoger[k]!.f, term.F_KenwardRoger),
      ]),
      byEffect,
    );
    expectAgreement(
      row("mixed model, F tests of terms", "Satterthwaite and Kenward-Roger df"),
      terms.flatMap((term, k) => [
        pair(bySatterthwaite[k]!.denominatorDf, term.denDfSatterthwaite),
        pair(byKenwardRoger[k]!.denominatorDf, term.denDfKenwardRoger),
      ]),
      byDf,
    );
    expectAgreement(
      row("mixed model, F tests of terms", "p"),
      terms.flatMap((term, k) => [
        pair(bySatterthwaite[k]!.p, term.pSatterthwaite),
        pair(byKenwardRoger[k]!.p, term.pKenwardRoger),
      ]),
      byP,
    );
  }

  for (const [factor, means] of Object.entries(expected.emmeans ?? {})) {
    const ours = estimatedMeans(fit, [factor]);
    expect(ours.map((one) => one.levels[factor])).toEqual(means.level);
    expectAgreement(
      row("mixed model, estimated means", `${factor}: means, standard errors`),
      ours.flatMap((one, k) => [pair(one.estimate, means.emmean[k]), pair(one.standardError, means.se[k])]),
      byEffect,
    );
    expectAgreement(
      row("mixed model, estimated means", `${factor}: Kenward-Roger df, intervals`),
      ours.flatMap((one, k) => [
        pair(one.df, means.df[k]),
        pair(one.lower, means.lower95[k]),
        pair(one.upper, means.upper95[k]),
      ]),
      byDf,
    );
    const pairs = pairwiseComparisons(fit, factor);
    expect(pairs.map((one) => `${one.first} - ${one.second}`)).toEqual(means.pairs.contrast);
    expectAgreement(
      row("mixed model, pairs of means", `${factor}: differences, standard errors, t`),
      pairs.flatMap((one, k) => [
        pair(one.estimate, means.pairs.estimate[k]),
        pair(one.standardError, means.pairs.se[k]),
        pair(one.t, means.pairs.t[k]),
      ]),
      byEffect,
    );
    expectAgreement(
      row("mixed model, pairs of means", `${factor}: Kenward-Roger df`),
      pairs.map((one, k) => pair(one.df, means.pairs.df[k])),
      byDf,
    );
    // the reference forms this tail as 1 - cdf, good to about 1e-10 absolute: its 4.3e-11 (oats, t 8.62, 61 df) is 2.2733e-11
    // by 30-digit quadrature, and two of its values are exactly 0
    expectAgreement(
      row("mixed model, pairs of means", `${factor}: Tukey p`),
      pairs.map((one, k) => pair(one.pTukey, means.pairs.pTukey[k])),
      byP,
      1e-10,
    );
  }
}

const texts = (file: Reference, name: string): string[] => file.data[name]!.map(String);
const numbers = (file: Reference, name: string): number[] => file.data[name]!.map(Number);
const factor = (file: Reference, name: string): ModelTerm => ({ kind: "factor", name, values: texts(file, name) });
const grouping = (file: Reference, name: string, within?: string): RandomFactor => ({
  name,
  groups: texts(file, name),
  ...(within === undefined ? {} : { within }),
});
const plainKey = (_: string, level: string): string => level;

describe("Yates' oats: blocks, split plots, a number as the fixed part", () => {
  const file = reference("lmm-Oats");
  const expected = file.expected as Record<string, Expected>;
  const response = numbers(file, "yield");
  test("one random intercept", () => {
    const terms = [factor(file, "nitroF"), factor(file, "Variety")];
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block")] });
    compare("Oats, blocks", file, expected.randomIntercept!, fit, plainKey, { Block: "Block" });
  });
  test("two nested random intercepts", () => {
    const terms = [factor(file, "nitroF"), factor(file, "Variety")];
    const plots: RandomFactor = { name: "plot", groups: texts(file, "Variety"), within: "Block" };
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block"), plots] });
    const key = (name: string, level: string, within?: string) => (name === "plot" ? `${level}:${within}` : level);
    compare("Oats, split plots", file, expected.splitPlot!, fit, key, { Block: "Block", plot: "Variety:Block" });
  });
  test("a straight line with a random intercept", () => {
    const terms: ModelTerm[] = [{ kind: "number", name: "nitro", values: numbers(file, "nitro") }];
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block")] });
    compare("Oats, line in nitrogen", file, expected.linearNitro!, fit, plainKey, { Block: "Block" });
  });
});

describe.each(["lmm-Machines", "lmm-Machines-unbalanced"])("Machines: %s", (name) => {
  test("one random intercept", () => {
    const file = reference(name);
    const fit = fitMixedModel({
      response: numbers(file, "score"),
      terms: [factor(file, "Machine")],
      random: [grouping(file, "Worker")],
    });
    compare(name.slice(4), file, file.expected as Expected, fit, plainKey, { Worker: "Worker" });
  });
});

describe("penicillin: crossed plates and samples", () => {
  const file = reference("lmm-Penicillin");
  const expected = file.expected as Record<string, Expected>;
  test("two crossed random intercepts", () => {
    const random = [grouping(file, "plate"), grouping(file, "sample")];
    const fit = fitMixedModel({ response: numbers(file, "diameter"), terms: [], random });
    compare("Penicillin, crossed", file, expected.crossed!, fit, plainKey, { plate: "plate", sample: "sample" });
  });
  test("samples only", () => {
    const random = [grouping(file, "sample")];
    const fit = fitMixedModel({ response: numbers(file, "diameter"), terms: [], random });
    compare("Penicillin, samples", file, expected.sampleOnly!, fit, plainKey, { sample: "sample" });
  });
});

test("sleep study: a line with a random intercept", () => {
  const file = reference("lmm-sleepstudy");
  const fit = fitMixedModel({
    response: numbers(file, "Reaction"),
    terms: [{ kind: "number", name: "Days", values: numbers(file, "Days") }],
    random: [grouping(file, "Subject")],
  });
  compare("sleep study", file, file.expected as Expected, fit, plainKey, { Subject: "Subject" });
});
