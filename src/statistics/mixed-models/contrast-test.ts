import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { bilinear } from "../linear-algebra/dense-matrix.ts";
import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import { kenwardRoger } from "./kenward-roger.ts";
import { satterthwaiteDf } from "./satterthwaite.ts";

/** A combination of fixed effects: its value, interval and t test. */
export interface ContrastResult {
  estimate: number;
  lower: number;
  upper: number;
  standardError: number;
  df: number;
  /** two-tailed */
  p: number;
}

/**
 * Value, interval and t test of one combination of fixed effects.
 * @param weights one per entry of `fit.coefficientNames`
 * @param level of the interval
 * @throws RangeError if a weight is missing or not finite, or all are 0
 * @source Kenward and Roger 1997, Biometrics 53(3):983-997; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 * @example contrastTest(fit, [0, 1, -1]).estimate // -3.5, with the set-up of fitMixedModel
 */
export function contrastTest(fit: MixedModel, weights: ReadonlyArray<number>, level = 0.95): ContrastResult {
  const routine = "contrastTest";
  requireOpenProbability(routine, "level", level);
  if (weights.length !== fit.coefficientNames.length) {
    throw new RangeError(
      `${routine}: a contrast needs one weight per coefficient (${fit.coefficientNames.length}); received ${weights.length}`,
    );
  }
  requireFinite(routine, "weights", weights);
  if (weights.every((weight) => weight === 0)) throw new RangeError(`${routine}: weights must not all be 0`);
  const { state, scale, triangle, effects } = fit.working;
  const carried = Float64Array.from(solveUpperTransposed(ordinary, triangle, weights));
  const estimate = carried.reduce((sum, weight, k) => sum + weight * effects[k]!, 0);
  const { adjusted, varianceCovariance } = kenwardRoger(state);
  const df = satterthwaiteDf(state, varianceCovariance, carried);
  const standardError = scale * Math.sqrt(bilinear(carried, adjusted, carried));
  const reach = studentTQuantile((1 + level) / 2, df) * standardError;
  const p = studentTTwoTailed(estimate / standardError, df);
  return { estimate, lower: estimate - reach, upper: estimate + reach, standardError, df, p };
}
