import { requireSameLength } from "../require-numbers.ts";
import { type AdjustedCoefficient, adjustedCoefficients } from "./adjusted-coefficient.ts";
import type { LogisticRegression } from "./logistic-regression.ts";

/** A logistic regression whose errors allow for rows of one cluster resembling each other. */
export interface ClusteredErrors {
  clusters: number;
  /** each with the design effect: its variance over the one that takes every unit as independent */
  coefficients: (AdjustedCoefficient & { designEffect: number })[];
  covariance: number[][];
}

/**
 * Errors of a fit that hold when units come in clusters, such as trays of one jar or one cooker load. Needs some twenty
 * clusters or more: with few the errors are too small.
 * @param fit by logisticRegression
 * @param clusters the cluster of each row
 * @returns coefficients tested by t with (clusters - 1) degrees of freedom
 * @throws RangeError if the labels are not one per row or there are not more clusters than coefficients
 * @example clusteredErrors(logisticRegression({ successes: [1, 3, 2], trials: [4, 4, 4], columns: [] }), ["a", "b", "b"]).clusters // 2
 * @source sandwich with independence working correlation: Liang and Zeger 1986, Biometrika 73(1):13-22; the factor G / (G
 *   - 1) is that of the variant CR1, as in the manual page vcovCR of R's clubSandwich
 */
export function clusteredErrors(fit: LogisticRegression, clusters: ReadonlyArray<string>): ClusteredErrors {
  const { rows, successes, trials } = fit.design;
  requireSameLength("clusteredErrors", "rows", rows, "clusters", clusters);
  const width = fit.coefficients.length;
  const scores = new Map<string, Float64Array>();
  rows.forEach((row, index) => {
    const score = scores.get(clusters[index]!) ?? new Float64Array(width);
    const residual = successes[index]! - trials[index]! * fit.fitted[index]!;
    for (let column = 0; column < width; column++) score[column]! += row[column]! * residual;
    scores.set(clusters[index]!, score);
  });
  const count = scores.size;
  if (count <= width) {
    throw new RangeError(`clusteredErrors: needs more clusters than coefficients (${width}); received ${count}`);
  }
  const covariance = Array.from({ length: width }, () => new Array<number>(width).fill(0));
  for (const score of scores.values()) {
    const influence = fit.covariance.map((row) => row.reduce((sum, value, column) => sum + value * score[column]!, 0));
    for (let i = 0; i < width; i++) {
      for (let j = 0; j < width; j++) covariance[i]![j]! += (influence[i]! * influence[j]! * count) / (count - 1);
    }
  }
  const coefficients = adjustedCoefficients(fit, covariance, count - 1).map((coefficient, index) => ({
    ...coefficient,
    designEffect: covariance[index]![index]! / fit.covariance[index]![index]!,
  }));
  return { clusters: count, coefficients, covariance };
}
