import { requirePositive } from "../require-numbers.ts";

/**
 * How much resemblance within clusters inflates the variance of a mean: 1 + (m - 1) × ICC.
 * @param clusterSize m, units per cluster, 1 or more (the mean size when clusters differ a little)
 * @param intraclassCorrelation share of the variance that lies between clusters, from -1 / (m - 1) to 1
 * @returns the factor; 1 when units are as good as independent
 * @throws RangeError if a setting is out of range
 * @source Kish 1965, Survey Sampling, section 8.2, p. 258; Donner and Klar 2000, Design and Analysis of Cluster
 *   Randomization Trials in Health Research
 * @example designEffect(8, 0.3) // 3.1
 */
export function designEffect(clusterSize: number, intraclassCorrelation: number): number {
  requirePositive("designEffect", "clusterSize", clusterSize);
  if (clusterSize < 1) throw new RangeError(`designEffect: clusterSize must be 1 or more; received ${clusterSize}`);
  const lowest = clusterSize > 1 ? Math.max(-1, -1 / (clusterSize - 1)) : -1;
  if (!(intraclassCorrelation >= lowest && intraclassCorrelation <= 1)) {
    throw new RangeError(
      `designEffect: intraclassCorrelation must lie from ${lowest} to 1; received ${intraclassCorrelation}`,
    );
  }
  return 1 + (clusterSize - 1) * intraclassCorrelation;
}
