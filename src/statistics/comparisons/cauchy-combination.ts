import { requireFinite, requireSameLength } from "../require-numbers.ts";

/**
 * One p-value from several tests of the same hypothesis, whatever the dependence between them: a weighted mean of Cauchy
 * variables. Good where the answer is small (below about 0.1); at moderate p it is close, not exact.
 * @param pValues 0 to 1, at least one
 * @param weights shares of the tests, each 0 or more, their sum 1; equal shares unless given
 * @returns a p-value; 0 as soon as one p-value with a share is 0
 * @throws RangeError if there is no p-value, one lies outside 0 to 1, or the weights do not fit
 * @source Liu and Xie 2020, Journal of the American Statistical Association 115:393-402
 * @example cauchyCombination([0.01, 0.2], [0.7, 0.3]) // 0.01402125...
 */
export function cauchyCombination(pValues: ReadonlyArray<number>, weights?: ReadonlyArray<number>): number {
  const routine = "cauchyCombination";
  const shares = weights ?? pValues.map(() => 1 / pValues.length);
  if (pValues.length === 0) throw new RangeError(`${routine}: at least one p-value is needed; received none`);
  requireFinite(routine, "p-values", pValues);
  requireFinite(routine, "weights", shares);
  requireSameLength(routine, "p-values", pValues, "weights", shares);
  const outside = pValues.find((p) => p < 0 || p > 1);
  if (outside !== undefined) throw new RangeError(`${routine}: p-values must lie from 0 to 1; received ${outside}`);
  const total = shares.reduce((sum, weight) => sum + weight, 0);
  if (shares.some((weight) => weight < 0) || Math.abs(total - 1) > 1e-9) {
    throw new RangeError(`${routine}: weights must be 0 or more with sum 1; received ${shares.join(", ")}`);
  }
  let statistic = 0;
  for (let i = 0; i < pValues.length; i++) {
    if (shares[i] === 0) continue;
    if (pValues[i] === 0) return 0;
    // tan((1/2 - p) pi), written so that a tiny p keeps its digits
    statistic += shares[i]! / Math.tan(pValues[i]! * Math.PI);
  }
  if (statistic === 0) return 0.5;
  const angle = Math.atan(1 / statistic) / Math.PI;
  return statistic > 0 ? angle : 1 + angle;
}
