import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import type { LogisticRegression } from "./logistic-regression.ts";

/** A coefficient whose error was widened for variation beyond chance. */
export interface AdjustedCoefficient {
  name: string;
  estimate: number;
  lower: number;
  upper: number;
  level: number;
  standardError: number;
  t: number;
  degreesOfFreedom: number;
  /** two-sided, by Student's t */
  p: number;
}

/**
 * The coefficients of a fit with another covariance, tested by Student's t.
 * @internal
 */
export function adjustedCoefficients(
  fit: LogisticRegression,
  covariance: ReadonlyArray<ReadonlyArray<number>>,
  degreesOfFreedom: number,
): AdjustedCoefficient[] {
  const reach = studentTQuantile((1 + fit.level) / 2, degreesOfFreedom);
  return fit.coefficients.map(({ name, estimate }, index) => {
    const standardError = Math.sqrt(covariance[index]![index]!);
    const t = estimate / standardError;
    return {
      name,
      estimate,
      lower: estimate - reach * standardError,
      upper: estimate + reach * standardError,
      level: fit.level,
      standardError,
      t,
      degreesOfFreedom,
      p: studentTTwoTailed(t, degreesOfFreedom),
    };
  });
}
