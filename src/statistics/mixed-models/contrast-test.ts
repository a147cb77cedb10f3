import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { bilinear } from "../linear-algebra/dense-matrix.ts";
import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import type { KenwardRoger } from "./kenward-roger.ts";
import { satterthwaiteDf } from "./satterthwaite.ts";

/** How degrees of freedom are found. */
export type SmallSampleMethod = "kenward-roger" | "satterthwaite";

/** Options shared by the tests of this folder. */
export interface TestOptions {
  /** "kenward-roger" (the default, needs a REML fit) or "satterthwaite" */
  method?: SmallSampleMethod;
  /** level of intervals; 0.95 unless stated */
  level?: number;
}

/** A combination of fixed effects: its value, interval and t test. */
export interface ContrastResult {
  estimate: number;
  lower: number;
  upper: number;
  /** Kenward-Roger corrected under that method */
  standardError: number;
  df: number;
  t: number;
  /** two-tailed */
  p: number;
  method: SmallSampleMethod;
  level: number;
}

function correctionOf(routine: string, fit: MixedModel): KenwardRoger {
  if (fit.method !== "REML") {
    throw new RangeError(`${routine}: Kenward-Roger needs a REML fit; received ${fit.method}`);
  }
  return fit.working.correction();
}

function requireWeights(routine: string, fit: MixedModel, weights: ReadonlyArray<number>): void {
  if (weights.length !== fit.coefficientNames.length) {
    throw new RangeError(
      `${routine}: a contrast needs one weight per coefficient (${fit.coefficientNames.length}); received ${weights.length}`,
    );
  }
  requireFinite(routine, "weights", weights);
  if (weights.every((weight) => weight === 0)) throw new RangeError(`${routine}: weights must not all be 0`);
}

/**
 * Value, interval and t test of one combination of fixed effects.
 * @param weights one per entry of `fit.coefficientNames`
 * @throws RangeError if a weight is missing or not finite, all are 0, or Kenward-Roger is asked of an ML fit
 * @source Kenward and Roger 1997, Biometrics 53(3):983-997; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 * @example contrastTest(fit, [0, 1, -1]).estimate // -3.5, with the set-up of fitMixedModel
 */
export function contrastTest(
  fit: MixedModel,
  weights: ReadonlyArray<number>,
  options: TestOptions = {},
): ContrastResult {
  const routine = "contrastTest";
  const { method = "kenward-roger", level = 0.95 } = options;
  requireOpenProbability(routine, "level", level);
  requireWeights(routine, fit, weights);
  const { state, scale, columns, effects } = fit.working;
  const carried = Float64Array.from(solveUpperTransposed(ordinary, columns.triangle, weights));
  const estimate = carried.reduce((sum, weight, k) => sum + weight * effects[k]!, 0);
  const { adjusted, varianceCovariance } =
    method === "kenward-roger"
      ? correctionOf(routine, fit)
      : { adjusted: state.covariance, varianceCovariance: fit.working.varianceCovariance };
  const df = satterthwaiteDf(state, varianceCovariance, carried);
  const standardError = scale * Math.sqrt(bilinear(carried, adjusted, carried));
  const t = estimate / standardError;
  const reach = studentTQuantile((1 + level) / 2, df) * standardError;
  return {
    estimate,
    lower: estimate - reach,
    upper: estimate + reach,
    standardError,
    df,
    t,
    p: studentTTwoTailed(t, df),
    method,
    level,
  };
}
