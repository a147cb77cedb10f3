import { requireOpenProbability } from "../require-numbers.ts";

const logOfRootTwoPi = 0.9189385332046728;
const rootOf32 = Math.sqrt(32);

/**
 * Height of the standard normal curve.
 * @param z distance from the mean in standard deviations
 * @returns the density, 0 at either infinity
 * @throws RangeError if z is not a number
 * @source definition of the density
 * @example normalDensity(0) // 0.3989422804014327
 */
export function normalDensity(z: number): number {
  requireNumber("normalDensity", z);
  return Math.exp(-0.5 * z * z - logOfRootTwoPi);
}

/**
 * Probability that a standard normal variable is z or less.
 * @param z distance from the mean in standard deviations; infinities are allowed
 * @returns a probability; relative error below 1e-14 in the lower tail down to 1e-300
 * @throws RangeError if z is not a number
 * @source Cody 1969, Mathematics of Computation 23(107):631-637, rational minimax approximations; far tails: Laplace's
 *   continued fraction, Abramowitz and Stegun 1964, 26.2.14
 * @example normalCdf(1.96) // 0.9750021048517795
 */
export function normalCdf(z: number): number {
  requireNumber("normalCdf", z);
  return lowerTail(z);
}

/**
 * Probability that a standard normal variable is above z, exact also where it is tiny.
 * @param z distance from the mean in standard deviations; infinities are allowed
 * @throws RangeError if z is not a number
 * @source Cody 1969, Mathematics of Computation 23(107):631-637
 * @example normalUpperTail(5) // 2.866515718791939e-7
 */
export function normalUpperTail(z: number): number {
  requireNumber("normalUpperTail", z);
  return lowerTail(-z);
}

/**
 * The z below which a standard normal variable falls with the given probability.
 * @param p a probability above 0 and below 1
 * @throws RangeError if p is 0, 1 or outside
 * @source Wichura 1988, algorithm AS 241, Applied Statistics 37(3):477-484, polished by one Halley step
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  requireOpenProbability("normalQuantile", "p", p);
  if (p === 0.5) return 0;
  const nearer = Math.min(p, 1 - p);
  const start = lowerQuantileStart(nearer);
  // Halley's step on the logarithm-free equation, scaled by the density so that tiny tails keep their digits
  const miss = (lowerTail(start) - nearer) / normalDensity(start);
  const z = start - miss / (1 + 0.5 * start * miss);
  return p < 0.5 ? z : -z;
}

function requireNumber(routine: string, z: number): void {
  if (Number.isNaN(z)) throw new RangeError(`${routine}: z must be a number; received ${z}`);
}

const centreTop = [0.06568233791820745, 2.2352520354606837, 161.02823106855587, 1067.6894854603709, 18154.98125334356];
const centreBottom = [1, 47.202581904688245, 976.0985517377767, 10260.932208618979, 45507.78933502673];
const middleTop = [
  1.0765576773720192e-8, 0.39894151208813466, 8.883149794388377, 93.50665613217785, 597.2702763948002,
  2494.5375852903726, 6848.190450536283, 11602.65143764735, 9842.714838383978,
];
const middleBottom = [
  1, 22.266688044328117, 235.387901782625, 1519.3775994075547, 6485.558298266761, 18615.571640885097, 34900.95272114598,
  38912.00328609327, 19685.429676859992,
];
function polynomial(coefficients: ReadonlyArray<number>, x: number): number {
  let value = coefficients[0]!;
  for (let at = 1; at < coefficients.length; at++) value = value * x + coefficients[at]!;
  return value;
}

/** z + 1/(z + 2/(z + 3/(z + ...))), the density divided by the tail; 40 levels are exact for z of 5 or more. */
function laplaceFraction(z: number): number {
  let value = z;
  for (let level = 40; level >= 1; level--) value = z + level / value;
  return value;
}

function lowerTail(z: number): number {
  const size = Math.abs(z);
  if (size <= 0.67448975) {
    const square = z * z;
    return 0.5 + (z * polynomial(centreTop, square)) / polynomial(centreBottom, square);
  }
  let tail = 0;
  if (size < 40) {
    let ratio: number;
    if (size <= rootOf32) ratio = polynomial(middleTop, size) / polynomial(middleBottom, size);
    else ratio = Math.exp(-logOfRootTwoPi) / laplaceFraction(size);
    // exp(-z²/2) in two factors, so that rounding z² costs no digits
    const coarse = Math.trunc(size * 16) / 16;
    const rest = (size - coarse) * (size + coarse);
    tail = Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * rest) * ratio;
  }
  return z < 0 ? tail : 1 - tail;
}

const startCentreTop = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946, 1971.5909503065513,
  133.14166789178438, 3.3871328727963665,
];
const startCentreBottom = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751, 687.1870074920579,
  42.31333070160091, 1,
];
const startMiddleTop = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
];
const startMiddleBottom = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
];
const startFarTop = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124, 0.29656057182850487,
  1.7848265399172913, 5.463784911164114, 6.657904643501103,
];
const startFarBottom = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133, 0.014875361290850615,
  0.1369298809227358, 0.599832206555888, 1,
];

/** The quantile for a probability of at most one half, good to about 1e-15 before polishing. */
function lowerQuantileStart(p: number): number {
  const offset = p - 0.5;
  if (Math.abs(offset) <= 0.425) {
    const r = 0.180625 - offset * offset;
    return (offset * polynomial(startCentreTop, r)) / polynomial(startCentreBottom, r);
  }
  const r = Math.sqrt(-Math.log(p));
  if (r <= 5) return -polynomial(startMiddleTop, r - 1.6) / polynomial(startMiddleBottom, r - 1.6);
  return -polynomial(startFarTop, r - 5) / polynomial(startFarBottom, r - 5);
}
