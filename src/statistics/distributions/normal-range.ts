import { power } from "../power.ts";
import { normalDensity, normalUpperTail } from "./normal.ts";

/**
 * The chance that the largest and the smallest of `count` independent standard normal values lie more than w apart, exact
 * also where it is tiny.
 * @param count a whole number of 2 or more
 * @returns the chance for w of 0 or more, by the trapezoidal rule over the smallest value, whose error falls off
 *   exponentially with the step
 * @source the integral: Hartley 1942, Biometrika 32:334-348 (from memory)
 * @example normalRangeUpperTail(2)(0) // 1
 */
export function normalRangeUpperTail(count: number): (w: number) => number {
  const step = Math.min(0.2, 0.7 / Math.sqrt(count));
  const others = count - 1;
  const reach = 9;

  // all values above z, less all values between z and z + w, without subtracting
  return (w) => {
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
}
