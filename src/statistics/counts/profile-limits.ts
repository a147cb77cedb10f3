import { chiSquareQuantile } from "../distributions/chi-square.ts";
import { findRoot } from "../distributions/find-root.ts";
import type { LogisticDesign } from "./logistic-design.ts";
import { type Counts, type LogisticMaximum, maximiseLogistic } from "./maximise-logistic.ts";

/** A limit further out than this many standard errors is reported as infinite. */
const furthest = 1000;

/**
 * Limits of one coefficient: the values at which twice the drop of the log-likelihood, maximised over the other
 * coefficients, reaches the chi-square quantile of one degree of freedom.
 * @param best the fit over all coefficients
 * @param index of the coefficient
 * @param covariance of the estimates
 * @source Venzon and Moolgavkar 1988, Applied Statistics 37(1):87-94; penalised: Heinze and Schemper 2002, Statistics in
 *   Medicine 21(16):2409-2419
 * @internal
 */
export function profileLimits(
  design: LogisticDesign,
  best: LogisticMaximum,
  index: number,
  covariance: ReadonlyArray<ArrayLike<number>>,
  level: number,
  biasReduced: boolean,
): { lower: number; upper: number } {
  // the coefficient held fixed goes last
  const order = design.names.map((_, column) => column).filter((column) => column !== index);
  order.push(index);
  const reordered: Counts = {
    ...design,
    rows: design.rows.map((row) => Float64Array.from(order, (column) => row[column]!)),
  };
  const free = order.length - 1;
  const variance = covariance[index]![index]!;
  const estimate = best.coefficients[index]!;
  const dropAt = (value: number): number => {
    // where the others would go if the likelihood were quadratic, and nowhere at all
    const likely = Float64Array.from(
      order,
      (column) => best.coefficients[column]! + (covariance[column]![index]! / variance) * (value - estimate),
    );
    const zero = new Float64Array(order.length);
    likely[free] = value;
    zero[free] = value;
    const starts = [likely, zero];
    const held = maximiseLogistic(reordered, { routine: "logisticRegression", biasReduced, free, starts });
    return Math.max(0, 2 * (best.objective - held.objective));
  };
  const standardError = Math.sqrt(variance);
  const target = chiSquareQuantile(level, 1);
  const limit = (side: -1 | 1): number => {
    let inside = estimate;
    for (let reach = Math.sqrt(target); reach < furthest; reach *= 1.5) {
      const outside = estimate + side * reach * standardError;
      if (dropAt(outside) >= target) {
        return findRoot((value) => Math.sqrt(dropAt(value)) - Math.sqrt(target), inside, outside, 1e-12);
      }
      inside = outside;
    }
    return side * Number.POSITIVE_INFINITY;
  };
  return { lower: limit(-1), upper: limit(1) };
}
