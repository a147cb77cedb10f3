import { type AdjustedCoefficient, adjustedCoefficients } from "./adjusted-coefficient.ts";
import type { LogisticRegression } from "./logistic-regression.ts";

/** A logistic regression whose errors allow for more variation between rows than chance. */
export interface OverdispersedErrors {
  /** variance of the rows over the binomial variance; 1 when chance alone is at work */
  dispersion: number;
  coefficients: AdjustedCoefficient[];
  covariance: number[][];
}

/**
 * Widens the errors of a fit to counts out of n by the spread the rows really show (quasi-binomial errors).
 * @param fit of rows with several units each; 0/1 rows cannot show overdispersion
 * @throws RangeError if all rows are single units or no degrees of freedom are left
 * @example overdispersedErrors(logisticRegression({ successes: [1, 3, 2], trials: [4, 4, 4], columns: [] })).dispersion // 1
 * @source Wedderburn 1974, Biometrika 61(3):439-447; McCullagh and Nelder 1989, Generalized Linear Models, 2nd edition,
 *   section 4.5
 */
export function overdispersedErrors(fit: LogisticRegression): OverdispersedErrors {
  if (fit.design.trials.every((trials) => trials === 1)) {
    throw new RangeError("overdispersedErrors: some rows must hold more than one unit; received single units only");
  }
  if (fit.degreesOfFreedom < 1) {
    throw new RangeError(`overdispersedErrors: degrees of freedom must be 1 or more; received ${fit.degreesOfFreedom}`);
  }
  const dispersion = fit.pearsonChiSquare / fit.degreesOfFreedom;
  const covariance = fit.covariance.map((row) => row.map((value) => value * dispersion));
  return { dispersion, coefficients: adjustedCoefficients(fit, covariance, fit.degreesOfFreedom), covariance };
}
