import { seededRandom } from "../random/seeded-random.ts";
import { requireCount, requireFinite, requireSameLength } from "../require-numbers.ts";
import { type PermutationLayout, type PermutationRows, permutationLayout } from "./permutation-layout.ts";

/** How a permutation test goes about it. */
export interface PermutationOptions {
  /** of the random stream, needed when there are too many arrangements to look at all */
  seed?: number;
  /** random arrangements when sampling; 9999 unless stated */
  draws?: number;
  /** up to this many arrangements all are looked at; 200,000 unless stated */
  exactUpTo?: number;
}

/**
 * Permutation test of the straight-line change with an amount, dealt within blocks or to whole clusters: all ways, or at
 * random. A sampled p counts the observed arrangement as one of the draws, (b + 1) / (m + 1): it can never be 0 and its test
 * never exceeds its level.
 * @param rows response, amount and, where the trial had them, strata and clusters of each row
 * @param options exact when there are few enough ways to deal, else sampled with the seed given
 * @returns observed is the least-squares slope within strata, response per unit of the amount; p the share of arrangements
 *   whose slope is at least as far from 0
 * @throws RangeError if the amount does not vary within any stratum, columns differ in length, a value is not finite, a
 *   cluster is mixed, or sampling is needed and no seed is given
 * @source Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:225-232; sampled p: Phipson and Smyth
 *   2010, Statistical Applications in Genetics and Molecular Biology 9(1), article 39
 * @example permuteSlope({ response: [1, 2, 4], amount: [0, 5, 10] }).observed // 0.3
 */
export function permuteSlope(
  rows: PermutationRows & { amount: ReadonlyArray<number> },
  options: PermutationOptions = {},
): { observed: number; p: number } {
  const routine = "permuteSlope";
  const { draws = 9999, exactUpTo = 200_000, seed } = options;
  requireCount(routine, "draws", draws, 1);
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
  const sums = new Float64Array(amounts.length);
  const slope = (): number => {
    let product = 0;
    for (let code = 0; code < scores.length; code++) product += scores[code]! * sums[code]!;
    return product / information;
  };
  sumByCode(layout.centred, layout.codes, sums);
  const observed = slope();
  const tolerance = (1e-12 * Math.max(...scores.map(Math.abs)) * absoluteSum(layout)) / information;
  let [extreme, looked] = [0, 0];
  const look = (): void => {
    looked++;
    if (Math.abs(slope()) >= Math.abs(observed) - tolerance) extreme++;
  };
  if (layout.possible <= exactUpTo) {
    everyDeal(layout, sums, look);
    return { observed, p: extreme / looked };
  }
  if (seed === undefined) {
    throw new RangeError(
      `${routine}: a seed is needed to sample from ${layout.possible} arrangements, more than exactUpTo ${exactUpTo}; received none`,
    );
  }
  const random = seededRandom(seed);
  const dealt = layout.codes.slice();
  for (let draw = 0; draw < draws; draw++) {
    shuffleWithin(dealt, layout.starts, random.integer);
    sumByCode(layout.centred, dealt, sums);
    look();
  }
  return { observed, p: (extreme + 1) / (looked + 1) };
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

function sumByCode(centred: Float64Array, codes: Int32Array, sums: Float64Array): void {
  sums.fill(0);
  for (let i = 0; i < centred.length; i++) sums[codes[i]!]! += centred[i]!;
}

function shuffleWithin(codes: Int32Array, starts: Int32Array, integer: (below: number) => number): void {
  for (let s = 0; s + 1 < starts.length; s++) {
    const start = starts[s]!;
    for (let last = starts[s + 1]! - 1; last > start; last--) {
      const other = start + integer(last - start + 1);
      const code = codes[last]!;
      codes[last] = codes[other]!;
      codes[other] = code;
    }
  }
}

/** Visits every different deal with `sums` holding its sums by treatment. */
function everyDeal(layout: PermutationLayout, sums: Float64Array, visit: () => void): void {
  const { centred, starts, codeCount, counts } = layout;
  const left = counts.slice();
  sums.fill(0);
  const descend = (unit: number, stratum: number): void => {
    if (unit === centred.length) {
      visit();
      return;
    }
    const own = unit === starts[stratum + 1] ? stratum + 1 : stratum;
    for (let code = 0; code < codeCount; code++) {
      const place = own * codeCount + code;
      if (left[place] === 0) continue;
      const before = sums[code]!;
      left[place]!--;
      sums[code] = before + centred[unit]!;
      descend(unit + 1, own);
      sums[code] = before;
      left[place]!++;
    }
  };
  descend(0, 0);
}
