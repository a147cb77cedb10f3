import { mean } from "../descriptive/mean.ts";
import { normalUpperTail } from "../distributions/normal.ts";
import { requireSameLength, requireSample } from "../require-numbers.ts";

/** A slope judged by the moments of its permutations. */
export interface SlopeByMoments {
  /** least-squares slope, response per unit of the amount */
  observed: number;
  /** observed slope over its standard deviation over all permutations; 0 where the response does not vary */
  z: number;
  /** two-sided */
  p: number;
}

/**
 * Permutation test of the straight-line change with an amount from the exact mean and variance of the slope over all
 * permutations, taken as normal: for rows so many that dealing them again would show the same (some hundreds).
 * @param response one value per row; @param amount one value per row
 * @throws RangeError if the columns differ in length, there are fewer than two rows, a value is not finite, or the amount does not vary
 * @source Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:225-232
 * @example slopeByMoments([1, 2, 4], [0, 5, 10]).observed // 0.3
 */
export function slopeByMoments(response: ReadonlyArray<number>, amount: ReadonlyArray<number>): SlopeByMoments {
  requireSample("slopeByMoments", "response", response, 2);
  requireSample("slopeByMoments", "amount", amount, 2);
  requireSameLength("slopeByMoments", "response", response, "amount", amount);
  const count = response.length;
  const [middle, centre] = [mean(response), mean(amount)];
  let [product, squares, information] = [0, 0, 0];
  response.forEach((value, row) => {
    const away = amount[row]! - centre;
    product += away * (value - middle);
    squares += (value - middle) ** 2;
    information += away * away;
  });
  if (!(information > 0)) throw new RangeError(`slopeByMoments: the amount must vary; received ${count} alike`);
  const z = squares === 0 ? 0 : product / Math.sqrt((squares * information) / (count - 1));
  return { observed: product / information, z, p: Math.min(1, 2 * normalUpperTail(Math.abs(z))) };
}
