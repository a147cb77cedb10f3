import type { RandomStructure } from "./covariance-moments.ts";
import { crossedGroupings } from "./crossed-groupings.ts";
import { groupMeans } from "./group-means.ts";
import { oneGrouping } from "./one-grouping.ts";
import { type NumberedFactor, nestedIn } from "./random-factor.ts";
import { twoNestedGroupings } from "./two-nested-groupings.ts";

/**
 * Picks the cheapest exact way to handle the random groupings at hand.
 * @param columns fixed-effect columns followed by the response
 * @internal
 */
export function randomStructure(
  columns: ReadonlyArray<Float64Array>,
  factors: ReadonlyArray<NumberedFactor>,
): RandomStructure {
  const count = columns[0]!.length;
  const [first, second] = factors;
  if (factors.length === 1) {
    return oneGrouping(groupMeans(columns, first!.index, first!.groups), count);
  }
  if (factors.length === 2) {
    for (const [inner, outer] of [
      [first!, second!],
      [second!, first!],
    ] as const) {
      if (!nestedIn(inner.index, outer.index, inner.groups)) continue;
      const home = new Int32Array(inner.groups);
      for (let i = 0; i < count; i++) home[inner.index[i]!] = outer.index[i]!;
      const summary = groupMeans(columns, inner.index, inner.groups);
      return twoNestedGroupings(summary, home, outer.groups, inner === first, count);
    }
  }
  return crossedGroupings(columns, factors);
}
