import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { toNumber } from "../linear-algebra/double-double.ts";
import { entry } from "../linear-algebra/double-double-column.ts";
import { type LinearModel, linearModel } from "./linear-model.ts";
import { interceptName } from "./model-term.ts";

/**
 * Whether neighbouring residuals, in row order, resemble each other.
 * @returns sum of squared steps between residuals over their sum of squares: about 2 when neighbours are unrelated, towards
 *   0 when they drift together, towards 4 when they alternate
 * @throws RangeError if the fit is exact
 * @source Durbin and Watson 1950, Biometrika 37(3/4):409-428
 * @example durbinWatson(model) // 2.9, with the set-up of linearModel
 */
export function durbinWatson(model: LinearModel): number {
  requireResiduals("durbinWatson", model);
  let steps = 0;
  let squares = 0;
  model.residuals.forEach((residual, i) => {
    if (i > 0) steps += (residual - model.residuals[i - 1]!) ** 2;
    squares += residual ** 2;
  });
  return steps / squares;
}

/**
 * Test that the residual variance does not depend on the model's columns: n R² of the squared residuals on them.
 * @returns chi-square statistic, its degrees of freedom and p
 * @throws RangeError if the fit is exact, weighted or without intercept, or has no column besides the intercept
 * @source Breusch and Pagan 1979, Econometrica 47(5):1287-1294; studentized by Koenker 1981, Journal of Econometrics
 *   17(1):107-112
 * @example breuschPaganTest(model).statistic // 1.1180..., with the set-up of linearModel
 */
export function breuschPaganTest(model: LinearModel): { statistic: number; degreesOfFreedom: number; p: number } {
  const routine = "breuschPaganTest";
  requireResiduals(routine, model);
  const { intercept, weights, factor, columns } = model.working;
  if (!intercept || weights !== undefined) {
    throw new RangeError(`${routine}: the model must have an intercept and no weights`);
  }
  const names = factor.kept.map((position) => columns[position]!).filter(({ name }) => name !== interceptName);
  if (names.length === 0) throw new RangeError(`${routine}: the model must have a term; received none`);
  const squares = model.residuals.map((residual) => residual * residual);
  const first = squares[0]!;
  // residuals all of one size vary with nothing
  const constant = squares.every((square) => Math.abs(square - first) <= 1e-12 * first);
  const statistic = constant
    ? 0
    : model.observations *
      linearModel({
        response: squares,
        terms: names.map(({ name, values }) => ({
          kind: "number",
          name,
          values: Array.from({ length: model.observations }, (_, i) => toNumber(entry(values, i))),
        })),
      }).rSquared;
  return { statistic, degreesOfFreedom: names.length, p: chiSquareUpperTail(statistic, names.length) };
}

function requireResiduals(routine: string, model: LinearModel): void {
  if (model.exactFit) throw new RangeError(`${routine}: the fit must leave residuals; received an exact fit`);
}
