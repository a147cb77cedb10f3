/**
 * Ranks of values from the smallest up, from 1; tied values share the mean of their ranks.
 * @example midranks([5, 1, 5]) // [2.5, 1, 2.5]
 */
export function midranks(values: ArrayLike<number>): number[] {
  const order = Int32Array.from({ length: values.length }, (_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Array<number>(values.length);
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end++;
    for (let i = start; i < end; i++) ranks[order[i]!] = (start + 1 + end) / 2;
    start = end;
  }
  return ranks;
}
