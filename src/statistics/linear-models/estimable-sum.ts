import {
  add,
  type DoubleDouble,
  multiply,
  subtract,
  sumOfSquares,
  toNumber,
  zero,
} from "../linear-algebra/double-double.ts";
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
 * Value and spread of a weighted sum of the coefficients of all columns, dropped ones included.
 * @param weights one per column of the design
 * @throws RangeError if the sum leans on a dropped column in a way the data cannot tell
 * @internal
 */
export function estimableSum(routine: string, model: LinearModel, weights: ReadonlyArray<DoubleDouble>): EstimatedSum {
  const { factor, columns } = model.working;
  const kept = factor.kept.map((position) => weights[position]!);
  for (const { column, multiples } of factor.dependent) {
    let implied = zero;
    let size = Math.abs(toNumber(weights[column]!));
    multiples.forEach((multiple, k) => {
      const part = multiply(multiple, kept[k]!);
      implied = add(implied, part);
      size += Math.abs(toNumber(part));
    });
    if (Math.abs(toNumber(subtract(weights[column]!, implied))) > 1e-9 * size) {
      const dropped = model.dropped.find(({ name }) => name === columns[column]!.name)!;
      throw new RangeError(
        `${routine}: the data must be able to tell the effects apart; "${dropped.name}" ${dropped.because}, so this sum has no single value`,
      );
    }
  }
  return keptSum(model, kept);
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
