import { expect, test } from "vitest";
import { linearContrast } from "../../../src/statistics/linear-models/linear-contrast.ts";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { sequentialTests, type TermTest } from "../../../src/statistics/linear-models/term-sums-of-squares.ts";
import { expectAgreement } from "../../agreement.ts";
import tooth from "../../reference/ancova-ToothGrowth.json" with { type: "json" };
import whiteside from "../../reference/ancova-whiteside.json" with { type: "json" };

type Coefficients = Record<string, { estimate: number; se: number; t: number; p: number }>;
type Table = Record<string, { df: number; ss: number; ms: number; F: number | null; p: number | null }>;

const cases = [
  {
    dataset: "ToothGrowth",
    source: "R 4.2.2 datasets::ToothGrowth",
    response: tooth.data.len,
    factor: { kind: "factor", name: "supp", values: tooth.data.supp } as ModelTerm,
    number: { kind: "number", name: "dose", values: tooth.data.dose } as ModelTerm,
    expected: tooth.expected,
  },
  {
    dataset: "whiteside",
    source: "R MASS::whiteside",
    response: whiteside.data.Gas,
    factor: { kind: "factor", name: "Insul", values: whiteside.data.Insul, reference: "Before" } as ModelTerm,
    number: { kind: "number", name: "Temp", values: whiteside.data.Temp } as ModelTerm,
    expected: whiteside.expected,
  },
];

function compareCoefficients(
  row: (statistic: string) => { method: string; dataset: string; statistic: string; source: string },
  model: LinearModel,
  expected: Coefficients,
) {
  const reference = Object.values(expected);
  expect(model.coefficients.length).toBe(reference.length);
  expectAgreement(
    row("coefficients"),
    model.coefficients.flatMap((one, i) => [
      [one.estimate, reference[i]!.estimate] as const,
      [one.standardError, reference[i]!.se] as const,
      [one.t, reference[i]!.t] as const,
    ]),
    9,
    1e-12,
  );
  expectAgreement(
    row("p of coefficients"),
    model.coefficients.map((one, i) => [one.p, reference[i]!.p] as const),
    7,
  );
}

function compareTable(
  row: (statistic: string) => { method: string; dataset: string; statistic: string; source: string },
  model: LinearModel,
  tests: TermTest[],
  expected: Table,
) {
  const reference = Object.values(expected);
  const residual = reference.at(-1)!;
  expect(tests.length).toBe(reference.length - 1);
  expect(tests.map((one) => one.degreesOfFreedom)).toEqual(reference.slice(0, -1).map((one) => one.df));
  expect(model.residual.degreesOfFreedom).toBe(residual.df);
  expectAgreement(
    row("sequential analysis of variance"),
    [
      ...tests.flatMap((one, i) => [
        [one.sumOfSquares, reference[i]!.ss] as const,
        [one.meanSquare, reference[i]!.ms] as const,
        [one.f, reference[i]!.F!] as const,
      ]),
      [model.residual.sumOfSquares, residual.ss],
      [model.residual.meanSquare, residual.ms],
    ],
    9,
  );
  expectAgreement(
    row("p of the analysis of variance"),
    tests.map((one, i) => [one.p, reference[i]!.p!] as const),
    7,
  );
}

for (const { dataset, source, response, factor, number, expected } of cases) {
  const row = (statistic: string) => ({ method: "analysis of covariance", dataset, statistic, source });
  const names = [factor, number].map((term) => (term.kind === "interaction" ? "" : term.name));

  test(`analysis of covariance on ${dataset}`, () => {
    const additive = linearModel({ response, terms: [factor, number] });
    const interaction = linearModel({ response, terms: [factor, number, { kind: "interaction", of: names }] });
    compareCoefficients((statistic) => row(`additive, ${statistic}`), additive, expected.additive);
    compareCoefficients((statistic) => row(`with interaction, ${statistic}`), interaction, expected.interaction);
    const tests = sequentialTests(interaction);
    compareTable(row, interaction, tests, expected.sequential);
    const { slopeHomogeneity } = expected;
    const own = tests.at(-1)!;
    expect(own.degreesOfFreedom).toBe(slopeHomogeneity.df1);
    expect(interaction.residual.degreesOfFreedom).toBe(slopeHomogeneity.df2);
    expectAgreement(row("equal slopes, F"), [[own.f, slopeHomogeneity.F]], 9);
    expectAgreement(row("equal slopes, p"), [[own.p, slopeHomogeneity.p]], 7);
  });
}

test("difference of adjusted means on ToothGrowth", () => {
  const additive = linearModel({ response: tooth.data.len, terms: [cases[0]!.factor, cases[0]!.number] });
  // equal slopes: the difference of adjusted means is the factor's coefficient, however it is reached
  const coefficient = additive.coefficients[1]!;
  const contrast = linearContrast(additive, { "supp: VC": 1 });
  expectAgreement(
    {
      method: "linear contrast",
      dataset: "ToothGrowth",
      statistic: "difference of adjusted means",
      source: "R 4.2.2 coefficient",
    },
    [
      [contrast.estimate, tooth.expected.additive.suppVC.estimate],
      [contrast.standardError, tooth.expected.additive.suppVC.se],
      [contrast.t, tooth.expected.additive.suppVC.t],
      [contrast.lower, coefficient.lower],
    ],
    9,
  );
});
