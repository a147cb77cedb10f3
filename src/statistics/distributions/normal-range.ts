import { power } from "../power.ts";
import { normalCdf, normalDensity, normalUpperTail } from "./normal.ts";

/** The distribution of the largest minus the smallest of several independent standard normal values. */
export interface NormalRange {
  /** the chance of a range of w or less, w of 0 or more */
  lower(w: number): number;
  /** the chance of a range above w, exact also where it is tiny */
  upper(w: number): number;
}

/**
 * Sets up the distribution of the range of `count` standard normal values.
 * @param count a whole number of 2 or more
 * @returns its two tails, by the trapezoidal rule over the smallest value, whose error falls off exponentially with the step
 * @source the integral: Hartley 1942, Biometrika 32:334-348 (from memory)
 * @example normalRange(2).upper(0) // 1
 */
export function normalRange(count: number): NormalRange {
  const step = Math.min(0.2, 0.7 / Math.sqrt(count));
  const others = count - 1;
  const reach = 9;

  const lower = (w: number): number => {
    let sum = 0;
    for (let z = -reach; z <= reach; z += step) {
      const between = z + w / 2 < 0 ? normalCdf(z + w) - normalCdf(z) : normalUpperTail(z) - normalUpperTail(z + w);
      sum += normalDensity(z) * power(between, others);
    }
    return Math.min(1, count * step * sum);
  };

  // all values above z, less all values between z and z + w, without subtracting
  const upper = (w: number): number => {
    let sum = 0;
    let previous = 0;
    for (let z = -w / 2 - reach; z <= reach; z += step) {
      const above = normalUpperTail(z);
      const beyond = normalUpperTail(z + w);
      if (above === 0) break;
      const share = Math.min(1, beyond / above);
      const term = normalDensity(z) * -Math.expm1(others * Math.log1p(-share)) * power(above, others);
      sum += term;
      if (z > 0 && term < previous && term < 1e-18 * sum) break;
      previous = term;
    }
    return Math.min(1, count * step * sum);
  };
  return { lower, upper };
}
