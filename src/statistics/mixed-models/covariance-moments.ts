import type { Matrix } from "../linear-algebra/dense-matrix.ts";

/**
 * What likelihood, score, information and tests need to know about the covariance matrix, small whatever the number of
 * observations. H = I + sum over factors of ratio_i * Z_i Z_i', so the covariance of the observations is residual * H.
 * X stands for the p perpendicular fixed-effect columns followed by the response as column p + 1.
 * Index i or j runs over the random factors only; the residual's own terms follow from these by H^-1 H = I.
 */
export interface CovarianceMoments {
  /** log |H| */
  logDeterminant: number;
  /** X' H^-1 X */
  cross: Matrix;
  /** X' H^-1 G_i H^-1 X with G_i = Z_i Z_i' */
  once: Matrix[];
  /** X' H^-1 G_i H^-1 G_j H^-1 X, the mean of the matrix and its transpose */
  twice: Matrix[][];
  /** trace of H^-1 G_i */
  trace: number[];
  /** trace of H^-1 G_i H^-1 G_j */
  traceTwice: number[][];
}

/** The random side of a model, ready to be evaluated at any ratios of variances (factor over residual). */
export interface RandomStructure {
  /** number of observations */
  count: number;
  /** how the sums are formed, for the method note */
  layout: "one grouping" | "two nested groupings" | "crossed groupings";
  moments(ratios: ArrayLike<number>): CovarianceMoments;
  /**
   * The part of the moments that the likelihood itself needs, for a wide search of places to start from; of very many groups
   * only every n-th is looked at. From `moments` when absent.
   */
  likelihoodMoments?(ratios: ArrayLike<number>): Pick<CovarianceMoments, "logDeterminant" | "cross">;
}

/** Beyond this many groups a wide search looks at every n-th only. */
const mostSearched = 1000;

/** How many groups each one looked at stands for in a wide search. */
export const searchStride = (groups: number): number => Math.ceil(groups / mostSearched);
