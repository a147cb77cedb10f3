import { expect, test } from "vitest";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { digitsAgreed, expectAgreement } from "../../agreement.ts";
import longley from "../../reference/nist-Longley.json" with { type: "json" };
import norris from "../../reference/nist-Norris.json" with { type: "json" };
import peers from "../../reference/nist-peer-lre.json" with { type: "json" };
import wampler1 from "../../reference/nist-Wampler1.json" with { type: "json" };
import wampler2 from "../../reference/nist-Wampler2.json" with { type: "json" };
import wampler3 from "../../reference/nist-Wampler3.json" with { type: "json" };

// NIST/SEMATECH Statistical Reference Datasets, linear regression, certified to 15 digits

const line = (x: number[]): ModelTerm[] => [{ kind: "number", name: "x", values: x }];
const fifthDegree = (x: number[]): ModelTerm[] => [
  ...line(x),
  ...[2, 3, 4, 5].map((exponent) => ({ kind: "power" as const, name: `x to the ${exponent}`, values: x, exponent })),
];
const { y, ...predictors } = longley.data;

const cases = [
  { name: "Norris", file: norris, response: norris.data.y, terms: line(norris.data.x) },
  {
    name: "Longley",
    file: longley,
    response: y,
    terms: Object.entries(predictors).map(([name, values]) => ({ kind: "number" as const, name, values })),
  },
  { name: "Wampler1", file: wampler1, response: wampler1.data.y, terms: fifthDegree(wampler1.data.x) },
  { name: "Wampler2", file: wampler2, response: wampler2.data.y, terms: fifthDegree(wampler2.data.x) },
  { name: "Wampler3", file: wampler3, response: wampler3.data.y, terms: fifthDegree(wampler3.data.x) },
];

for (const { name, file, response, terms } of cases) {
  test(`linear regression, NIST ${name}`, () => {
    const model = linearModel({ response, terms });
    const { certified } = file.expected;
    const parameters = Object.values(certified.parameters) as { estimate: number; sd: number }[];
    expect(model.coefficients.length).toBe(parameters.length);
    expect(model.regression.degreesOfFreedom).toBe(certified.regression.df);
    expect(model.residual.degreesOfFreedom).toBe(certified.residual.df);
    const pairs = {
      "coef(min)": model.coefficients.map((one, i) => [one.estimate, parameters[i]!.estimate] as const),
      "se(min)": model.coefficients.map((one, i) => [one.standardError, parameters[i]!.sd] as const),
      sigma: [[model.residualStandardDeviation, certified.residualSD] as const],
      R2: [[model.rSquared, certified.r2] as const],
      F: [[model.regression.f, Number(certified.regression.F)] as const],
      "analysis of variance": [
        [model.regression.sumOfSquares, certified.regression.ss] as const,
        [model.regression.meanSquare, certified.regression.ms] as const,
        [model.residual.sumOfSquares, certified.residual.ss] as const,
        [model.residual.meanSquare, certified.residual.ms] as const,
      ],
    };
    for (const [statistic, own] of Object.entries(pairs)) {
      expectAgreement(
        { method: "linear model", dataset: `NIST ${name}`, statistic, source: "NIST StRD certified values" },
        own,
        13.5,
      );
      // and no fewer digits than R 4.2.2 has on the same figure
      const peer = peers.rows.find(
        (one) => one.dataset === name && one.procedure === "lm" && one.statistic === statistic,
      );
      if (peer !== undefined && peer.lre !== null) {
        const worst = Math.min(...own.map(([ours, reference]) => digitsAgreed(ours, reference)));
        expect(worst, `${name} ${statistic}`).toBeGreaterThanOrEqual(peer.lre);
      }
    }
  });
}

test("every figure R has for linear regression on the NIST sets was looked at", () => {
  const names = new Set(cases.map(({ name }) => name));
  const known = new Set(["coef(min)", "se(min)", "sigma", "R2", "F"]);
  const rows = peers.rows.filter((one) => one.procedure === "lm");
  expect(rows.length).toBe(25);
  for (const one of rows) expect(names.has(one.dataset) && known.has(one.statistic)).toBe(true);
});
