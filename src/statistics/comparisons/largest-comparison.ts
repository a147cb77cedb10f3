import { integrateOverSpread } from "../distributions/integrate-over-spread.ts";
import { normalCdf, normalUpperTail } from "../distributions/normal.ts";

const rootOfTwoPi = Math.sqrt(2 * Math.PI);

/** Beyond this many standard deviations the normal density is below 1e-31 of its peak. */
const reach = 12;
/** So small a share of a sum is lost in its rounding. */
const tooLittle = Number.EPSILON / 4;

/**
 * Probability that, with no true difference, some mean differs from the control's by more than t standard errors.
 *
 * The t statistics share the control's mean and the standard deviation. Given both they are independent, so the answer is
 * an integral over the two of 1 less a product of normal probabilities, taken through logarithms so that small answers keep
 * their digits.
 * @param t above 0
 * @param loadings square root of n / (n + n of the control) for each mean: the correlation of two statistics is their product
 * @param degreesOfFreedom of the common standard deviation, or infinity
 * @source Dunnett 1955, Journal of the American Statistical Association 50(272):1096-1121; 1964, Biometrics 20(3):482-491
 * @example largestComparisonUpperTail(2, [Math.SQRT1_2], Infinity) // 0.04550026...
 */
export function largestComparisonUpperTail(
  t: number,
  loadings: ReadonlyArray<number>,
  degreesOfFreedom: number,
): number {
  const alone = loadings.map((loading) => Math.sqrt(1 - loading * loading));
  // the step must resolve the sharpest rise of the factors, alone / loading wide, and of their product, which is sharper
  // the more there are; compared with steps 7 times finer the answers agree to 1e-12 for up to 100 means
  const sharpest = Math.min(1, ...loadings.map((loading, i) => alone[i]! / loading));
  const step = (0.35 * sharpest) / Math.sqrt(Math.max(1, loadings.length / 5));
  const steps = Math.ceil(reach / step);
  const densities = Float64Array.from({ length: steps + 1 }, (_, i) => {
    const z = i * step;
    return (step * Math.exp((-z * z) / 2)) / rootOfTwoPi;
  });
  // equal loadings give equal factors: count them once
  const distinct = [...new Set(loadings)].map((loading) => ({
    loading,
    own: Math.sqrt(1 - loading * loading),
    times: loadings.filter((other) => other === loading).length,
  }));
  const anyBeyond = (z: number, limit: number): number => {
    let logInside = 0;
    for (const { loading, own, times } of distinct) {
      const outside = normalUpperTail((limit - loading * z) / own) + normalCdf((-limit - loading * z) / own);
      if (outside >= 1) return 1;
      logInside += times * Math.log1p(-outside);
    }
    return -Math.expm1(logInside);
  };
  const given = (s: number): number => {
    const limit = t * s;
    let sum = densities[0]! * anyBeyond(0, limit);
    for (let i = 1; i <= steps; i++) {
      // what is still to come, twice the density at most, no longer changes the sum
      if (densities[i]! * 2 < sum * tooLittle) break;
      const z = i * step;
      // the integrand is even in z
      sum += densities[i]! * (2 * anyBeyond(z, limit));
    }
    return sum;
  };
  const peak =
    degreesOfFreedom === Number.POSITIVE_INFINITY ? 1 : 1 / Math.hypot(1, t / Math.sqrt(2 * degreesOfFreedom));
  return Math.min(1, integrateOverSpread(degreesOfFreedom, given, peak));
}
