import { requirePositive } from "../require-numbers.ts";

/**
 * Chance of each count or more of a beta-binomial variable: how many of `size` units have an outcome whose chance is itself
 * a beta variable. With a = 1/2 + s and b = 1/2 + f it is the predictive distribution after s of s + f (Jeffreys' prior).
 * @param size units, a whole number of 0 or more
 * @param a first shape, finite and above 0
 * @param b second shape, finite and above 0
 * @returns at k the chance of k or more, k from 0 to size
 * @throws RangeError if an argument is outside its range
 * @source Skellam 1948, Journal of the Royal Statistical Society B 10(2):257-261; as limits of a chart for short runs:
 *   Bourazas, Kiagias and Tsiamyrtzis 2022, Journal of Quality Technology 54(4):367-391
 * @example betaBinomialUpperTails(3, 1, 1) // [1, 0.75, 0.5, 0.25]
 */
export function betaBinomialUpperTails(size: number, a: number, b: number): number[] {
  if (!Number.isInteger(size) || size < 0) {
    throw new RangeError(`betaBinomialUpperTails: size must be a whole number of 0 or more; received ${size}`);
  }
  requirePositive("betaBinomialUpperTails", "a", a);
  requirePositive("betaBinomialUpperTails", "b", b);
  // logarithms up to a constant, each from the one before
  const logs = [0];
  for (let k = 0; k < size; k++) {
    logs.push(logs[k]! + Math.log(((size - k) * (k + a)) / ((k + 1) * (size - k - 1 + b))));
  }
  const highest = logs.reduce((most, one) => Math.max(most, one), Number.NEGATIVE_INFINITY);
  const tails: number[] = new Array(size + 1);
  let sum = 0;
  for (let k = size; k >= 0; k--) {
    sum += Math.exp(logs[k]! - highest);
    tails[k] = sum;
  }
  return tails.map((tail) => tail / sum);
}
