import { seededRandom } from "../random/seeded-random.ts";
import { requireCount } from "../require-numbers.ts";
import type { PermutationLayout } from "./permutation-layout.ts";
import {
  type PermutationOptions,
  type PermutationResult,
  permutationResult,
  usualDraws,
  usualExactUpTo,
} from "./permutation-result.ts";

/** A statistic of the sums of the centred responses by treatment. */
export interface PermutedStatistic {
  /** 0, or least, when the sums are all 0 */
  of(sums: Float64Array): number;
  /** whether values far below 0 are as extreme as values far above */
  twoSided: boolean;
  /** rounding of one evaluation */
  tolerance: number;
}

/** A permutation test of treatments dealt within strata. */
export interface StratifiedPermutation extends PermutationResult {
  /** units permuted: rows, or clusters */
  units: number;
  /** different ways to deal, looked at or not; 1 over this bounds p from below */
  possible: number;
}

/**
 * Re-deals the treatments within strata, all ways or at random, and counts how often the statistic is as extreme as observed.
 * @throws RangeError if sampling is needed and no seed is given, or `draws` is not a whole number above 0
 * @internal
 */
export function permuteLayout(
  routine: string,
  layout: PermutationLayout,
  statistic: PermutedStatistic,
  options: PermutationOptions,
): StratifiedPermutation {
  const { draws = usualDraws, exactUpTo = usualExactUpTo, seed } = options;
  requireCount(routine, "draws", draws, 1);
  const { centred, codes, possible } = layout;
  const sums = new Float64Array(layout.codeCount);
  sumByCode(centred, codes, sums);
  const observed = statistic.of(sums);
  const counts = { extreme: 0, atLeast: 0, atMost: 0, looked: 0 };
  const { twoSided, tolerance } = statistic;
  const look = (): void => {
    const value = statistic.of(sums);
    counts.looked++;
    if (value >= observed - tolerance) counts.atLeast++;
    if (value <= observed + tolerance) counts.atMost++;
    if (twoSided ? Math.abs(value) >= Math.abs(observed) - tolerance : value >= observed - tolerance) counts.extreme++;
  };
  if (possible <= exactUpTo) {
    everyDeal(layout, sums, look);
    return { ...permutationResult(observed, counts, undefined), units: centred.length, possible };
  }
  if (seed === undefined) {
    throw new RangeError(
      `${routine}: a seed is needed to sample from ${possible} arrangements, more than exactUpTo ${exactUpTo}; received none`,
    );
  }
  const random = seededRandom(seed);
  const dealt = codes.slice();
  for (let draw = 0; draw < draws; draw++) {
    shuffleWithin(dealt, layout.starts, random.integer);
    sumByCode(centred, dealt, sums);
    look();
  }
  return { ...permutationResult(observed, counts, seed), units: centred.length, possible };
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
