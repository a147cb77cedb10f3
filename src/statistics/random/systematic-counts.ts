import { requireCount, requireSample } from "../require-numbers.ts";
import type { SeededRandom } from "./seeded-random.ts";

/**
 * Shares a number of draws out over weighted parts with one random start and even steps, so that each part gets its
 * expected number to within one draw.
 * @param weights 0 or more each, of any scale, at least one above 0
 * @param draws how many to share out, 1 or more
 * @param random one uniform number is taken from it
 * @returns how many draws each part gets, in the order of `weights`, together `draws`
 * @throws RangeError if a weight is below 0 or not finite, all are 0, or draws is not a whole number of 1 or more
 * @source systematic resampling: Kitagawa 1996, Journal of Computational and Graphical Statistics 5(1):1-25
 * @example systematicCounts([1, 3], 4, seededRandom(1)) // [1, 3]
 */
export function systematicCounts(weights: ArrayLike<number>, draws: number, random: SeededRandom): Int32Array {
  requireCount("systematicCounts", "draws", draws, 1);
  requireSample("systematicCounts", "weights", weights as ReadonlyArray<number>, 1);
  let total = 0;
  let last = -1;
  for (let part = 0; part < weights.length; part++) {
    const weight = weights[part]!;
    if (weight < 0) throw new RangeError(`systematicCounts: weights must be 0 or more; received ${weight}`);
    if (weight > 0) last = part;
    total += weight;
  }
  if (last < 0) throw new RangeError("systematicCounts: at least one weight must be above 0; received only 0");
  const counts = new Int32Array(weights.length);
  const start = random.uniform();
  let reached = 0;
  let taken = 0;
  for (let part = 0; part <= last; part++) {
    reached += weights[part]!;
    const upTo = part === last ? draws : Math.min(draws, Math.ceil((reached / total) * draws - start));
    if (upTo > taken) {
      counts[part] = upTo - taken;
      taken = upTo;
    }
  }
  return counts;
}
