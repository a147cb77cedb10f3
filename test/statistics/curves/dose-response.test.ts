import { describe, expect, test } from "vitest";
import type { CurveFormName } from "../../../src/statistics/curves/curve-forms.ts";
import { type FittedCurve, fitCurve } from "../../../src/statistics/curves/fit-curve.ts";
import { expectAgreement } from "../../agreement.ts";
import { type NonlinearReference, type ReferenceFit, reference } from "./fixtures.ts";

/** The models of the reference files and the forms they are here. */
const forms: Record<string, CurveFormName> = {
  mm: "hyperbola",
  mmTreated: "hyperbola",
  mmUntreated: "hyperbola",
  asym: "asymptotic-exponential",
  asymTreated: "asymptotic-exponential",
  quadratic: "quadratic",
  quadraticTreated: "quadratic",
  linearPlateau: "linear-plateau",
  linearPlateauTreated: "linear-plateau",
  quadraticPlateau: "quadratic-plateau",
  quadraticPlateauTreated: "quadratic-plateau",
  logisticLogConc: "logistic",
};

/** Parameters that are called something else here. */
const ourNames: Record<string, string> = { Asym: "A", xmid: "m", scal: "s" };

function columns(name: string, model: string, file: NonlinearReference): { doses: number[]; responses: number[] } {
  if (name === "Puromycin") {
    const state = model.endsWith("Untreated") ? "untreated" : "treated";
    const rows = file.data.state!.flatMap((value, i) => (value === state ? [i] : []));
    return {
      doses: rows.map((i) => Number(file.data.conc![i])),
      responses: rows.map((i) => Number(file.data.rate![i])),
    };
  }
  if (name === "DNaseRun1") {
    const doses = file.data.conc!.map(Number);
    return {
      doses: model === "logisticLogConc" ? doses.map(Math.log) : doses,
      responses: file.data.density!.map(Number),
    };
  }
  return { doses: file.data.nitro!.map(Number), responses: file.data.yield!.map(Number) };
}

const digits = (tolerance: number) => -Math.log10(tolerance);

describe.each(["Puromycin", "DNaseRun1", "OatsNitro"])("%s", (name) => {
  const file = reference<NonlinearReference>(`nonlinear-${name}`);
  test.each(Object.keys(file.expected))("%s", (model) => {
    const expected: ReferenceFit = file.expected[model]!;
    const fit = fitCurve({ ...columns(name, model, file), form: forms[model]! });
    if (fit.kind !== "fitted") throw new Error(fit.reason);
    const { coefRelative, seRelative, rssRelative, aicAbsolute } = file.tolerance;
    const row = (statistic: string) => ({
      method: `curve fit, ${fit.label}`,
      dataset: `${name} ${model}`,
      statistic,
      source: `R 4.2.2; data ${file.originallyPublished}`,
    });
    const named = Object.entries(expected.coefficients).map(([parameter, values]) => {
      const ours = fit.parameters.find((candidate) => candidate.name === (ourNames[parameter] ?? parameter));
      if (!ours) throw new Error(`no parameter ${parameter}`);
      return { ours, values };
    });
    expect(named.length).toBe(fit.parameters.length);
    const pairs = (pick: (entry: (typeof named)[number]) => readonly [number, number]) => named.map(pick);
    expectAgreement(
      row("parameters"),
      pairs((e) => [e.ours.estimate, e.values.estimate]),
      digits(coefRelative),
    );
    expectAgreement(
      row("standard errors"),
      pairs((e) => [e.ours.standardError, e.values.se]),
      digits(seRelative),
    );
    expectAgreement(
      row("t"),
      pairs((e) => [e.ours.t, e.values.t]),
      digits(seRelative),
    );
    // p and interval ends follow from t; the relative error of a small p is that of t many times over
    expectAgreement(
      row("p"),
      pairs((e) => [e.ours.p, e.values.p]),
      5,
    );
    expectAgreement(
      row("t interval, both ends"),
      named.flatMap((e) => [
        [e.ours.waldInterval.low, e.values.waldCI95[0]] as const,
        [e.ours.waldInterval.high, e.values.waldCI95[1]] as const,
      ]),
      digits(seRelative),
    );
    expectAgreement(row("residual sum of squares"), [[fit.residualSumOfSquares, expected.rss]], digits(rssRelative));
    expectAgreement(row("residual standard deviation"), [[fit.sigma, expected.sigma]], digits(rssRelative));
    expectAgreement(
      row("log-likelihood, AIC, AICc, BIC"),
      [
        [fit.logLikelihood, expected.logLik],
        [fit.aic, expected.AIC],
        [fit.aicc, expected.AICc],
        [fit.bic, expected.BIC],
      ],
      9,
      aicAbsolute,
    );
    expect(fit.degreesOfFreedom).toBe(expected.dfResidual);
    expect(fit.parameterCount).toBe(expected.kCountsSigma);
    shapeFigures(fit, expected, row, digits(coefRelative));
  });
});

