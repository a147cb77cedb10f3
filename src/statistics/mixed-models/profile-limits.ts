/** Limits of a likelihood interval. */
export interface ProfileLimits {
  lower: number;
  upper: number;
}

const mostHalvings = 200;
const relativeWidth = 1e-9;

/** Where an increasing function changes sign, by false position with halving of the stale end's value. */
function signChange(rises: (x: number) => number, low: number, high: number, atLow: number, atHigh: number): number {
  let [a, b, fa, fb] = [low, high, atLow, atHigh];
  let side = 0;
  for (let step = 0; step < mostHalvings && Math.abs(b - a) > relativeWidth * (Math.abs(a) + Math.abs(b)); step++) {
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

/** Where a parameter can go from its estimate. */
export interface ProfileRange {
  /** lowest value it can take (0 for a variance between groups); undefined when it can only come near its lowest */
  floor?: number;
  /** the next value to try below a given one; used when there is no floor */
  downwards: (value: number) => number;
  /** the next value to try above a given one */
  upwards: (value: number) => number;
  /** largest value; the upper limit when no trial value below it exceeds the allowance */
  ceiling: number;
}

const mostTrials = 45;

/**
 * Both ends of the set of values whose profile deviance lies within `allowance` of the least.
 * @param excess profile deviance at a value, less the least deviance
 * @param estimate where the excess is 0
 * @source Venzon and Moolgavkar 1988, Applied Statistics 37(1):87-94
 * @internal
 */
export function profileLimits(
  excess: (value: number) => number,
  estimate: number,
  allowance: number,
  range: ProfileRange,
): ProfileLimits {
  const over = (value: number): number => excess(value) - allowance;
  const search = (next: (value: number) => number, end: number): number => {
    let [inside, atInside] = [estimate, -allowance];
    for (let trial = 0; trial < mostTrials; trial++) {
      const outside = next(inside);
      if (end > estimate ? !(outside < end) : !(outside > end)) break;
      const atOutside = over(outside);
      if (atOutside > 0) return signChange(over, inside, outside, atInside, atOutside);
      [inside, atInside] = [outside, atOutside];
    }
    return end;
  };
  const upper = search(range.upwards, range.ceiling);
  if (range.floor === undefined) return { lower: search(range.downwards, 0), upper };
  if (!(estimate > range.floor)) return { lower: range.floor, upper };
  const atFloor = over(range.floor);
  const lower = atFloor > 0 ? signChange(over, range.floor, estimate, atFloor, -allowance) : range.floor;
  return { lower, upper };
}
