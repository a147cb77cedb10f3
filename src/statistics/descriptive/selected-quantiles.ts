import { requireSample } from "../require-numbers.ts";

/**
 * Several quantiles of many values without sorting them all, as `quantileType7` gives them.
 * @param values one or more finite numbers; the array is reordered
 * @param shares the shares of the values below, each from 0 to 1, rising
 * @returns one quantile per share, in the values' unit
 * @throws RangeError if there are no values, or a share is outside 0 to 1 or below the one before it
 * @source Hoare 1961, Algorithm 65: Find, Communications of the ACM 4(7):321-322, with the interpolation of Hyndman and
 *   Fan 1996, The American Statistician 50(4):361-365, definition 7
 * @example selectedQuantiles(Float64Array.of(4, 1, 3, 2), [0.25, 0.5]) // [1.75, 2.5]
 */
export function selectedQuantiles(values: Float64Array, shares: ReadonlyArray<number>): number[] {
  if (values.length === 0) requireSample("selectedQuantiles", "values", [], 1);
  let from = 0;
  let before = 0;
  return shares.map((share) => {
    if (!(share >= before && share <= 1)) {
      throw new RangeError(`selectedQuantiles: shares must rise from 0 to 1; received ${share} after ${before}`);
    }
    before = share;
    const position = (values.length - 1) * share;
    const below = Math.floor(position);
    placeInOrder(values, from, values.length - 1, below);
    from = below;
    const part = position - below;
    if (part === 0) return values[below]!;
    let next = Number.POSITIVE_INFINITY;
    for (let index = below + 1; index < values.length; index++) if (values[index]! < next) next = values[index]!;
    // of equal values none but that value, whatever rounding does
    return next === values[below]! ? next : (1 - part) * values[below]! + part * next;
  });
}

/** Parts longer than this are first narrowed by a sample of themselves. */
const longPart = 600;

/** Moves the value of rank `rank` to its place between `low` and `high`, smaller ones before it and larger ones behind. */
function placeInOrder(values: Float64Array, low: number, high: number, rank: number): void {
  while (low < high) {
    const count = high - low + 1;
    if (count > longPart) {
      const share = (rank - low + 1) / count;
      const sample = 0.5 * Math.exp((2 * Math.log(count)) / 3);
      const spread = 0.5 * Math.sqrt((Math.log(count) * sample * (count - sample)) / count) * Math.sign(share - 0.5);
      const from = Math.max(low, Math.floor(rank - share * sample + spread));
      placeInOrder(values, from, Math.min(high, Math.floor(rank + (1 - share) * sample + spread)), rank);
    }
    const pivot = values[rank]!;
    let left = low;
    let right = high;
    while (left <= right) {
      while (values[left]! < pivot) left++;
      while (values[right]! > pivot) right--;
      if (left <= right) {
        const kept = values[left]!;
        values[left++] = values[right]!;
        values[right--] = kept;
      }
    }
    if (rank <= right) high = right;
    else if (rank >= left) low = left;
    else return;
  }
}
