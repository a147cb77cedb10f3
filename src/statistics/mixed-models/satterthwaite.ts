import { bilinear, type Matrix, multiplyVector } from "../linear-algebra/dense-matrix.ts";
import type { VarianceState } from "./variance-likelihood.ts";

/**
 * Degrees of freedom of one contrast: twice its squared variance over the variance of that variance.
 * @param varianceCovariance covariance of the variances, from their information
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
