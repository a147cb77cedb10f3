import { normalUpperTail } from "../distributions/normal.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";
import { requireProportion } from "./require-proportion.ts";

/** Outcome of a test for a straight-line trend in proportions. */
export interface TrendTest {
  /** positive when the proportion rises with the score */
  z: number;
  /** z² */
  chiSquare: number;
  degreesOfFreedom: 1;
  /** two-sided */
  p: number;
  /** change of the proportion per unit of score, by weighted least squares */
  slope: number;
}

/**
 * Does a proportion rise or fall steadily with a dose?
 * @param successes count with the outcome at each dose
 * @param trials independent trials at each dose
 * @param scores the doses, in any unit and order, not all equal
 * @throws RangeError if the columns differ in length, a count is not whole, successes exceed trials, or scores or outcomes do not vary
 * @source Cochran 1954, Biometrics 10(4):417-451; Armitage 1955, Biometrics 11(3):375-386
 * @example trendTest([1, 2, 3], [10, 10, 10], [0, 1, 2]).slope // 0.1
 */
export function trendTest(
  successes: ReadonlyArray<number>,
  trials: ReadonlyArray<number>,
  scores: ReadonlyArray<number>,
): TrendTest {
  requireSameLength("trendTest", "successes", successes, "trials", trials);
  requireSameLength("trendTest", "successes", successes, "scores", scores);
  requireFinite("trendTest", "scores", scores);
  successes.forEach((count, index) => {
    requireProportion("trendTest", count, trials[index]!);
  });
  const total = trials.reduce((sum, value) => sum + value, 0);
  const overall = successes.reduce((sum, value) => sum + value, 0) / total;
  const centre = scores.reduce((sum, score, index) => sum + score * trials[index]!, 0) / total;
  let spread = 0;
  let product = 0;
  scores.forEach((score, index) => {
    spread += trials[index]! * (score - centre) ** 2;
    product += (successes[index]! - trials[index]! * overall) * (score - centre);
  });
  if (!(spread > 0)) throw new RangeError("trendTest: scores must not all be equal; received a spread of 0");
  if (!(overall > 0 && overall < 1)) {
    throw new RangeError(`trendTest: both outcomes must occur; received an overall proportion of ${overall}`);
  }
  const z = product / Math.sqrt(overall * (1 - overall) * spread);
  return {
    z,
    chiSquare: z * z,
    degreesOfFreedom: 1,
    p: Math.min(1, 2 * normalUpperTail(Math.abs(z))),
    slope: product / spread,
  };
}
