/**
 * A point between two brackets where a function crosses 0.
 * @param f a continuous function; it may return infinities, not NaN
 * @param low one end, where f has one sign
 * @param high the other end, where f has the other sign
 * @param relative how close the brackets must come, as a fraction of the point
 * @returns the crossing point
 * @throws RangeError if f has the same sign at both ends or returns NaN
 * @source Chandrupatla 1997, Advances in Engineering Software 28(3):145-149
 * @example findRoot((x) => x * x - 2, 1, 2) // 1.4142135623730951
 */
export function findRoot(f: (x: number) => number, low: number, high: number, relative = 1e-15): number {
  const evaluate = (x: number): number => {
    const value = f(x);
    if (Number.isNaN(value)) throw new RangeError(`findRoot: the function must return a number; received NaN at ${x}`);
    return value;
  };
  let [a, b] = [low, high];
  let [fa, fb] = [evaluate(a), evaluate(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) {
    throw new RangeError(
      `findRoot: the function must change sign between ${low} and ${high}; received ${fa} and ${fb}`,
    );
  }
  let c: number;
  let fc: number;
  let fraction = 0.5;
  for (let step = 0; step < 300; step++) {
    const x = a + fraction * (b - a);
    const fx = evaluate(x);
    if (fx > 0 === fa > 0) [c, fc] = [a, fa];
    else [c, fc, b, fb] = [b, fb, a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    if (fa === 0 || fb === 0) return best;
    const nearness = (relative * Math.abs(best) + 1e-300) / Math.abs(b - a);
    if (nearness > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    // inverse quadratic interpolation where it is safe, halving otherwise
    fraction =
      phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
        ? (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
        : 0.5;
    if (!(fraction >= nearness)) fraction = nearness;
    if (fraction > 1 - nearness) fraction = 1 - nearness;
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}
