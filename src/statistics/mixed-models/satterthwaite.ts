import { bilinear, type Matrix, multiply, multiplyVector, transpose } from "../linear-algebra/dense-matrix.ts";
import { symmetricEigen } from "../linear-algebra/symmetric-eigen.ts";
import type { VarianceState } from "./variance-likelihood.ts";

/**
 * Degrees of freedom of one contrast: twice its squared variance over the variance of that variance.
 * @param varianceCovariance covariance of the variances, from the observed information
 * @param contrast in the state's coordinates
 * @source Satterthwaite 1946, Biometrics Bulletin 2(6):110-114; Giesbrecht and Burns 1985, Biometrics 41(2):477-486
 * @internal
 */
export function satterthwaiteDf(state: VarianceState, varianceCovariance: Matrix, contrast: ArrayLike<number>): number {
  const carried = multiplyVector(state.covariance, contrast);
  const variance = bilinear(contrast, state.covariance, contrast);
  const gradient = state.once.map((matrix) => bilinear(carried, matrix, carried));
  return (2 * variance * variance) / bilinear(gradient, varianceCovariance, gradient);
}

/**
 * F that all contrasts are 0, with the denominator whose mean matches that of the squared independent t ratios.
 * @param contrasts independent rows, in the state's coordinates
 * @param effects fixed effects in the same coordinates and the unit of the state's covariance
 * @source Fai and Cornelius 1996, Journal of Statistical Computation and Simulation 54(4):363-378
 * @internal
 */
export function satterthwaiteF(
  state: VarianceState,
  varianceCovariance: Matrix,
  contrasts: Matrix,
  effects: ArrayLike<number>,
): { f: number; denominatorDf: number } {
  const q = contrasts.length;
  const spread = multiply(contrasts, multiply(state.covariance, transpose(contrasts)));
  const { values, vectors } = symmetricEigen(spread);
  const rotated = multiply(vectors, contrasts);
  const degrees = rotated.map((contrast) => satterthwaiteDf(state, varianceCovariance, contrast));
  const f =
    rotated.reduce((sum, contrast, k) => {
      const estimate = contrast.reduce((total, weight, c) => total + weight * effects[c]!, 0);
      return sum + (estimate * estimate) / values[k]!;
    }, 0) / q;
  return { f, denominatorDf: pooledDegrees(degrees) };
}

function pooledDegrees(degrees: ReadonlyArray<number>): number {
  const q = degrees.length;
  const lowest = Math.min(...degrees);
  if (q === 1 || Math.max(...degrees) - lowest < 1e-8 * lowest) return degrees.reduce((sum, df) => sum + df / q, 0);
  // a t ratio with 2 degrees of freedom or fewer has no variance, so no mean of F can be matched; 2 is the floor
  if (lowest <= 2) return 2;
  const mean = degrees.reduce((sum, df) => sum + df / (df - 2), 0);
  return (2 * mean) / (mean - q);
}