/** Figures that only some models have: vertex, plateau, where the join lies, the same curve as a polynomial. */
function shapeFigures(
  fit: FittedCurve,
  expected: ReferenceFit,
  row: (statistic: string) => { method: string; dataset: string; statistic: string; source: string },
  atLeast: number,
): void {
  const [first, second, third] = fit.estimates;
  if (expected.vertexX !== undefined && expected.vertexY !== undefined) {
    const vertex = -second! / (2 * third!);
    const top = fit.meanAt(vertex).mean;
    expectAgreement(
      row("vertex"),
      [
        [vertex, expected.vertexX],
        [top, expected.vertexY],
      ],
      atLeast,
    );
  }
  if (expected.plateau !== undefined) {
    expectAgreement(row("plateau"), [[fit.meanAt(fit.highestDose * 2).mean, expected.plateau]], atLeast);
  }
  if (expected.optimum !== undefined) {
    expect(expected.optimum).toBe("interior");
    expect(fit.remarks.some((remark) => remark.includes("exactly on a tested dose"))).toBe(false);
  }
  if (expected.breakInsideData !== undefined) {
    expect(third! < fit.highestDose).toBe(expected.breakInsideData);
    expect(fit.remarks.some((remark) => remark.includes("beyond the highest tested dose"))).toBe(
      !expected.breakInsideData,
    );
    expect(expected.optimumAtSearchEdge).toBe(false);
  }
  if (expected.asPolynomial) {
    const { a, b, q } = expected.asPolynomial;
    expectAgreement(
      row("the same curve as a + b z + q z^2"),
      [
        [first! + second! * third! ** 2, a],
        [-2 * second! * third!, b],
        [second!, q],
      ],
      atLeast,
    );
  }
}

interface CarsReference {
  originallyPublished: string;
  data: { speed: number[]; dist: number[] };
  expected: {
    quadratic: {
      coefficients: { estimate: number[]; se: number[]; t: number[]; p: number[] };
      ci95: Record<string, { "2.5 %": number; "97.5 %": number }>;
      sigma: number;
      dfResidual: number;
      rss: number;
      logLik: number;
      AIC: number;
      BIC: number;
      fitted: number[];
      residuals: number[];
    };
  };
}

test("quadratic on the stopping distances of cars", () => {
  const file = reference<CarsReference>("ols-cars-quadratic");
  const expected = file.expected.quadratic;
  const fit = fitCurve({ form: "quadratic", doses: file.data.speed, responses: file.data.dist });
  if (fit.kind !== "fitted") throw new Error(fit.reason);
  const row = (statistic: string) => ({
    method: "curve fit, quadratic",
    dataset: "cars",
    statistic,
    source: `R 4.2.2; data ${file.originallyPublished}`,
  });
  const list = (ours: number[], theirs: number[]) => ours.map((value, i) => [value, theirs[i]!] as const);
  const { estimate, se, t, p } = expected.coefficients;
  expectAgreement(row("parameters"), list(fit.estimates, estimate), 10);
  expectAgreement(
    row("standard errors"),
    list(
      fit.parameters.map((parameter) => parameter.standardError),
      se,
    ),
    10,
  );
  expectAgreement(
    row("t and p"),
    [
      ...list(
        fit.parameters.map((parameter) => parameter.t),
        t,
      ),
      ...list(
        fit.parameters.map((parameter) => parameter.p),
        p,
      ),
    ],
    10,
  );
  expectAgreement(
    row("intervals"),
    Object.values(expected.ci95).flatMap((ends, j) => [
      [fit.parameters[j]!.interval.low, ends["2.5 %"]] as const,
      [fit.parameters[j]!.interval.high, ends["97.5 %"]] as const,
    ]),
    10,
  );
  expectAgreement(row("fitted values"), list(fit.fitted, expected.fitted), 10);
  expectAgreement(row("residuals"), list(fit.residuals, expected.residuals), 10, 1e-12);
  expectAgreement(
    row("sigma, residual sum of squares, log-likelihood, AIC, BIC"),
    [
      [fit.sigma, expected.sigma],
      [fit.residualSumOfSquares, expected.rss],
      [fit.logLikelihood, expected.logLik],
      [fit.aic, expected.AIC],
      [fit.bic, expected.BIC],
    ],
    12,
  );
  expect(fit.degreesOfFreedom).toBe(expected.dfResidual);
});
