import { toNumber } from "../linear-algebra/double-double.ts";
import { entry } from "../linear-algebra/double-double-column.ts";
import type { LinearModel } from "./linear-model.ts";

/** How one row sits in a fit. */
export interface RowInfluence {
  /** response - fitted */
  residual: number;
  /** share of its own fitted value that the row decides, 0 to 1 */
  leverage: number;
  /** residual over its own standard error, sigma from all rows (internally studentized) */
  standardisedResidual: number;
  /** residual over its own standard error, sigma from the other rows (externally studentized): t with one degree of freedom fewer */
  studentisedResidual: number;
  /** how far all fitted values move when the row is left out, in units of p sigma² */
  cooksDistance: number;
}

/** A row with at least this much leverage decides its own fitted value: it has no residual to judge. */
export const fullLeverage = 1 - 1e-10;

/**
 * Squared length of each row of the orthonormal basis of the design: the diagonal of the hat matrix.
 * @example leverages(model)[0] // 0.7, with the set-up of linearModel
 */
export function leverages(model: LinearModel): number[] {
  const { factor } = model.working;
  const sums = new Float64Array(factor.rows);
  for (const column of factor.basis()) {
    for (let i = 0; i < factor.rows; i++) sums[i] = sums[i]! + toNumber(entry(column, i)) ** 2;
  }
  return Array.from(sums, (sum) => Math.min(sum, 1));
}

/**
 * Residuals, leverage and Cook's distance of every row.
 * @returns one entry per row, in order; with weights, residuals are weighted before they are standardised
 * @throws RangeError if the fit is exact, or has only one residual degree of freedom, or a row has leverage 1: what the row
 *   would look like without its own help is then not defined (use `leverages` to find it)
 * @source studentised residuals: Cook and Weisberg 1982, Residuals and Influence in Regression, 18-20; distance: Cook
 *   1977, Technometrics 19(1):15-18
 * @example influence(model)[0].cooksDistance // 0.1111..., with the set-up of linearModel
 */
export function influence(model: LinearModel): RowInfluence[] {
  const df = model.residual.degreesOfFreedom;
  if (model.exactFit) throw new RangeError("influence: the fit must leave residuals; received an exact fit");
  if (df < 2) throw new RangeError(`influence: at least 2 residual degrees of freedom are needed; received ${df}`);
  const { weights } = model.working;
  const rank = model.working.factor.kept.length;
  return leverages(model).map((leverage, i) => {
    if (leverage >= fullLeverage) {
      throw new RangeError(
        `influence: no row may decide its own fitted value alone; received row ${i + 1} with leverage 1`,
      );
    }
    const residual = model.residuals[i]!;
    const scaled = residual * Math.sqrt(weights?.[i] ?? 1);
    const own = scaled / Math.sqrt(1 - leverage);
    const standardised = own / model.residualStandardDeviation;
    const othersMeanSquare = (model.residual.sumOfSquares - own * own) / (df - 1);
    // the one row that carries all of the residual leaves none to the others
    const studentised =
      othersMeanSquare > 1e-14 * model.residual.meanSquare
        ? own / Math.sqrt(othersMeanSquare)
        : Math.sign(own) * Number.POSITIVE_INFINITY;
    return {
      residual,
      leverage,
      standardisedResidual: standardised,
      studentisedResidual: studentised,
      cooksDistance: (standardised * standardised * leverage) / (1 - leverage) / rank,
    };
  });
}
