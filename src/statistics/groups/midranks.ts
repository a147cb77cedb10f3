import { power } from "../power.ts";

/** Ranks with ties, and what the ties cost a rank test. */
export interface Midranks {
  /** rank of each value from 1, tied values sharing the mean of their ranks */
  ranks: Float64Array;
  /** sum of t³ - t over groups of t tied values */
  tieSum: number;
}

/**
 * Ranks values from the smallest up.
 * @example midranks([5, 1, 5]) // { ranks: [2.5, 1, 2.5], tieSum: 6 }
 */
export function midranks(values: ArrayLike<number>): Midranks {
  const order = Int32Array.from({ length: values.length }, (_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Float64Array(values.length);
  let tieSum = 0;
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end++;
    for (let i = start; i < end; i++) ranks[order[i]!] = (start + 1 + end) / 2;
    tieSum += power(end - start, 3) - (end - start);
    start = end;
  }
  return { ranks, tieSum };
}
