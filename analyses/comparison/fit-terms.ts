import type { Sentence } from "../../src/analysis.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { linearContrast } from "../../src/statistics/linear-models/linear-contrast.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../src/statistics/linear-models/model-term.ts";
import { marginalTests } from "../../src/statistics/linear-models/term-sums-of-squares.ts";
import { contrastTest } from "../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { termTests } from "../../src/statistics/mixed-models/term-tests.ts";
import type { Observation } from "./tray-response.ts";

/** A combination of coefficients with its error. */
export interface TermContrast {
  estimate: number;
  standardError: number;
  df: number;
  p: number;
  low: number;
  high: number;
}

/** Whether a term does anything. */
export interface TermF {
  f: number;
  numeratorDf: number;
  denominatorDf: number;
  p: number;
}

/** A fitted model of any terms, with the cook or other groups allowed for where there are any. */
export interface TermsFit {
  model: "mixed model" | "least squares";
  names: ReadonlyArray<string>;
  residualSd: number;
  /** @throws RangeError if a name has no coefficient of its own */
  contrast(weights: Readonly<Record<string, number>>, level?: number): TermContrast;
  /** undefined when the other terms already determine it */
  test(term: string): TermF | undefined;
  method: Sentence;
  notes: Sentence[];
}

const interval = (level: number, estimate: number, standardError: number, df: number) => {
  const reach = studentTQuantile((1 + level) / 2, df) * standardError;
  return { low: estimate - reach, high: estimate + reach };
};

function mixedFit(
  observations: ReadonlyArray<Observation>,
  terms: ReadonlyArray<ModelTerm>,
  groupNames: ReadonlyArray<string>,
  level: number,
): TermsFit {
  const fit = fitMixedModel({
    response: observations.map(({ value }) => value),
    terms,
    random: groupNames.map((name, depth) => ({
      name,
      groups: observations.map(({ groups }) => groups[depth]!),
      ...(depth > 0 ? { within: groupNames[depth - 1]! } : {}),
    })),
  });
  const tests = new Map(termTests(fit).map((test) => [test.term, test]));
  return {
    model: "mixed model",
    names: fit.coefficientNames,
    residualSd: fit.residual.standardDeviation,
    contrast: (weights, wanted = level) => {
      for (const name of Object.keys(weights)) {
        if (!fit.coefficientNames.includes(name)) {
          throw new RangeError(`contrast: ${name} must be a coefficient that these trays determine; it is not`);
        }
      }
      const { estimate, standardError, df, p, lower, upper } = contrastTest(
        fit,
        fit.coefficientNames.map((name) => weights[name] ?? 0),
        { level: wanted },
      );
      return { estimate, standardError, df, p, low: lower, high: upper };
    },
    test: (term) => tests.get(term),
    method: [
      `Mixed model with ${groupNames.join(" and ")} as random effects, fitted by restricted maximum likelihood, with degrees of freedom after Kenward and Roger.`,
    ],
    notes: fit.notes.map((note) => [note]),
  };
}

function plainFit(
  observations: ReadonlyArray<Observation>,
  terms: ReadonlyArray<ModelTerm>,
  level: number,
  notes: Sentence[],
): TermsFit {
  const fit = linearModel({ response: observations.map(({ value }) => value), terms, level });
  const tests = new Map(marginalTests(fit).map((test) => [test.term, test]));
  return {
    model: "least squares",
    names: fit.coefficients.map(({ name }) => name),
    residualSd: fit.residualStandardDeviation,
    contrast: (weights, wanted = level) => {
      const { estimate, standardError, degreesOfFreedom: df, p } = linearContrast(fit, weights);
      return { estimate, standardError, df, p, ...interval(wanted, estimate, standardError, df) };
    },
    test: (term) => {
      const test = tests.get(term);
      return (
        test && {
          f: test.f,
          numeratorDf: test.degreesOfFreedom,
          denominatorDf: fit.residual.degreesOfFreedom,
          p: test.p,
        }
      );
    },
    method: ["Least squares: trays stand on their own, as no cook is recorded or there was only one."],
    notes,
  };
}

/**
 * Fits terms to trays: with their groups (cook, or cook and jar) as random effects where there are several, else by least
 * squares; also by least squares, and saying so, where the grouped model cannot be fitted.
 * @throws RangeError if neither can be fitted: too few trays, or nothing varies
 */
export function fitTerms(
  observations: ReadonlyArray<Observation>,
  terms: ReadonlyArray<ModelTerm>,
  groupNames: ReadonlyArray<string>,
  level: number,
): TermsFit {
  const grouped = groupNames.length > 0 && new Set(observations.map(({ groups }) => groups[0])).size > 1;
  if (!grouped) return plainFit(observations, terms, level, []);
  try {
    return mixedFit(observations, terms, groupNames, level);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return plainFit(observations, terms, level, [
      [
        `The model with ${groupNames.join(" and ")} groups could not be fitted (${error.message}), so the groups are not allowed for.`,
      ],
    ]);
  }
}
