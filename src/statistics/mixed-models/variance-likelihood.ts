import { type Cholesky, cholesky } from "../linear-algebra/cholesky.ts";
import {
  bilinear,
  leadingBlock,
  type Matrix,
  multiply,
  traceOfProduct,
  weightedSum,
} from "../linear-algebra/dense-matrix.ts";
import { power } from "../power.ts";
import type { CovarianceMoments, RandomStructure } from "./covariance-moments.ts";

/** Restricted (REML) or full (ML) likelihood. */
export type LikelihoodKind = "REML" | "ML";

/** A model ready to be evaluated at any variances. Variances are listed residual first, then one per random factor. */
export interface VarianceModel {
  structure: RandomStructure;
  /** number of fixed-effect columns */
  columns: number;
  kind: LikelihoodKind;
  /** log |X'X| of the design as given, which the perpendicular columns have lost; counted under REML only */
  designLogDeterminant: number;
}

/** Everything about the fixed effects at given variances. Matrices are indexed residual first, then the random factors. */
export interface VarianceState {
  variances: Float64Array;
  /** -2 log likelihood, restricted under REML */
  deviance: number;
  /** fixed effects along the perpendicular columns */
  effects: Float64Array;
  /** their covariance */
  covariance: Matrix;
  /** X' V^-1 G_i V^-1 X */
  once: Matrix[];
  /** X' V^-1 G_i V^-1 G_j V^-1 X, symmetric part */
  twice: Matrix[][];
  /** first derivatives of the deviance by each variance */
  score: Float64Array;
  /** second derivatives of the deviance by each pair of variances */
  hessian: Matrix;
  /** mean of the second derivatives over samples from the model */
  expectedHessian: Matrix;
}

/** Adds the residual's own moments as index 0, from H^-1 = H^-1 H H^-1. */
function withResidual(moments: CovarianceMoments, ratios: Float64Array, count: number) {
  const minusRatios = Array.from(ratios, (ratio) => -ratio);
  const lessFactors = (first: Matrix, others: ReadonlyArray<Matrix>): Matrix =>
    weightedSum([[1, first], ...others.map((matrix, i): [number, Matrix] => [minusRatios[i]!, matrix])]);
  const less = (first: number, others: ReadonlyArray<number>): number =>
    others.reduce((sum, value, i) => sum + minusRatios[i]! * value, first);

  const once = [lessFactors(moments.cross, moments.once), ...moments.once];
  const trace = [less(count, moments.trace), ...moments.trace];
  const mixed = moments.once.map((first, j) => lessFactors(first, moments.twice[j]!));
  const mixedTrace = moments.trace.map((first, j) => less(first, moments.traceTwice[j]!));
  return {
    once,
    twice: [[lessFactors(once[0]!, mixed), ...mixed], ...moments.twice.map((row, j) => [mixed[j]!, ...row])],
    trace,
    traceTwice: [
      [less(trace[0]!, mixedTrace), ...mixedTrace],
      ...moments.traceTwice.map((row, j) => [mixedTrace[j]!, ...row]),
    ],
  };
}

function solveEffects(
  moments: Pick<CovarianceMoments, "cross">,
  columns: number,
): { factor: Cholesky; effects: Float64Array; contrast: Float64Array; sumOfSquares: number } | undefined {
  const factor = cholesky(leadingBlock(moments.cross, columns));
  if (factor === undefined) return undefined;
  const effects = factor.solve(moments.cross.slice(0, columns).map((row) => row[columns]!));
  const contrast = Float64Array.of(...effects.map((effect) => -effect), 1);
  return { factor, effects, contrast, sumOfSquares: bilinear(contrast, moments.cross, contrast) };
}

/**
 * The residual variance that maximises the likelihood when the ratios to it are held, and the deviance there.
 * @internal
 */
