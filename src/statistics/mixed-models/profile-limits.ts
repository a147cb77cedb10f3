/** Limits of a likelihood interval. */
export interface ProfileLimits {
  lower: number;
  upper: number;
}

const mostHalvings = 200;

/** Where an increasing function changes sign, by false position with halving of the stale end's value. */
function signChange(rises: (x: number) => number, low: number, high: number, atLow: number, atHigh: number): number {
  let [a, b, fa, fb] = [low, high, atLow, atHigh];
  let side = 0;
  for (let step = 0; step < mostHalvings && Math.abs(b - a) > 1e-11 * (Math.abs(a) + Math.abs(b)); step++) {
    // an end far away makes false position crawl, so every third step halves the bracket
    const x =
      step % 3 === 2 || !Number.isFinite(fa) || !Number.isFinite(fb) ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fx = rises(x);
    if (fx === 0) return x;
    if (fx > 0 === fb > 0) {
      [b, fb] = [x, fx];
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      [a, fa] = [x, fx];
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return (a + b) / 2;
}

/**
 * Both ends of the set of values whose profile deviance lies within `allowance` of the least.
 * @param excess profile deviance at a value, less the least deviance
 * @param estimate where the excess is 0
 * @param floor lowest value a parameter can take (0 for a variance); returned when the excess there is small enough
 * @param outwards the next value to try above a given one, on the way to the largest the parameter can take
 * @param ceiling largest value; returned when no trial value below it exceeds the allowance
 * @source Venzon and Moolgavkar 1988, Applied Statistics 37:87-94 (from memory)
 */
export function profileLimits(
  excess: (value: number) => number,
  estimate: number,
  allowance: number,
  floor: number,
  outwards: (value: number) => number,
  ceiling: number,
): ProfileLimits {
  let lower = floor;
  if (estimate > floor) {
    const atFloor = excess(floor) - allowance;
    if (atFloor > 0) {
      lower = signChange((value) => excess(value) - allowance, floor, estimate, atFloor, -allowance);
    }
  }
  let [inside, atInside] = [estimate, -allowance];
  for (let step = 0; step < 60; step++) {
    const outside = outwards(inside);
    if (!(outside < ceiling)) break;
    const atOutside = excess(outside) - allowance;
    if (atOutside > 0) {
      return { lower, upper: signChange((value) => excess(value) - allowance, inside, outside, atInside, atOutside) };
    }
    [inside, atInside] = [outside, atOutside];
  }
  return { lower, upper: ceiling };
}
