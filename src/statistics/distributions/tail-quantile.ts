import { findRoot } from "./find-root.ts";

/**
 * The point at or below which a continuous variable falls with probability p, from its two tails.
 * @param p a probability above 0 and below 1
 * @param lowerTail the distribution function
 * @param upperTail its complement, computed on its own
 * @param centre a first guess, and spread a first step away from it, above 0
 * @param floor where the variable's range begins, -Infinity if nowhere
 * @internal
 */
export function tailQuantile(
  p: number,
  lowerTail: (x: number) => number,
  upperTail: (x: number) => number,
  centre: number,
  spread: number,
  floor = Number.NEGATIVE_INFINITY,
): number {
  const miss = (x: number): number => (p <= 0.5 ? Math.log(lowerTail(x) / p) : -Math.log(upperTail(x) / (1 - p)));
  let low = centre;
  let high = centre;
  for (let step = spread; miss(low) > 0; step *= 2) {
    high = low;
    low = Number.isFinite(floor) ? floor + (low - floor) / 4 : low - step;
    if (low <= floor || step > 1e300) return low;
  }
  for (let step = spread; miss(high) < 0; step *= 2) {
    low = high;
    high += step;
    if (step > 1e300) return high;
  }
  return low === high ? low : findRoot(miss, low, high);
}
