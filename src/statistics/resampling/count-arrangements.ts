/**
 * Number of ways to choose k of n, as a number that may be too large to be whole.
 * @example choose(5, 2) // 10
 */
export function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 1; i <= Math.min(k, n - k); i++) ways = (ways * (n - Math.min(k, n - k) + i)) / i;
  return Math.round(ways);
}

/**
 * Number of different orders of things of which some are alike.
 * @example orderings([2, 1]) // 3
 */
export function orderings(counts: Iterable<number>): number {
  let ways = 1;
  let total = 0;
  for (const count of counts) {
    total += count;
    ways *= choose(total, count);
  }
  return ways;
}
