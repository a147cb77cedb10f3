import { cholesky } from "../linear-algebra/cholesky.ts";
import { type Matrix, multiply, multiplyVector, transpose, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { power } from "../power.ts";
import { profileResidual, type VarianceModel, type VarianceState, varianceState } from "./variance-likelihood.ts";

/** A flat piece of the variance space: variances = fixed + directions * free, with free >= 0. */
export interface VariancePlane {
  fixed: Float64Array;
  /** one row per variance, one column per free number */
  directions: Matrix;
}

/**
 * All variances free.
 * @internal
 */
export function wholePlane(size: number): VariancePlane {
  const directions = zeroMatrix(size, size);
  for (let i = 0; i < size; i++) directions[i]![i] = 1;
  return { fixed: new Float64Array(size), directions };
}

/** Where the deviance is least on a plane. */
export interface VarianceOptimum {
  state: VarianceState;
  free: Float64Array;
}

const mostSteps = 200;

/**
 * Minimises the deviance by Newton steps on the analytic score, with free numbers that would turn negative held at 0.
 * @param start free numbers to begin from; the residual variance they imply must be positive
 * @param polish "estimate" drives the score to rounding level; "profile" stops when only the deviance is exact
 * @throws RangeError if no minimum is reached
 * @source Harville 1977, Journal of the American Statistical Association 72(358):320-338; Bertsekas 1982, SIAM Journal on
 *   Control and Optimization 20(2):221-246
 * @internal
 */
export function minimiseDeviance(
  model: VarianceModel,
  plane: VariancePlane,
  start: Float64Array,
  polish: "estimate" | "profile" = "estimate",
): VarianceOptimum {
  const back = transpose(plane.directions);
  const variancesAt = (free: Float64Array): Float64Array =>
    multiplyVector(plane.directions, free).map((value, i) => value + plane.fixed[i]!);
  const onPlane = (matrix: Matrix): Matrix => multiply(back, multiply(matrix, plane.directions));

  let free = start;
  let state = varianceState(model, variancesAt(free));
  if (state === undefined) {
    throw new RangeError(`fitMixedModel: no likelihood at the starting variances ${Array.from(start).join(", ")}`);
  }
  let slope = multiplyVector(back, state.score);
  let settled = 0;
  for (let step = 0; step < mostSteps; step++) {
    const moving = [...slope.keys()].filter((k) => free[k]! > 0 || slope[k]! < 0);
    if (moving.length === 0) return { state, free };
    const pick = (matrix: Matrix): Matrix => moving.map((a) => Float64Array.from(moving, (b) => matrix[a]![b]!));
    const curvature = cholesky(pick(onPlane(state.hessian))) ?? cholesky(pick(onPlane(state.expectedHessian)));
    if (curvature === undefined) {
      throw new RangeError(
        "fitMixedModel: the variances cannot be separated in this design (the information matrix is singular)",
      );
    }
    const move = curvature.solve(moving.map((k) => -slope[k]!));
    const decrement = moving.reduce((sum, k, m) => sum - slope[k]! * move[m]!, 0);
    const rounding = 1e-13 * (1 + Math.abs(state.deviance));
    let accepted = false;
    for (let share = 1; share > 1e-12; share /= 2) {
      const trial = free.slice();
      moving.forEach((k, m) => {
        trial[k] = Math.max(0, free[k]! + share * move[m]!);
      });
      const next = varianceState(model, variancesAt(trial));
      if (next === undefined || next.deviance > state.deviance + rounding) continue;
      const nextSlope = multiplyVector(back, next.score);
      accepted = true;
      [free, state, slope] = [trial, next, nextSlope];
      break;
    }
    if (!accepted) return { state, free };
    // the decrement is twice the drop still to come; this step was a Newton step, so it has squared what was left
    const relativeMove = moving.reduce((max, k, m) => Math.max(max, Math.abs(move[m]!) / (free[k]! + 1e-300)), 0);
    if (polish === "profile" && decrement < 1e-6) return { state, free };
    if (decrement < 1e-10 || relativeMove < 1e-9) settled++;
    if (settled > 3) return { state, free };
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
  return minimiseDeviance(model, wholePlane(factors + 1), best.variances).state;
}

/**
 * The part of a matrix that belongs to the listed positions.
 * @internal
 */
export function subMatrix(matrix: Matrix, positions: ReadonlyArray<number>): Matrix {
  return positions.map((a) => Float64Array.from(positions, (b) => matrix[a]![b]!));
}
