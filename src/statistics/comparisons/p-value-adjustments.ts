import { requireFinite } from "../require-numbers.ts";

function requireProbabilities(routine: string, pValues: ReadonlyArray<number>): void {
  requireFinite(routine, "p-values", pValues);
  const outside = pValues.find((p) => p < 0 || p > 1);
  if (outside !== undefined) throw new RangeError(`${routine}: p-values must lie from 0 to 1; received ${outside}`);
}

/** Positions of the values from the smallest up. */
function ascending(values: ReadonlyArray<number>): number[] {
  return values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
}

/**
 * p-values adjusted so that the chance of any false rejection is at most the level, stepping down from the smallest one.
 * @param pValues of tests in any dependence, 0 to 1
 * @returns adjusted p-values in the order given, at most 1
 * @throws RangeError if a value is not between 0 and 1
 * @source Holm 1979, Scandinavian Journal of Statistics 6(2):65-70
 * @example holmAdjustment([0.01, 0.04]) // [0.02, 0.04]
 */
export function holmAdjustment(pValues: ReadonlyArray<number>): number[] {
  requireProbabilities("holmAdjustment", pValues);
  const adjusted = pValues.slice();
  let highest = 0;
  ascending(pValues).forEach((position, rank) => {
    highest = Math.max(highest, Math.min(1, (pValues.length - rank) * pValues[position]!));
    adjusted[position] = highest;
  });
  return adjusted;
}

/**
 * p-values adjusted so that the expected share of false ones among the rejections is at most the level.
 * @param pValues of tests that are independent or positively dependent, 0 to 1
 * @returns adjusted p-values in the order given, at most 1
 * @throws RangeError if a value is not between 0 and 1
 * @source Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57(1):289-300
 * @example benjaminiHochbergAdjustment([0.01, 0.04]) // [0.02, 0.04]
 */
export function benjaminiHochbergAdjustment(pValues: ReadonlyArray<number>): number[] {
  requireProbabilities("benjaminiHochbergAdjustment", pValues);
  const adjusted = pValues.slice();
  const order = ascending(pValues);
  let lowest = 1;
  for (let rank = order.length; rank >= 1; rank--) {
    const position = order[rank - 1]!;
    lowest = Math.min(lowest, (pValues.length / rank) * pValues[position]!);
    adjusted[position] = lowest;
  }
  return adjusted;
}
