import { cholesky } from "../linear-algebra/cholesky.ts";
import {
  bilinear,
  type Matrix,
  multiply,
  traceOfProduct,
  transpose,
  weightedSum,
  zeroMatrix,
} from "../linear-algebra/dense-matrix.ts";
import type { VarianceState } from "./variance-likelihood.ts";

/** The covariance of the fixed effects with its small-sample correction, and what degrees of freedom need. */
export interface KenwardRoger {
  /** corrected covariance, in the state's coordinates */
  adjusted: Matrix;
  /** asymptotic covariance of the variances, from the expected information */
  varianceCovariance: Matrix;
}

/** An F test's small-sample denominator. */
export interface ScaledF {
  denominatorDf: number;
  /** the F ratio is multiplied by this; 1 for a single contrast */
  scale: number;
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

/**
 * Denominator degrees of freedom and scale of the F test that all contrasts are 0.
 * @param contrasts independent rows, in the state's coordinates
 * @source Kenward and Roger 1997, Biometrics 53(3):983-997
 * @internal
 */
export function kenwardRogerF(state: VarianceState, correction: KenwardRoger, contrasts: Matrix): ScaledF {
  const { covariance, once } = state;
  const size = once.length;
  const q = contrasts.length;
  const spread = multiply(contrasts, multiply(covariance, transpose(contrasts)));
  const inverse = cholesky(spread)?.inverse();
  if (inverse === undefined) throw new RangeError("kenwardRogerF: the contrasts must be independent");
  const carried = multiply(contrasts, covariance);
  // L Phi P_i Phi L' (L Phi L')^-1: its traces are those of the larger matrices in the paper
  const parts = once.map((matrix) => multiply(multiply(multiply(carried, matrix), transpose(carried)), inverse));
  const traces = parts.map((part) => part.reduce((sum, row, k) => sum + row[k]!, 0));
  const a1 = bilinear(traces, correction.varianceCovariance, traces);
  let a2 = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      a2 += correction.varianceCovariance[i]![j]! * traceOfProduct(parts[i]!, parts[j]!);
    }
  }
  if (q === 1) return { denominatorDf: 2 / a2, scale: 1 };
  const b = (a1 + 6 * a2) / (2 * q);
  const g = ((q + 1) * a1 - (q + 4) * a2) / ((q + 2) * a2);
  const divisor = 3 * q + 2 * (1 - g);
  const [c1, c2, c3] = [g / divisor, (q - g) / divisor, (q + 2 - g) / divisor];
  const meanFactor = 1 - a2 / q;
  const rho = ((meanFactor / (1 - c2 * b)) ** 2 * (1 + c1 * b)) / (1 - c3 * b) / q;
  const denominatorDf = 4 + (q + 2) / (q * rho - 1);
  if (!(denominatorDf > 0) || !Number.isFinite(denominatorDf)) {
    throw new RangeError(
      `kenwardRogerF: the moments of F have no matching degrees of freedom in so small a trial; received ${denominatorDf}`,
    );
  }
  // the mean of F exists only above 2 degrees of freedom; at 2 the scale has no meaning and stays 1
  const scale = Math.abs(denominatorDf - 2) < 0.01 ? 1 : (denominatorDf * meanFactor) / (denominatorDf - 2);
  return { denominatorDf, scale };
}
