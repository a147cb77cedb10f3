import { requireCount, requireFinite, requireOpenProbability, requirePositive } from "../require-numbers.ts";

/** One look at a growing trial: the difference so far and how well it is known. */
export interface SequentialLook {
  /** estimated mean difference (of means, of paired values, or a contrast adjusted for blocks) */
  difference: number;
  /** its standard error, with sigma estimated from the data so far */
  standardError: number;
  /** residual standard deviation behind the standard error */
  sigma: number;
  /** of sigma; Infinity when sigma is known */
  degreesOfFreedom: number;
}

export interface ConfidenceSequenceInput {
  /** looks in time order, each with all data so far */
  looks: ReadonlyArray<SequentialLook>;
  /** level the whole sequence keeps, however often one looks; 0.95 when absent */
  level?: number;
  /** effective sample size (see `effectiveSize`) at which the sequence is to be tightest: about where the trial should end */
  tightestAt: number;
  /** difference under test; 0 when absent */
  nullDifference?: number;
}

export interface SequentialInterval {
  look: number;
  effectiveSize: number;
  /** interval of this look alone; infinite while the data are too few to set any limit */
  low: number;
  high: number;
  /** the intersection of all intervals so far: still valid, and never wider than before. When earlier looks contradict this one it is the interval of this look and `contradicts` is true */
  runningLow: number;
  runningHigh: number;
  contradicts: boolean;
  /** evidence against the null as a wager: expected value at most 1 under the null at any time */
  eValue: number;
  /** always-valid p: the smallest 1 / eValue so far, at most 1 */
  p: number;
}

/**
 * Intervals and p-values for a mean difference that stay valid however often, and whenever, one looks.
 * The bound is a normal mixture over the standardised difference. With sigma estimated (finite degrees of freedom) it is the
 * t version: exact for independent normal values of one variance, since the t statistic does not depend on sigma. Limits: with
 * unequal variances, strong skewness and few values, or a Welch standard error, the guarantee is approximate and can be
 * exceeded at the first few looks; looks must add data, never drop trays; trays from one jar or cook are not independent.
 * @throws RangeError if there is no look, a value is not finite, a standard error, sigma or `tightestAt` is not above 0,
 *   degrees of freedom are not above 0 or the level is not between 0 and 1
 * @source normal mixture: Robbins 1970, Annals of Mathematical Statistics 41(5):1397-1409; Howard, Ramdas, McAuliffe and
 *   Sekhon 2021, Annals of Statistics 49(2):1055-1080; t mixture: Lai 1976, Annals of Statistics 4(2):265-280, as a Bayes
 *   factor Gönen, Johnson, Lu and Westfall 2005, The American Statistician 59(3):252-257; always-valid p: Johari, Koomen,
 *   Pekelis and Walsh 2022, Operations Research 70(3):1806-1821
 * @example confidenceSequence({ looks: [{ difference: 2, standardError: 0.5, sigma: 2, degreesOfFreedom: 30 }], tightestAt: 16 })[0].p // 0.00963...
 */
export function confidenceSequence(input: ConfidenceSequenceInput): SequentialInterval[] {
  const { looks, tightestAt } = input;
  const level = input.level ?? 0.95;
  const nullDifference = input.nullDifference ?? 0;
  requireCount("confidenceSequence", "number of looks", looks.length, 1);
  requireOpenProbability("confidenceSequence", "level", level);
  requireFinite("confidenceSequence", "nullDifference", [nullDifference]);
  const prior = mixturePrecision(tightestAt, 1 - level);
  let [runningLow, runningHigh] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let p = 1;
  return looks.map((look, k) => {
    requireFinite("confidenceSequence", "difference", [look.difference]);
    const size = effectiveSize(look.sigma, look.standardError);
    const critical = mixtureCriticalT(size, look.degreesOfFreedom, prior, 1 - level);
    const [low, high] = [
      look.difference - critical * look.standardError,
      look.difference + critical * look.standardError,
    ];
    const eValue = mixtureEValue(
      (look.difference - nullDifference) / look.standardError,
      size,
      look.degreesOfFreedom,
      prior,
    );
    p = Math.min(p, 1 / eValue);
    const [nextLow, nextHigh] = [Math.max(runningLow, low), Math.min(runningHigh, high)];
    const contradicts = nextLow > nextHigh;
    [runningLow, runningHigh] = contradicts ? [low, high] : [nextLow, nextHigh];
    return { look: k + 1, effectiveSize: size, low, high, runningLow, runningHigh, contradicts, eValue, p };
  });
}

