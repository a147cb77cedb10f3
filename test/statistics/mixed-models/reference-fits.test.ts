import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { ModelTerm } from "../../../src/statistics/linear-models/design-columns.ts";
import { contrastTest } from "../../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel, type MixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import type { RandomFactor } from "../../../src/statistics/mixed-models/random-factor.ts";
import { expectAgreement } from "../../agreement.ts";

// Reference fits of published data; each file names the program that made them and the book or paper the data are from.

type Numbers = Record<string, number>;
interface Expected {
  varianceComponents: Numbers;
  fixed: Record<string, Numbers>;
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
  groupingKeys: Record<string, string>,
): void {
  const source = `${file.originallyPublished}; reference fit ${file.madeWith}`;
  const row = (method: string, statistic: string) => ({ method, dataset, statistic, source });
  const { fixedEffectsRelative, varianceComponentsRelative, dfRelative, pRelative } = file.tolerance as {
    [key: string]: number;
  };
  const [byEffect, byVariance, byDf, byP] = [
    fixedEffectsRelative!,
    varianceComponentsRelative!,
    dfRelative!,
    pRelative!,
  ].map(digits) as [number, number, number, number];

  const variances: Numbers = { Residual: fit.residual.variance };
  for (const component of fit.components) variances[`${groupingKeys[component.name]} (Intercept)`] = component.variance;
  expect(Object.keys(variances).sort()).toEqual(Object.keys(expected.varianceComponents).sort());
  expectAgreement(
    row("mixed model, REML", "variance components"),
    Object.entries(variances).map(([name, value]) => pair(value, expected.varianceComponents[name])),
    byVariance,
  );
  const reported = Object.values(expected.fixed);
  const tests = fit.coefficientNames.map((_, k) =>
    contrastTest(
      fit,
      fit.coefficientNames.map((__, j) => (j === k ? 1 : 0)),
    ),
  );
  expect(tests.length).toBe(reported.length);
  const rows = (pick: (test: (typeof tests)[number]) => number, key: string) =>
    tests.map((one, k) => pair(pick(one), reported[k]![key]));
  expectAgreement(
    row("mixed model, REML", "fixed effects, Kenward-Roger standard errors, t"),
    [
      ...rows((one) => one.estimate, "estimate"),
      ...rows((one) => one.standardError, "seKenwardRoger"),
      ...rows((one) => one.estimate / one.standardError, "tKenwardRoger"),
    ],
    byEffect,
  );
  expectAgreement(
    row("mixed model, t tests", "Kenward-Roger df"),
    rows((one) => one.df, "dfKenwardRoger"),
    byDf,
  );
  expectAgreement(
    row("mixed model, t tests", "p"),
    rows((one) => one.p, "pKenwardRoger"),
    byP,
  );
}

const texts = (file: Reference, name: string): string[] => file.data[name]!.map(String);
const numbers = (file: Reference, name: string): number[] => file.data[name]!.map(Number);
const factor = (file: Reference, name: string): ModelTerm => ({ kind: "factor", name, values: texts(file, name) });
const grouping = (file: Reference, name: string, within?: string): RandomFactor => ({
  name,
  groups: texts(file, name),
  ...(within === undefined ? {} : { within }),
});

describe("Yates' oats: blocks, split plots, a number as the fixed part", () => {
  const file = reference("lmm-Oats");
  const expected = file.expected as Record<string, Expected>;
  const response = numbers(file, "yield");
  test("one random intercept", () => {
    const terms = [factor(file, "nitroF"), factor(file, "Variety")];
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block")] });
    compare("Oats, blocks", file, expected.randomIntercept!, fit, { Block: "Block" });
  });
  test("two nested random intercepts", () => {
    const terms = [factor(file, "nitroF"), factor(file, "Variety")];
    const plots: RandomFactor = { name: "plot", groups: texts(file, "Variety"), within: "Block" };
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block"), plots] });
    compare("Oats, split plots", file, expected.splitPlot!, fit, { Block: "Block", plot: "Variety:Block" });
  });
  test("a straight line with a random intercept", () => {
    const terms: ModelTerm[] = [{ kind: "number", name: "nitro", values: numbers(file, "nitro") }];
    const fit = fitMixedModel({ response, terms, random: [grouping(file, "Block")] });
    compare("Oats, line in nitrogen", file, expected.linearNitro!, fit, { Block: "Block" });
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
    compare(name.slice(4), file, file.expected as Expected, fit, { Worker: "Worker" });
  });
});

describe("penicillin: crossed plates and samples", () => {
  const file = reference("lmm-Penicillin");
  const expected = file.expected as Record<string, Expected>;
  test("two crossed random intercepts", () => {
    const random = [grouping(file, "plate"), grouping(file, "sample")];
    const fit = fitMixedModel({ response: numbers(file, "diameter"), terms: [], random });
    compare("Penicillin, crossed", file, expected.crossed!, fit, { plate: "plate", sample: "sample" });
  });
  test("samples only", () => {
    const random = [grouping(file, "sample")];
    const fit = fitMixedModel({ response: numbers(file, "diameter"), terms: [], random });
    compare("Penicillin, samples", file, expected.sampleOnly!, fit, { sample: "sample" });
  });
});

test("sleep study: a line with a random intercept", () => {
  const file = reference("lmm-sleepstudy");
  const fit = fitMixedModel({
    response: numbers(file, "Reaction"),
    terms: [{ kind: "number", name: "Days", values: numbers(file, "Days") }],
    random: [grouping(file, "Subject")],
  });
  compare("sleep study", file, file.expected as Expected, fit, { Subject: "Subject" });
});
