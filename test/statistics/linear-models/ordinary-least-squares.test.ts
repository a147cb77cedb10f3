import { expect, test } from "vitest";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { expectAgreement } from "../../agreement.ts";
import cars from "../../reference/ols-cars-quadratic.json" with { type: "json" };
import mtcars from "../../reference/ols-mtcars.json" with { type: "json" };
import trees from "../../reference/ols-trees.json" with { type: "json" };

type Expected =
  | typeof trees.expected
  | typeof cars.expected.quadratic
  | typeof cars.expected.simple
  | typeof mtcars.expected;

/** Digits the reference files promise: relative 1e-9, and 1e-7 for p-values; below 1e-12 a difference is rounding. */
const digits = 9;
const digitsOfP = 7;
const floor = 1e-12;

const numbers = (data: Record<string, number[]>, names: string[]): ModelTerm[] =>
  names.map((name) => ({ kind: "number", name, values: data[name]! }));

const cases: { dataset: string; source: string; expected: Expected; model: LinearModel }[] = [
  {
    dataset: "trees",
    source: "R 4.2.2 datasets::trees",
    expected: trees.expected,
    model: linearModel({ response: trees.data.Volume, terms: numbers(trees.data, ["Girth", "Height"]) }),
  },
  {
    dataset: "cars, quadratic",
    source: "R 4.2.2 datasets::cars",
    expected: cars.expected.quadratic,
    model: linearModel({
      response: cars.data.dist,
      terms: [
        { kind: "number", name: "speed", values: cars.data.speed },
        { kind: "power", name: "speed squared", values: cars.data.speed, exponent: 2 },
      ],
    }),
  },
  {
    dataset: "cars, straight line",
    source: "R 4.2.2 datasets::cars",
    expected: cars.expected.simple,
    model: linearModel({ response: cars.data.dist, terms: numbers(cars.data, ["speed"]) }),
  },
  {
    dataset: "mtcars",
    source: "R 4.2.2 datasets::mtcars",
    expected: mtcars.expected,
    model: linearModel({ response: mtcars.data.mpg, terms: numbers(mtcars.data, ["wt", "hp", "qsec"]) }),
  },
];

const zip = (ours: ReadonlyArray<number>, theirs: ReadonlyArray<number>) => {
  expect(ours.length).toBe(theirs.length);
  return ours.map((value, i) => [value, theirs[i]!] as const);
};

for (const { dataset, source, expected, model } of cases) {
  const row = (statistic: string) => ({ method: "linear model", dataset, statistic, source });

  test(`linear model on ${dataset}: estimates`, () => {
    expect(model.observations).toBe(expected.n);
    expect(model.dropped).toEqual([]);
    expect(model.coefficients.length).toBe(expected.columns.length);
    expect(expected.coefNames).toEqual(expected.columns);
    const { coefficients } = expected;
    expectAgreement(
      row("coefficients, standard errors, t"),
      [
        ...zip(
          model.coefficients.map((one) => one.estimate),
          coefficients.estimate,
        ),
        ...zip(
          model.coefficients.map((one) => one.standardError),
          coefficients.se,
        ),
        ...zip(
          model.coefficients.map((one) => one.t),
          coefficients.t,
        ),
      ],
      digits,
      floor,
    );
    expectAgreement(
      row("p of coefficients and F"),
      [
        ...zip(
          model.coefficients.map((one) => one.p),
          coefficients.p,
        ),
        [model.regression.p, expected.F.p],
      ],
      digitsOfP,
    );
    const limits = Object.values(expected.ci95);
    expectAgreement(
      row("95 % intervals"),
      model.coefficients.flatMap((one, i) => [
        [one.lower, limits[i]!["2.5 %"]] as const,
        [one.upper, limits[i]!["97.5 %"]] as const,
      ]),
      digits,
      floor,
    );
    expect(model.residual.degreesOfFreedom).toBe(expected.dfResidual);
    expect(model.regression.degreesOfFreedom).toBe(expected.F.df1);
    expect(model.residual.degreesOfFreedom).toBe(expected.F.df2);
    expectAgreement(
      row("R², adjusted R², sigma, F, residual sum of squares"),
      [
        [model.rSquared, expected.r2],
        [model.adjustedRSquared, expected.adjR2],
        [model.residualStandardDeviation, expected.sigma],
        [model.regression.f, expected.F.value],
        [model.residual.sumOfSquares, expected.rss],
      ],
      digits,
    );
  });

  test(`linear model on ${dataset}: rows`, () => {
    // residuals are differences of numbers near 100: the reference itself is rounded at about 1e-14 of those
    expectAgreement(
      row("fitted, residuals"),
      [...zip(model.fitted, expected.fitted), ...zip(model.residuals, expected.residuals)],
      digits,
      floor,
    );
  });
}
