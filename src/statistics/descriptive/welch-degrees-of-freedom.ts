import { requireCount } from "../require-numbers.ts";

/**
 * Approximate degrees of freedom for comparing two means with unequal variances.
 * @param varianceA sample variance of arm A (divisor n - 1), in the measurement's unit squared
 * @param countA number of experimental units in arm A
 * @param varianceB the variance of arm B
 * @param countB the count of arm B
 * @returns a real number, not rounded, between the smaller n - 1 and nA + nB - 2
 * @throws RangeError if a count is not a whole number of 2 or more, a variance is negative or not finite, or both are 0
 * @source Welch 1947, Biometrika 34(1/2):28-35; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 * @example welchDegreesOfFreedom(4, 5, 4, 5) // 8
 */
export function welchDegreesOfFreedom(varianceA: number, countA: number, varianceB: number, countB: number): number {
  requireCount("welchDegreesOfFreedom", "countA", countA, 2);
  requireCount("welchDegreesOfFreedom", "countB", countB, 2);
  for (const variance of [varianceA, varianceB]) {
    if (!(variance >= 0) || variance === Number.POSITIVE_INFINITY) {
      throw new RangeError(`welchDegreesOfFreedom: a variance must be finite and 0 or more; received ${variance}`);
    }
  }
  const errorA = varianceA / countA;
  const errorB = varianceB / countB;
  if (errorA + errorB === 0)
    throw new RangeError("welchDegreesOfFreedom: one variance must be above 0; received 0 and 0");
  const shareA = errorA / (errorA + errorB);
  const shareB = errorB / (errorA + errorB);
  return 1 / (shareA ** 2 / (countA - 1) + shareB ** 2 / (countB - 1));
}