export function profileResidual(
  model: VarianceModel,
  ratios: ArrayLike<number>,
): { residual: number; deviance: number } | undefined {
  const { structure } = model;
  const moments = structure.likelihoodMoments?.(ratios) ?? structure.moments(ratios);
  const solved = solveEffects(moments, model.columns);
  if (solved === undefined || !(solved.sumOfSquares > 0)) return undefined;
  const divisor = structure.count - (model.kind === "REML" ? model.columns : 0);
  const residual = solved.sumOfSquares / divisor;
  const restricted = model.kind === "REML" ? solved.factor.logDeterminant + model.designLogDeterminant : 0;
  const deviance = divisor * (1 + Math.log(2 * Math.PI * residual)) + moments.logDeterminant + restricted;
  return { residual, deviance };
}

/**
 * Deviance, its derivatives by the variances, and the fixed effects.
 * @returns undefined where the residual variance is not positive or rounding leaves no positive definite matrix
 * @source Searle, Casella and McCulloch 1992, Variance Components, 451-452 (without error contrasts)
 * @internal
 */
export function varianceState(model: VarianceModel, variances: Float64Array): VarianceState | undefined {
  const residual = variances[0]!;
  if (!(residual > 0) || !Number.isFinite(residual)) return undefined;
  const { columns, structure } = model;
  const restricted = model.kind === "REML";
  const ratios = variances.slice(1).map((variance) => variance / residual);
  const moments = structure.moments(ratios);
  const solved = solveEffects(moments, columns);
  if (solved === undefined) return undefined;
  const { factor, effects, contrast, sumOfSquares } = solved;
  const divisor = structure.count - (restricted ? columns : 0);
  const deviance =
    divisor * Math.log(2 * Math.PI * residual) +
    moments.logDeterminant +
    sumOfSquares / residual +
    (restricted ? factor.logDeterminant + model.designLogDeterminant : 0);

  const all = withResidual(moments, ratios, structure.count);
  const size = variances.length;
  const scaledCovariance = factor.inverse();
  const onceFixed = all.once.map((matrix) => leadingBlock(matrix, columns));
  const twiceFixed = all.twice.map((row) => row.map((matrix) => leadingBlock(matrix, columns)));
  const carried = onceFixed.map((matrix) => multiply(scaledCovariance, matrix));
  const pulls = all.once.map((matrix) =>
    matrix.slice(0, columns).map((row) => row.reduce((sum, value, c) => sum + value * contrast[c]!, 0)),
  );
  const score = new Float64Array(size);
  const hessian: Matrix = [];
  const expectedHessian: Matrix = [];
  for (let i = 0; i < size; i++) {
    const lost = restricted ? carried[i]!.reduce((sum, row, k) => sum + row[k]!, 0) : 0;
    score[i] = (all.trace[i]! - lost) / residual - bilinear(contrast, all.once[i]!, contrast) / residual ** 2;
    hessian.push(new Float64Array(size));
    expectedHessian.push(new Float64Array(size));
    for (let j = 0; j < size; j++) {
      const lostTwice = restricted
        ? traceOfProduct(carried[i]!, carried[j]!) - 2 * traceOfProduct(scaledCovariance, twiceFixed[i]![j]!)
        : 0;
      const expected = (all.traceTwice[i]![j]! + lostTwice) / residual ** 2;
      const quadratic =
        (bilinear(contrast, all.twice[i]![j]!, contrast) - bilinear(pulls[i]!, scaledCovariance, pulls[j]!)) /
        power(residual, 3);
      expectedHessian[i]![j] = expected;
      hessian[i]![j] = 2 * quadratic - expected;
    }
  }
  return {
    variances,
    deviance,
    effects,
    covariance: weightedSum([[residual, scaledCovariance]]),
    once: onceFixed.map((matrix) => weightedSum([[1 / residual ** 2, matrix]])),
    twice: twiceFixed.map((row) => row.map((matrix) => weightedSum([[1 / power(residual, 3), matrix]]))),
    score,
    hessian,
    expectedHessian,
  };
}
