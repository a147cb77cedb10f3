import { deviationsFromMean, scaledSquares } from "./deviations.ts";

/**
 * Sample standard deviation (divisor n - 1) as a share of the mean.
 * @param values two or more finite numbers on a scale with a true zero, such as grams
 * @returns a proportion: 0.2 for 20 %
 * @throws RangeError if there are fewer than two values, one is not finite, or the mean is not above 0
 * @source Pearson 1896, Philosophical Transactions of the Royal Society A 187:253-318
 * @example coefficientOfVariation([8, 10, 12]) // 0.2
 */
export function coefficientOfVariation(values: ReadonlyArray<number>): number {
  const { mean, deviations } = deviationsFromMean("coefficientOfVariation", values, 2);
  if (!(mean > 0)) throw new RangeError(`coefficientOfVariation: the mean must be above 0; received ${mean}`);
  const { scale, sum } = scaledSquares(deviations);
  return (Math.sqrt(sum / (values.length - 1)) * scale) / mean;
}
