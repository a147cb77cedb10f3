import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { negate, one, toNumber, zero } from "../linear-algebra/double-double.ts";
import { doubleDouble, emptyColumn, entry, subtractMultiple } from "../linear-algebra/double-double-column.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { fullLeverage, leverages } from "./influence.ts";
import type { Coefficient, LinearModel } from "./linear-model.ts";

/**
 * How a squared residual stands for its row's variance, with leverage h: HC0 as it is, HC1 times n / (n - p), HC2 over
 * (1 - h), HC3 over (1 - h)². HC3 is the safe choice for small samples.
 */
export type RobustKind = "HC0" | "HC1" | "HC2" | "HC3";

/**
 * Coefficients with standard errors that hold when the rows' variances differ.
 * @returns the model's coefficients in order, with robust standard errors; intervals and p-values by t on the residual
 *   degrees of freedom
 * @throws RangeError for HC2 and HC3 if a row has leverage 1, where its variance cannot be judged
 * @source White 1980, Econometrica 48(4):817-838; MacKinnon and White 1985, Journal of Econometrics 29(3):305-325
 * @example robustStandardErrors(model, "HC3")[1].standardError // 0.21261..., with the set-up of linearModel
 */
export function robustStandardErrors(model: LinearModel, kind: RobustKind): Coefficient[] {
  const { factor, weights } = model.working;
  const df = model.residual.degreesOfFreedom;
  const hat = leverages(model);
  const rowVariances = model.residuals.map((residual, i) => {
    const squared = residual * residual * (weights?.[i] ?? 1);
    if (kind === "HC0") return squared;
    if (kind === "HC1") return (squared * model.observations) / df;
    if (hat[i]! >= fullLeverage) {
      throw new RangeError(
        `robustStandardErrors: ${kind} needs rows that do not decide their own fitted value; received row ${i + 1} with leverage 1`,
      );
    }
    return kind === "HC2" ? squared / (1 - hat[i]!) : squared / (1 - hat[i]!) ** 2;
  });
  const basis = factor.basis();
  const quantile = studentTQuantile((1 + model.level) / 2, df);
  return model.coefficients.map((coefficient, k) => {
    // the coefficient is a weighted sum of the responses; its weights are this row of the pseudoinverse
    const unit = factor.kept.map((_, j) => (j === k ? one : zero));
    const responseWeights = emptyColumn(factor.rows);
    solveUpperTransposed(doubleDouble, factor.upper, unit).forEach((value, j) => {
      if (value.high !== 0) subtractMultiple(responseWeights, negate(value), basis[j]!);
    });
    let variance = 0;
    for (let i = 0; i < factor.rows; i++) variance += toNumber(entry(responseWeights, i)) ** 2 * rowVariances[i]!;
    const standardError = Math.sqrt(variance);
    const t = coefficient.estimate === 0 ? 0 : coefficient.estimate / standardError;
    return {
      ...coefficient,
      standardError,
      t,
      p: studentTTwoTailed(t, df),
      lower: coefficient.estimate - quantile * standardError,
      upper: coefficient.estimate + quantile * standardError,
    };
  });
}
