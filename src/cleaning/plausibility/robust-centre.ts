/** The middle of a set of numbers and how far the usual one lies from it. */
export interface RobustCentre {
  median: number;
  /** median absolute deviation from the median, unscaled */
  deviation: number;
  count: number;
}

/**
 * The value that would stand at a place if the first so many numbers were sorted; rearranges these so that none before it
 * is larger.
 * @source Hoare 1961, Algorithm 65: Find, Communications of the ACM 4(7):321-322
 */
function atPlace(values: Float64Array, place: number, count: number): number {
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1]!;
    let low = left;
    let high = right;
    while (low <= high) {
      while (values[low]! < pivot) low++;
      while (values[high]! > pivot) high--;
      if (low > high) break;
      const swapped = values[low]!;
      values[low++] = values[high]!;
      values[high--] = swapped;
    }
    if (place <= high) right = high;
    else if (place >= low) left = low;
    else break;
  }
  return values[place]!;
}

/** The median of the first so many of numbers, the smallest `without` of them left out, one at least; rearranges these. */
export function middle(values: Float64Array, count = values.length, without = 0): number {
  const half = without + ((count - without) >> 1);
  const upper = atPlace(values, half, count);
  if ((count - without) % 2 === 1) return upper;
  let lower = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < half; index++) if (values[index]! > lower) lower = values[index]!;
  return (lower + upper) / 2;
}

/**
 * Median and median absolute deviation.
 * @returns undefined for an empty set
 * @example robustCentre([1, 2, 3, 4, 100]) // { median: 3, deviation: 1, count: 5 }
 */
export const robustCentre = (values: ArrayLike<number>): RobustCentre | undefined =>
  centreInPlace(new Float64Array(values));

/**
 * The same of the first so many of numbers, which are used up by it.
 * @param fitted how many medians were taken off the numbers before, below their count: as many of the smallest deviations
 *   are 0 or nearly so by that alone, and are left out
 */
export function centreInPlace(values: Float64Array, count = values.length, fitted = 0): RobustCentre | undefined {
  if (count === 0) return undefined;
  const median = middle(values, count);
  for (let at = 0; at < count; at++) values[at] = Math.abs(values[at]! - median);
  return { median, deviation: middle(values, count, fitted), count };
}

/**
 * How far a value lies from the centre of its set, in robust standard deviations; 0 where the set has no spread to judge by.
 * @source modified z score, 0.6745 (x - median) / MAD: Iglewicz and Hoaglin 1993, How to Detect and Handle Outliers;
 *   NIST/SEMATECH e-Handbook, section 1.3.5.17
 */
export const robustZ = (value: number, { median, deviation }: RobustCentre): number =>
  deviation === 0 ? 0 : (0.6745 * (value - median)) / deviation;
