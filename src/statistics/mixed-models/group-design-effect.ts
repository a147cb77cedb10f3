import type { IntraclassCorrelation } from "./intraclass-correlation.ts";

/** What sharing a cook or a jar costs in information. */
export interface DesignEffect {
  /** factor by which the variance of a mean grows; below 1 never for a correlation of 0 or more */
  factor: number;
  lower: number;
  upper: number;
  /** observations divided by the factor: as many independent ones would tell as much */
  effectiveObservations: number;
}

/**
 * Factor by which clustering inflates the variance of a mean (or of a contrast of whole groups): 1 + (m - 1) * correlation,
 * m being the size-weighted mean group size. A contrast made inside every group is not inflated but sharpened.
 * @param correlation of two observations in the same group, with limits
 * @param groupSizes observations in each group
 * @throws RangeError if there is no group or a size is not a whole number of 1 or more
 * @source Kish 1965, Survey Sampling, section 8.2, p. 258; unequal sizes: Donner, Birkett and Buck 1981, American Journal
 *   of Epidemiology 114(6):906-914
 * @example designEffect({ groupings: ["jar"], estimate: 0.3, lower: 0.1, upper: 0.6, level: 0.95 }, [8, 8, 8]).factor // 3.1
 */
export function designEffect(correlation: IntraclassCorrelation, groupSizes: ReadonlyArray<number>): DesignEffect {
  if (groupSizes.length === 0) throw new RangeError("designEffect: groupSizes needs at least one group; received none");
  for (const size of groupSizes) {
    if (!Number.isInteger(size) || size < 1) {
      throw new RangeError(`designEffect: groupSizes must be whole numbers of 1 or more; received ${size}`);
    }
  }
  const total = groupSizes.reduce((sum, size) => sum + size, 0);
  const typical = groupSizes.reduce((sum, size) => sum + (size * size) / total, 0);
  const inflation = (share: number): number => 1 + (typical - 1) * share;
  const factor = inflation(correlation.estimate);
  return {
    factor,
    lower: inflation(correlation.lower),
    upper: inflation(correlation.upper),
    effectiveObservations: total / factor,
  };
}