/**
 * How many values of standard deviation sigma would give a mean with this standard error: nA nB / (nA + nB) for two means.
 * @throws RangeError if either is not above 0
 * @example effectiveSize(2, 0.5) // 16
 */
export function effectiveSize(sigma: number, standardError: number): number {
  requirePositive("effectiveSize", "sigma", sigma);
  requirePositive("effectiveSize", "standardError", standardError);
  return (sigma / standardError) ** 2;
}

/**
 * Precision of the mixture (in effective sample size) that makes the normal bound tightest at a given size.
 * @source minimising Howard et al. 2021, equation 14, over the mixture (found here by golden-section search)
 * @example mixturePrecision(16, 0.05) // 1.94837...
 */
export function mixturePrecision(tightestAt: number, significance: number): number {
  requirePositive("mixturePrecision", "tightestAt", tightestAt);
  requireOpenProbability("mixturePrecision", "significance", significance);
  const width = (logShare: number) => {
    const prior = Math.exp(logShare);
    return (1 + prior) * Math.log((1 + prior) / (prior * significance * significance));
  };
  let [low, high] = [-25, 5];
  const share = (Math.sqrt(5) - 1) / 2;
  for (let round = 0; round < 100; round++) {
    const a = high - share * (high - low);
    const b = low + share * (high - low);
    if (width(a) <= width(b)) high = b;
    else low = a;
  }
  return tightestAt * Math.exp((low + high) / 2);
}

/**
 * The mixture's evidence against a difference of 0: mean over the mixture of the likelihood ratio of the t statistic.
 * @param size effective sample size; @param prior mixture precision in the same unit
 * @returns the e-value, above 0
 * @example mixtureEValue(0, 16, Infinity, 16) // 0.7071...
 */
export function mixtureEValue(t: number, size: number, degreesOfFreedom: number, prior: number): number {
  requirePositive("mixtureEValue", "size", size);
  requirePositive("mixtureEValue", "prior", prior);
  requireDegrees("mixtureEValue", degreesOfFreedom);
  const share = prior / (size + prior);
  const square = t * t;
  const exponent =
    degreesOfFreedom === Number.POSITIVE_INFINITY
      ? (square * (1 - share)) / 2
      : ((degreesOfFreedom + 1) / 2) *
        (Math.log1p(square / degreesOfFreedom) - Math.log1p((square * share) / degreesOfFreedom));
  return Math.exp(exponent + Math.log(share) / 2);
}

/**
 * The t beyond which the e-value exceeds 1 / significance; Infinity while no t does.
 * @example mixtureCriticalT(16, Infinity, 16, 0.05) // 3.65639...
 */
export function mixtureCriticalT(size: number, degreesOfFreedom: number, prior: number, significance: number): number {
  requirePositive("mixtureCriticalT", "size", size);
  requirePositive("mixtureCriticalT", "prior", prior);
  requireDegrees("mixtureCriticalT", degreesOfFreedom);
  requireOpenProbability("mixtureCriticalT", "significance", significance);
  const share = prior / (size + prior);
  const log = -Math.log(share * significance * significance);
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return Math.sqrt(log / (1 - share));
  const growth = Math.expm1(log / (degreesOfFreedom + 1));
  const left = 1 - share * (1 + growth);
  return left > 0 ? Math.sqrt((degreesOfFreedom * growth) / left) : Number.POSITIVE_INFINITY;
}

function requireDegrees(routine: string, degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`${routine}: degreesOfFreedom must be above 0; received ${degreesOfFreedom}`);
  }
}
