import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { type DoubleDouble, zero } from "../linear-algebra/double-double.ts";
import { typedDecimal } from "../linear-algebra/typed-decimal.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { keptSum } from "./estimable-sum.ts";
import type { LinearModel } from "./linear-model.ts";

/** Weight of each coefficient by its name; those left out weigh 0. */
export type CoefficientWeights = Readonly<Record<string, number>>;

/** A weighted sum of coefficients with its interval and test. */
export interface ContrastEstimate {
  estimate: number;
  lower: number;
  upper: number;
  standardError: number;
  degreesOfFreedom: number;
  /** against 0 */
  t: number;
  /** two-tailed */
  p: number;
  level: number;
}

/**
 * A weighted sum of coefficients, such as the difference of two cooks, with its interval.
 * @param weights by coefficient name: { "cook: B": 1, "cook: C": -1 }
 * @param level of the interval; the model's unless stated
 * @throws RangeError if a name is not a coefficient or was dropped, a weight is not finite or all are 0
 * @source Seber and Lee 2003, Linear Regression Analysis, chapter 4
 * @example
 * const model = linearModel({ response: [4, 6, 9, 11, 5, 9], terms: [{ kind: "factor", name: "cook", values: ["A", "A", "B", "B", "C", "C"] }] });
 * linearContrast(model, { "cook: B": 1, "cook: C": -1 }).estimate // 3
 */
export function linearContrast(model: LinearModel, weights: CoefficientWeights, level = model.level): ContrastEstimate {
  requireOpenProbability("linearContrast", "level", level);
  const { estimate, spread } = keptSum(model, keptWeights("linearContrast", model, weights));
  return contrastEstimate(model, estimate, spread, level);
}

/**
 * A part of the fit's summary: the estimate with its standard error, t and limits.
 * @internal
 */
export function contrastEstimate(
  model: LinearModel,
  estimate: number,
  spread: number,
  level: number,
): ContrastEstimate {
  const degreesOfFreedom = model.residual.degreesOfFreedom;
  const standardError = model.residualStandardDeviation * spread;
  const t = estimate === 0 ? 0 : estimate / standardError;
  const half = studentTQuantile((1 + level) / 2, degreesOfFreedom) * standardError;
  return {
    estimate,
    lower: estimate - half,
    upper: estimate + half,
    standardError,
    degreesOfFreedom,
    t,
    p: studentTTwoTailed(t, degreesOfFreedom),
    level,
  };
}

/** Weights of the kept columns, in their order. */
function keptWeights(routine: string, model: LinearModel, weights: CoefficientWeights): DoubleDouble[] {
  const names = Object.keys(weights);
  requireFinite(routine, "weights", Object.values(weights));
  if (names.every((name) => weights[name] === 0)) throw new RangeError(`${routine}: weights must not all be 0`);
  for (const name of names) {
    const dropped = model.dropped.find((column) => column.name === name);
    if (dropped !== undefined) {
      throw new RangeError(`${routine}: "${name}" was left out of the model because it ${dropped.because}`);
    }
    if (!model.coefficients.some((coefficient) => coefficient.name === name)) {
      const known = model.coefficients.map((coefficient) => `"${coefficient.name}"`).join(", ");
      throw new RangeError(`${routine}: a weight must name a coefficient (${known}); received "${name}"`);
    }
  }
  return model.coefficients.map(({ name }) => {
    const weight = Object.hasOwn(weights, name) ? weights[name]! : 0;
    return weight === 0 ? zero : typedDecimal(weight);
  });
}
