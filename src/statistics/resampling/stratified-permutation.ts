import { requireFinite, requireSameLength } from "../require-numbers.ts";
import { type PermutationLayout, type PermutationRows, permutationLayout } from "./permutation-layout.ts";
import type { PermutationOptions } from "./permutation-result.ts";
import { permuteLayout, type StratifiedPermutation } from "./permute-layout.ts";

/**
 * Permutation test of the straight-line change with an amount, dealt within blocks or to whole clusters.
 * @param rows response, amount and, where the trial had them, strata and clusters of each row
 * @param options exact when there are few enough ways to deal, else sampled with the seed given
 * @returns observed is the least-squares slope within strata, response per unit of the amount
 * @throws RangeError if the amount does not vary within any stratum, columns differ in length, a value is not finite, a
 *   cluster is mixed, or sampling is needed and no seed is given
 * @source Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:225-232
 * @example permuteSlope({ response: [1, 2, 4], amount: [0, 5, 10] }).observed // 0.3
 */
export function permuteSlope(
  rows: PermutationRows & { amount: ReadonlyArray<number> },
  options: PermutationOptions = {},
): StratifiedPermutation {
  const routine = "permuteSlope";
  requireSameLength(routine, "response", rows.response, "amount", rows.amount);
  requireFinite(routine, "amount", rows.amount);
  const amounts = [...new Set(rows.amount)].sort((a, b) => a - b);
  const number = new Map(amounts.map((amount, code) => [amount, code]));
  const codes = Int32Array.from(rows.amount, (amount) => number.get(amount)!);
  const layout = permutationLayout(routine, rows, codes, amounts.length);
  // responses are centred within strata, so shifting the amounts changes nothing but rounding
  const middle = (amounts[0]! + amounts.at(-1)!) / 2;
  const scores = Float64Array.from(amounts, (amount) => amount - middle);
  const information = withinSquares(layout, scores);
  if (!(information > 0)) {
    throw new RangeError(
      `${routine}: the amount must vary within a stratum; received ${amounts.length} amounts that do not`,
    );
  }
  const widest = Math.max(...scores.map(Math.abs));
  const statistic = {
    of: (sums: Float64Array) => {
      let product = 0;
      for (let code = 0; code < scores.length; code++) product += scores[code]! * sums[code]!;
      return product / information;
    },
    twoSided: true,
    tolerance: (1e-12 * widest * absoluteSum(layout)) / information,
  };
  return permuteLayout(routine, layout, statistic, options);
}

function absoluteSum(layout: PermutationLayout): number {
  return layout.centred.reduce((sum, value) => sum + Math.abs(value), 0);
}

/** Sum of squares of the scores about their mean in each stratum. */
function withinSquares({ codes, starts }: PermutationLayout, scores: Float64Array): number {
  let squares = 0;
  for (let s = 0; s + 1 < starts.length; s++) {
    const own = codes.subarray(starts[s]!, starts[s + 1]!);
    const mean = own.reduce((sum, code) => sum + scores[code]!, 0) / own.length;
    const constant = own.every((code) => code === own[0]);
    if (!constant) for (const code of own) squares += (scores[code]! - mean) ** 2;
  }
  return squares;
}
