import { expect, test } from "vitest";
import { shapiroWilk } from "../../../src/statistics/groups/shapiro-wilk.ts";
import { influence, leverages } from "../../../src/statistics/linear-models/influence.ts";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { modelLikelihood } from "../../../src/statistics/linear-models/model-likelihood.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { meanAt, predictAt, type Setting } from "../../../src/statistics/linear-models/predict-mean.ts";
import { breuschPaganTest, durbinWatson } from "../../../src/statistics/linear-models/residual-tests.ts";
import { robustStandardErrors } from "../../../src/statistics/linear-models/robust-errors.ts";
import { varianceInflation } from "../../../src/statistics/linear-models/variance-inflation.ts";
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

const cases: { dataset: string; source: string; expected: Expected; model: LinearModel; settings: Setting[] }[] = [
  {
    dataset: "trees",
    source: "R 4.2.2 datasets::trees",
    expected: trees.expected,
    model: linearModel({ response: trees.data.Volume, terms: numbers(trees.data, ["Girth", "Height"]) }),
    settings: trees.expected.prediction.at.Girth.map((Girth, i) => ({
      Girth,
      Height: trees.expected.prediction.at.Height[i]!,
    })),
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
    settings: cars.expected.quadratic.prediction.at.speed.map((speed) => ({ speed })),
  },
  {
    dataset: "cars, straight line",
    source: "R 4.2.2 datasets::cars",
    expected: cars.expected.simple,
    model: linearModel({ response: cars.data.dist, terms: numbers(cars.data, ["speed"]) }),
    settings: cars.expected.simple.prediction.at.speed.map((speed) => ({ speed })),
  },
  {
    dataset: "mtcars",
    source: "R 4.2.2 datasets::mtcars",
    expected: mtcars.expected,
    model: linearModel({ response: mtcars.data.mpg, terms: numbers(mtcars.data, ["wt", "hp", "qsec"]) }),
    settings: mtcars.expected.prediction.at.wt.map((wt, i) => ({
      wt,
      hp: mtcars.expected.prediction.at.hp[i]!,
      qsec: mtcars.expected.prediction.at.qsec[i]!,
    })),
  },
];

const zip = (ours: ReadonlyArray<number>, theirs: ReadonlyArray<number>) => {
  expect(ours.length).toBe(theirs.length);
  return ours.map((value, i) => [value, theirs[i]!] as const);
};

for (const { dataset, source, expected, model, settings } of cases) {
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
    const likelihood = modelLikelihood(model);
    expectAgreement(
      row("R², adjusted R², sigma, F, residual sum of squares, likelihood, criteria"),
      [
        [model.rSquared, expected.r2],
        [model.adjustedRSquared, expected.adjR2],
        [model.residualStandardDeviation, expected.sigma],
        [model.regression.f, expected.F.value],
        [model.residual.sumOfSquares, expected.rss],
        [likelihood.logLikelihood, expected.logLik],
        [likelihood.aic, expected.AIC],
        [likelihood.bic, expected.BIC],
      ],
      digits,
    );
  });

  test(`linear model on ${dataset}: robust standard errors`, () => {
    const kinds = [
      ["HC0", expected.hc0],
      ["HC1", expected.hc1],
      ["HC2", expected.hc2],
      ["HC3", expected.hc3],
    ] as const;
    expectAgreement(
      row("HC0 to HC3 standard errors"),
      kinds.flatMap(([kind, reference]) =>
        zip(
          robustStandardErrors(model, kind).map((one) => one.standardError),
          Object.values(reference),
        ),
      ),
      digits,
    );
  });

  test(`linear model on ${dataset}: rows`, () => {
    const rows = influence(model);
    // residuals are differences of numbers near 100: the reference itself is rounded at about 1e-14 of those
    expectAgreement(
      row("fitted, residuals, leverage, Cook's distance, studentised residuals"),
      [
        ...zip(model.fitted, expected.fitted),
        ...zip(model.residuals, expected.residuals),
        ...zip(
          rows.map((one) => one.residual),
          expected.residuals,
        ),
        ...zip(leverages(model), expected.leverage),
        ...zip(
          rows.map((one) => one.cooksDistance),
          expected.cooksDistance,
        ),
        ...zip(
          rows.map((one) => one.standardisedResidual),
          expected.studentizedInternal,
        ),
        ...zip(
          rows.map((one) => one.studentisedResidual),
          expected.studentizedExternal,
        ),
      ],
      digits,
      floor,
    );
    const shapiro = shapiroWilk(model.residuals);
    const spread = breuschPaganTest(model);
    expect(spread.degreesOfFreedom).toBe(expected.breuschPaganKoenker.df);
    expectAgreement(
      row("Durbin-Watson, Shapiro-Wilk W, Breusch-Pagan statistic"),
      [
        [durbinWatson(model), expected.durbinWatson],
        [shapiro.w, expected.shapiroResiduals.W],
        [spread.statistic, expected.breuschPaganKoenker.statistic],
      ],
      digits,
    );
    expectAgreement(
      row("p of Shapiro-Wilk and Breusch-Pagan"),
      [
        [shapiro.p, expected.shapiroResiduals.p],
        [spread.p, expected.breuschPaganKoenker.p],
      ],
      digitsOfP,
    );
  });

  test(`linear model on ${dataset}: inflation and prediction`, () => {
    if ("vif" in expected) {
      expectAgreement(
        row("variance inflation"),
        zip(
          varianceInflation(model).map((one) => one.inflation),
          Object.values(expected.vif),
        ),
        digits,
      );
    }
    const { prediction } = expected;
    const means = settings.map((setting) => meanAt(model, setting));
    const news = settings.map((setting) => predictAt(model, setting));
    expectAgreement(
      row("mean and new observation: estimate, standard error, limits"),
      [
        ...zip(
          means.map((one) => one.estimate),
          prediction.fit,
        ),
        ...zip(
          news.map((one) => one.estimate),
          prediction.fit,
        ),
        ...zip(
          means.map((one) => one.standardError),
          prediction.seFit,
        ),
        ...zip(
          means.map((one) => one.lower),
          prediction.ci95Lower,
        ),
        ...zip(
          means.map((one) => one.upper),
          prediction.ci95Upper,
        ),
        ...zip(
          news.map((one) => one.lower),
          prediction.pi95Lower,
        ),
        ...zip(
          news.map((one) => one.upper),
          prediction.pi95Upper,
        ),
      ],
      digits,
      floor,
    );
  });
}
