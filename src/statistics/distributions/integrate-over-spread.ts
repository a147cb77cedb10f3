import { gammaLogSlope } from "./gamma-tails.ts";

/**
 * Average of a function over the distribution of s / σ, the estimated over the true standard deviation.
 * @param degreesOfFreedom of the estimate, above 0, or infinity when the standard deviation is known
 * @param value a smooth function of the ratio with values of 0 or more
 * @param peak roughly where the integrand is largest, above 0
 * @returns ∫ value(s) density(s) ds; the trapezoidal rule on log s, whose error falls off exponentially with the step
 * @source rule: Trefethen and Weideman 2014, SIAM Review 56(3):385-458
 * @internal
 */
export function integrateOverSpread(degreesOfFreedom: number, value: (s: number) => number, peak = 1): number {
  if (degreesOfFreedom > 1e20) return value(1);
  const shape = degreesOfFreedom / 2;
  const step = Math.min(0.1, 0.5 / Math.sqrt(2 * degreesOfFreedom));
  const term = (logS: number): number => {
    const s = Math.exp(logS);
    // a ratio whose square leaves the range of numbers has no density left
    const scaled = shape * s * s;
    return scaled > 0 && scaled < 1e300 ? 2 * gammaLogSlope(shape, scaled) * value(s) : 0;
  };
  const start = Math.log(peak);
  let sum = term(start);
  for (const direction of [-1, 1]) {
    let previous = sum;
    for (let index = 1; index < 100_000; index++) {
      const next = term(start + direction * index * step);
      sum += next;
      if (next <= previous && next <= 1e-18 * sum && index * step * Math.sqrt(degreesOfFreedom) > 3) break;
      previous = next;
    }
  }
  return sum * step;
}
