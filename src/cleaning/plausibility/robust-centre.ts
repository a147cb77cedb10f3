/** The middle of a set of numbers and how far the usual one lies from it. */
export interface RobustCentre {
  median: number;
  /** median absolute deviation from the median, unscaled */
  deviation: number;
  count: number;
}

const middle = (sorted: Float64Array): number => {
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};

/**
 * Median and median absolute deviation.
 * @returns undefined for an empty set
 * @example robustCentre([1, 2, 3, 4, 100]) // { median: 3, deviation: 1, count: 5 }
 */
export function robustCentre(values: ReadonlyArray<number>): RobustCentre | undefined {
  if (values.length === 0) return undefined;
  const sorted = Float64Array.from(values).sort();
  const median = middle(sorted);
  const away = sorted.map((value) => Math.abs(value - median)).sort();
  return { median, deviation: middle(away), count: values.length };
}

/**
 * How far a value lies from the centre of its set, in robust standard deviations; 0 where the set has no spread to judge by.
 * @source modified z score, 0.6745 (x - median) / MAD: Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers (from memory)
 */
export const robustZ = (value: number, { median, deviation }: RobustCentre): number =>
  deviation === 0 ? 0 : (0.6745 * (value - median)) / deviation;
