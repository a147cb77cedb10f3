import { requireSample } from "../require-numbers.ts";

/**
 * Quantile by linear interpolation between order statistics, position 1 + (n - 1) p (type 7 of Hyndman and Fan).
 * @param values one or more finite numbers, in any order
 * @param p share of the values below, from 0 (the smallest) to 1 (the largest)
 * @returns the quantile in the values' unit
 * @throws RangeError if there are no values, one is not finite, or p is outside 0 to 1
 * @source Hyndman and Fan 1996, The American Statistician 50(4):361-365, definition 7
 * @example quantileType7([1, 2, 3, 4], 0.25) // 1.75
 */
export function quantileType7(values: ReadonlyArray<number>, p: number): number {
  requireSample("quantileType7", "values", values, 1);
  if (!(p >= 0 && p <= 1)) throw new RangeError(`quantileType7: p must lie from 0 to 1; received ${p}`);
  return quantileOfSorted(Float64Array.from(values).sort(), p);
}

function quantileOfSorted(sorted: Float64Array, p: number): number {
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const [low, next] = [sorted[below]!, sorted[below + 1]!];
  const share = position - below;
  return share === 0 || next === low ? low : (1 - share) * low + share * next;
}
