import { cholesky } from "../linear-algebra/cholesky.ts";
import type { Matrix } from "../linear-algebra/dense-matrix.ts";
import { power } from "../power.ts";
import { profileResidual, type VarianceModel, type VarianceState, varianceState } from "./variance-likelihood.ts";

const mostSteps = 200;

/**
 * Minimises the deviance by Newton steps on the analytic score, with variances that would turn negative held at 0.
 * @param start variances to begin from, that of the residual above 0
 * @throws RangeError if no minimum is reached
 * @source Harville 1977, Journal of the American Statistical Association 72(358):320-338; Bertsekas 1982, SIAM Journal on
 *   Control and Optimization 20(2):221-246
 */
function minimiseDeviance(model: VarianceModel, start: Float64Array): VarianceState {
  let state = varianceState(model, start);
  if (state === undefined) {
    throw new RangeError(`fitMixedModel: no likelihood at the starting variances ${Array.from(start).join(", ")}`);
  }
  let settled = 0;
  for (let step = 0; step < mostSteps; step++) {
    const { variances, score, deviance, hessian, expectedHessian }: VarianceState = state;
    const moving = [...score.keys()].filter((k) => variances[k]! > 0 || score[k]! < 0);
    const curvature = cholesky(subMatrix(hessian, moving)) ?? cholesky(subMatrix(expectedHessian, moving));
    if (curvature === undefined) {
      throw new RangeError(
        "fitMixedModel: the variances cannot be separated in this design (the information matrix is singular)",
      );
    }
    const move = curvature.solve(moving.map((k) => -score[k]!));
    const decrement = moving.reduce((sum, k, m) => sum - score[k]! * move[m]!, 0);
    const rounding = 1e-13 * (1 + Math.abs(deviance));
    let accepted: VarianceState | undefined;
    for (let share = 1; share > 1e-12 && accepted === undefined; share /= 2) {
      const trial = variances.slice();
      moving.forEach((k, m) => {
        trial[k] = Math.max(0, variances[k]! + share * move[m]!);
      });
      const next = varianceState(model, trial);
      if (next !== undefined && next.deviance <= deviance + rounding) accepted = next;
    }
    if (accepted === undefined) return state;
    state = accepted;
    // the decrement is twice the drop still to come; this step was a Newton step, so it has squared what was left
    if (decrement < 1e-10) settled++;
    if (settled > 3) return state;
  }
  throw new RangeError(`fitMixedModel: the variances did not settle in ${mostSteps} steps`);
}

/** Ratios tried before the Newton steps, so that a likelihood with two humps is climbed at its higher one. */
function ratioGrid(factors: number, steps: number): Float64Array[] {
  const single = Array.from({ length: steps }, (_, k) => (k === 0 ? 0 : power(10, -3 + (7 * (k - 1)) / (steps - 2))));
  let grid = [new Float64Array(0)];
  for (let f = 0; f < factors; f++) {
    grid = grid.flatMap((ratios) => single.map((ratio) => Float64Array.of(...ratios, ratio)));
  }
  return grid;
}

/**
 * The variances that maximise the likelihood, over the whole of variance space.
 * @internal
 */
export function maximumLikelihoodVariances(model: VarianceModel, factors: number): VarianceState {
  const steps = factors === 1 ? 23 : factors === 2 ? 6 : 4;
  let best: { deviance: number; variances: Float64Array } | undefined;
  for (const ratios of ratioGrid(factors, steps)) {
    const profile = profileResidual(model, ratios);
    if (profile === undefined || (best !== undefined && profile.deviance >= best.deviance)) continue;
    const { residual } = profile;
    best = { deviance: profile.deviance, variances: Float64Array.of(residual, ...ratios.map((r) => r * residual)) };
  }
  if (best === undefined) {
    throw new RangeError("fitMixedModel: the observations do not vary around the fixed effects");
  }
  return minimiseDeviance(model, best.variances);
}

/**
 * The part of a matrix that belongs to the listed positions.
 * @internal
 */
export function subMatrix(matrix: Matrix, positions: ReadonlyArray<number>): Matrix {
  return positions.map((a) => Float64Array.from(positions, (b) => matrix[a]![b]!));
}
