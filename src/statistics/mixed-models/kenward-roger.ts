import { cholesky } from "../linear-algebra/cholesky.ts";
import { type Matrix, multiply, weightedSum, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import type { VarianceState } from "./variance-likelihood.ts";

/** The covariance of the fixed effects with its small-sample correction, and what degrees of freedom need: those of one
 * contrast are Satterthwaite's with this covariance of the variances. */
export interface KenwardRoger {
  /** corrected covariance, in the state's coordinates */
  adjusted: Matrix;
  /** asymptotic covariance of the variances, from the expected information */
  varianceCovariance: Matrix;
}

/**
 * Corrects the covariance of fixed effects for the uncertainty of the variances. Variances at 0 stay in the correction, so a
 * plot variance that happens to be estimated as 0 does not lend the whole-plot test the trays' degrees of freedom.
 * @param state of a REML fit
 * @throws RangeError if the expected information is singular
 * @source Kenward and Roger 1997, Biometrics 53(3):983-997, for a covariance linear in its parameters
 * @internal
 */
export function kenwardRoger(state: VarianceState): KenwardRoger {
  const { covariance, once, twice } = state;
  const inverse = cholesky(state.expectedHessian)?.inverse();
  if (inverse === undefined) {
    throw new RangeError("kenwardRoger: the variances must be distinguishable; their information matrix is singular");
  }
  const varianceCovariance = weightedSum([[2, inverse]]);
  const size = once.length;
  const middle = zeroMatrix(covariance.length, covariance.length);
  for (let i = 0; i < size; i++) {
    const left = multiply(once[i]!, covariance);
    for (let j = 0; j < size; j++) {
      const weight = varianceCovariance[i]![j]!;
      const crossed = multiply(left, once[j]!);
      for (let a = 0; a < middle.length; a++) {
        for (let b = 0; b < middle.length; b++) {
          middle[a]![b]! += weight * (twice[i]![j]![a]![b]! - (crossed[a]![b]! + crossed[b]![a]!) / 2);
        }
      }
    }
  }
  const correction = multiply(covariance, multiply(middle, covariance));
  return {
    adjusted: weightedSum([
      [1, covariance],
      [2, correction],
    ]),
    varianceCovariance,
  };
}
