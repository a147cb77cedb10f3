import { normalQuantile, normalUpperTail } from "../distributions/normal.ts";
import { requireSample } from "../require-numbers.ts";

const polynomial = (coefficients: ReadonlyArray<number>, x: number): number =>
  coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);

/** Polynomials of the paper: in 1/√n for the two outermost weights, in n or log n for the normalising transformation of W. */
const outermost = [0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056];
const secondOutermost = [0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633];
const smallMean = [0.544, -0.39978, 0.025054, -6.714e-4];
const smallLogSpread = [1.3822, -0.77857, 0.062767, -0.0020322];
const smallShift = [-2.273, 0.459];
const largeMean = [-1.5861, -0.31082, -0.083751, 0.0038915];
const largeLogSpread = [-0.4803, -0.082676, 0.0030302];

/** Weights of the ordered values, smallest first; they sum to 0 and their squares to 1. */
function weightsOf(n: number): Float64Array {
  const half = Math.floor(n / 2);
  const weights = new Float64Array(n);
  if (n === 3) {
    weights[2] = Math.SQRT1_2;
    weights[0] = -Math.SQRT1_2;
    return weights;
  }
  const scores = Float64Array.from({ length: n }, (_, i) => normalQuantile((i + 1 - 0.375) / (n + 0.25)));
  let squares = 0;
  for (let i = 0; i < half; i++) squares += 2 * scores[i]! ** 2;
  const length = Math.sqrt(squares);
  const root = 1 / Math.sqrt(n);
  const last = polynomial(outermost, root) - scores[0]! / length;
  const fixed = [last];
  if (n > 5) fixed.push(polynomial(secondOutermost, root) - scores[1]! / length);
  let remaining = squares;
  let taken = 1;
  fixed.forEach((weight, i) => {
    remaining -= 2 * scores[i]! ** 2;
    taken -= 2 * weight ** 2;
  });
  const scale = Math.sqrt(remaining / taken);
  for (let i = 0; i < half; i++) {
    const weight = fixed[i] ?? -scores[i]! / scale;
    weights[n - 1 - i] = weight;
    weights[i] = -weight;
  }
  return weights;
}

/**
 * Test that values come from a normal distribution.
 * @param values 3 to 5000 of them, not all equal
 * @returns w, near 1 for a normal sample, and p; a large p is no proof of normality, least of all with few values
 * @throws RangeError if there are fewer than 3 or more than 5000 values, one is not finite, or all are equal
 * @source Royston 1995, remark AS R94, Applied Statistics 44(4):547-551; p is approximate above n = 3
 * @example shapiroWilk([1, 2, 4, 8]).w // 0.92...
 */
export function shapiroWilk(values: ReadonlyArray<number>): { w: number; p: number } {
  requireSample("shapiroWilk", "values", values, 3);
  const n = values.length;
  if (n > 5000) throw new RangeError(`shapiroWilk: at most 5000 values can be tested; received ${n}`);
  const ordered = Float64Array.from(values).sort();
  const middle = ordered[n >> 1]!;
  const range = ordered[n - 1]! - ordered[0]!;
  if (!(range > 0)) throw new RangeError(`shapiroWilk: the values must differ; received ${middle} only`);
  const centred = ordered.map((value) => (value - middle) / range);
  const mean = centred.reduce((sum, value) => sum + value, 0) / n;
  const weights = weightsOf(n);
  let product = 0;
  let squares = 0;
  let weightSquares = 0;
  for (let i = 0; i < n; i++) {
    product += weights[i]! * (centred[i]! - mean);
    squares += (centred[i]! - mean) ** 2;
    weightSquares += weights[i]! ** 2;
  }
  // 1 - W from the difference of the roots, so that a W next to 1 keeps its digits
  const both = Math.sqrt(weightSquares * squares);
  const shortfall = Math.max(((both - product) * (both + product)) / (weightSquares * squares), 0);
  const w = 1 - shortfall;
  return { w, p: upperTailOfW(w, shortfall, n) };
}

function upperTailOfW(w: number, shortfall: number, n: number): number {
  if (n === 3) {
    // exact; W is never below 3/4
    const p = (6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75)));
    return Math.min(Math.max(p, 0), 1);
  }
  if (shortfall === 0) return 1;
  const logShortfall = Math.log(shortfall);
  if (n <= 11) {
    const shift = polynomial(smallShift, n);
    if (logShortfall >= shift) return 0;
    const y = -Math.log(shift - logShortfall);
    return normalUpperTail((y - polynomial(smallMean, n)) / Math.exp(polynomial(smallLogSpread, n)));
  }
  const logN = Math.log(n);
  return normalUpperTail((logShortfall - polynomial(largeMean, logN)) / Math.exp(polynomial(largeLogSpread, logN)));
}
