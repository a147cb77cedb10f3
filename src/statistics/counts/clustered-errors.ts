import { studentTQuantile } from "../distributions/student-t.ts";
import { requireSameLength } from "../require-numbers.ts";
import type { LogisticCoefficient, LogisticRegression } from "./logistic-regression.ts";

/**
 * Errors of a fit that hold when units come in clusters, such as trays of one jar or one cooker load. Needs some twenty
 * clusters or more: with few the errors are too small.
 * @param fit by logisticRegression
 * @param clusters the cluster of each row
 * @returns the coefficients, their limits by Student's t of (clusters - 1) degrees of freedom
 * @throws RangeError if the labels are not one per row or there are not more clusters than coefficients
 * @example clusteredErrors(logisticRegression({ successes: [1, 3, 2], trials: [4, 4, 4], columns: [] }), ["a", "b", "b"])[0].estimate // 0
 * @source sandwich with independence working correlation: Liang and Zeger 1986, Biometrika 73(1):13-22; the factor G / (G
 *   - 1) is that of the variant CR1, as in the manual page vcovCR of R's clubSandwich
 */
export function clusteredErrors(fit: LogisticRegression, clusters: ReadonlyArray<string>): LogisticCoefficient[] {
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
  const variances = new Float64Array(width);
  for (const score of scores.values()) {
    fit.covariance.forEach((row, i) => {
      const influence = row.reduce((sum, value, column) => sum + value * score[column]!, 0);
      variances[i]! += (influence * influence * count) / (count - 1);
    });
  }
  const reach = studentTQuantile((1 + fit.level) / 2, count - 1);
  return fit.coefficients.map(({ name, estimate }, index) => {
    const half = reach * Math.sqrt(variances[index]!);
    return { name, estimate, lower: estimate - half, upper: estimate + half };
  });
}
