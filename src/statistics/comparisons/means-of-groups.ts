import { type GroupSums, sumsOfGroups } from "../groups/group-sums.ts";
import { toNumber } from "../linear-algebra/double-double.ts";

/** What is known of one group's mean. */
export interface GroupMean {
  count: number;
  mean: number;
  /** divisor count - 1; 0 for one value */
  variance: number;
}

/**
 * Count, mean and variance of every group.
 * @internal
 */
export function groupMeans(
  routine: string,
  groups: ReadonlyArray<ReadonlyArray<number>>,
  atLeast: number,
): GroupMean[] {
  return sumsOfGroups(routine, groups, atLeast).map(meanOf);
}

function meanOf(sums: GroupSums): GroupMean {
  return {
    count: sums.count,
    mean: toNumber(sums.mean),
    variance: sums.count > 1 ? toNumber(sums.sumOfSquares) / (sums.count - 1) : 0,
  };
}
