/**
 * The remainder of Stirling's formula: log Γ(n + 1) - [(n + 1/2) log n - n + log √(2π)].
 * Keeping it apart lets the binomial and beta densities be computed without subtracting large logarithms.
 * @param n a number above 0, whole or not
 * @returns the remainder, close to 1/(12 n) for large n; absolute error below 1e-15
 * @source Loader 2000, Fast and accurate computation of binomial probabilities (unpublished report); series: Abramowitz
 *   and Stegun 1964, 6.1.41
 * @example stirlingError(1) // 0.08106146679532726
 */
export function stirlingError(n: number): number {
  let remainder = 0;
  let from = n;
  // the remainder at n exceeds the one at n + 1 by (n + 1/2) log(1 + 1/n) - 1
  for (; from < 16; from++) remainder += stepOfStirlingError(from);
  const square = from * from;
  const series =
    1 / 12 -
    (1 / 360 -
      (1 / 1260 - (1 / 1680 - (1 / 1188 - (691 / 360360 - 1 / 156 / square) / square) / square) / square) / square) /
      square;
  return remainder + series / from;
}

/** (k + 1/2) log(1 + 1/k) - 1, without cancellation where k is large. */
function stepOfStirlingError(k: number): number {
  if (k < 1) return (k + 0.5) * Math.log1p(1 / k) - 1;
  const square = 1 / (2 * k + 1) ** 2;
  let power = square;
  let sum = 0;
  for (let odd = 3; ; odd += 2) {
    const term = power / odd;
    if (term < 1e-17 * sum) return sum;
    sum += term;
    power *= square;
  }
}

/**
 * The deviance term x log(x / m) + m - x, exact also where x and m nearly agree.
 * @param x a number above 0
 * @param m a number above 0
 * @returns a number of 0 or more
 * @source Loader 2000, Fast and accurate computation of binomial probabilities (unpublished report)
 * @internal
 */
export function devianceTerm(x: number, m: number): number {
  const difference = x - m;
  if (Math.abs(difference) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const ratio = difference / (x + m);
  let sum = difference * ratio;
  let term = 2 * x * ratio;
  for (let odd = 3; ; odd += 2) {
    term *= ratio * ratio;
    const next = sum + term / odd;
    if (next === sum) return sum;
    sum = next;
  }
}
