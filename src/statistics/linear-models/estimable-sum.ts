import { add, type DoubleDouble, multiply, sumOfSquares, toNumber, zero } from "../linear-algebra/double-double.ts";
import { doubleDouble } from "../linear-algebra/double-double-column.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import type { LinearModel } from "./linear-model.ts";

/** A weighted sum of coefficients, judged. */
export interface EstimatedSum {
  estimate: number;
  /** standard error in units of sigma */
  spread: number;
}

/**
 * Value and spread of a weighted sum of the coefficients that were kept, in their order.
 * @internal
 */
export function keptSum(model: LinearModel, weights: ReadonlyArray<DoubleDouble>): EstimatedSum {
  const { factor, estimates } = model.working;
  let estimate = zero;
  weights.forEach((weight, k) => {
    estimate = add(estimate, multiply(weight, estimates[k]!));
  });
  return {
    estimate: toNumber(estimate),
    spread: Math.sqrt(toNumber(sumOfSquares(solveUpperTransposed(doubleDouble, factor.upper, weights)))),
  };
}
