import { requireOpenProbability, requireSameLength } from "../require-numbers.ts";
import { scoreLimits } from "./proportion-interval.ts";
import { requireProportion } from "./require-proportion.ts";

/** A proportion of units that come in clusters. */
export interface ClusteredProportion {
  proportion: number;
  lower: number;
  upper: number;
  /** variance over the one that takes every unit as independent */
  designEffect: number;
  clusters: number;
}

/**
 * Proportion of units with an outcome when units come in clusters (trays of one jar), with an interval for it.
 * @param successes count with the outcome in each cluster
 * @param units how many units each cluster holds
 * @param level confidence level, 0.95 unless stated
 * @returns the pooled proportion; a score interval on the effective number of units
 * @throws RangeError if the columns differ in length, there are fewer than two clusters, a count is not whole or successes exceed units
 * @source ratio estimator and effective sample size: Rao and Scott 1992, Biometrics 48(2):577-585
 * @example clusteredProportion([0, 2], [4, 4]).proportion // 0.25
 */
export function clusteredProportion(
  successes: ReadonlyArray<number>,
  units: ReadonlyArray<number>,
  level = 0.95,
): ClusteredProportion {
  requireOpenProbability("clusteredProportion", "level", level);
  requireSameLength("clusteredProportion", "successes", successes, "units", units);
  const clusters = units.length;
  if (clusters < 2) throw new RangeError(`clusteredProportion: needs at least 2 clusters; received ${clusters}`);
  successes.forEach((count, index) => {
    requireProportion("clusteredProportion", count, units[index]!);
  });
  const total = units.reduce((sum, value) => sum + value, 0);
  const proportion = successes.reduce((sum, value) => sum + value, 0) / total;
  const squares = successes.reduce((sum, count, index) => sum + (count - units[index]! * proportion) ** 2, 0);
  const variance = ((clusters / (clusters - 1)) * squares) / (total * total);
  const independent = (proportion * (1 - proportion)) / total;
  // clusters that agree better than chance are no licence for a narrower interval
  const designEffect = independent > 0 ? variance / independent : 1;
  const effectiveUnits = total / Math.max(1, designEffect);
  return {
    proportion,
    ...scoreLimits(proportion * effectiveUnits, effectiveUnits, level),
    designEffect,
    clusters,
  };
}
