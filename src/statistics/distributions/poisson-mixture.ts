import { gammaLogSlope } from "./gamma-tails.ts";

/**
 * Sum of Poisson weights times values over the indices offset, offset + 1, offset + 2, ..., taken outwards from the
 * largest weight until nothing more is added.
 * @param mean of the Poisson weights, above 0
 * @param offset 0 for the Poisson distribution itself; 0.5 for its values half way between
 * @param value a number of 0 or more for each index, rising or falling steadily
 * @internal
 */
export function poissonMixture(mean: number, offset: number, value: (index: number) => number): number {
  const weight = (index: number): number => gammaLogSlope(index + 1, mean) / mean;
  const start = offset + Math.max(0, Math.floor(mean - offset));
  let sum = weight(start) * value(start);
  for (const direction of [1, -1]) {
    let previous = sum;
    for (let index = start + direction; index >= offset; index += direction) {
      const share = weight(index);
      const term = share * value(index);
      sum += term;
      if (share === 0 || (sum > 0 && term <= previous && term <= 1e-18 * sum)) break;
      previous = term;
    }
  }
  return sum;
}
