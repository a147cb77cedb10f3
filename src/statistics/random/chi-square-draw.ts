import { power } from "../power.ts";
import { requirePositive } from "../require-numbers.ts";
import type { SeededRandom } from "./seeded-random.ts";

/**
 * One draw from a chi-square distribution.
 * @param degreesOfFreedom above 0, whole or not
 * @param random the stream to draw from
 * @returns a number above 0
 * @throws RangeError if degreesOfFreedom is not a number above 0
 * @source twice a gamma variable of shape df / 2: Marsaglia and Tsang 2000, ACM Transactions on Mathematical Software
 *   26(3):363-372; a shape below 1 is raised by 1 and the draw multiplied by U^(1 / shape), same paper
 * @example chiSquareDraw(7, seededRandom(1)) > 0 // true
 */
export function chiSquareDraw(degreesOfFreedom: number, random: SeededRandom): number {
  requirePositive("chiSquareDraw", "degreesOfFreedom", degreesOfFreedom);
  const shape = degreesOfFreedom / 2;
  const raised = shape < 1 ? shape + 1 : shape;
  const d = raised - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = random.normal();
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const u = random.uniform();
    if (Math.log(u) < (x * x) / 2 + d - d * v + d * Math.log(v)) {
      const boost = shape < 1 ? power(1 - random.uniform(), 1 / shape) : 1;
      return 2 * d * v * boost;
    }
  }
}
