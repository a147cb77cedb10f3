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
    placeInOrder(values, from, below);
    from = below;
    const part = position - below;
    if (part === 0) return values[below]!;
    let next = Number.POSITIVE_INFINITY;
    for (let index = below + 1; index < values.length; index++) if (values[index]! < next) next = values[index]!;
    return (1 - part) * values[below]! + part * next;
  });
}

/** Moves the value of rank `rank` to its place, smaller ones before it and larger ones behind; none before `from` moves. */
function placeInOrder(values: Float64Array, from: number, rank: number): void {
  let low = from;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
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
