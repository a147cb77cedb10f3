import { scoreLimits } from "../../../statistics/counts/proportion-interval.ts";
import { studentTQuantile } from "../../../statistics/distributions/student-t.ts";
import type { Interval, StandardError } from "../decision.ts";
import type { Estimate } from "../estimate.ts";

/** Trays of one level. */
export interface Counts {
  good: number;
  started: number;
}

/** A difference per started tray. */
export interface StartedDifference extends Estimate {
  /** interval at a significance level, 0.05 for 95 % */
  boundsAt(significance: number): Interval;
  /** smallest significance level whose interval leaves out 0 */
  p: number;
}

/** Trays of two levels in one cook, or one part of it. */
export interface CountedPair {
  low: Counts;
  high: Counts;
}

/** Groups up to which losses are not judged to cluster. */
const fewGroups = 2;

/**
 * Difference of two levels per started tray: difference of good trays times the mean share good, plus the mean of good trays
 * times the difference of shares, their intervals put together by their distances from the estimates.
 * @param input `counts` of each cook; `strata` the same of each cook's parts, where shares are to be compared inside these; `means` of good trays, one of them undefined where a level has none; `good` the error of
 *   the difference of good trays and `estimate` that difference; where losses alone decide, the error of the one mean and no difference
 * @source Zou and Donner 2008, Statistics in Medicine 27:1693-1702; Newcombe 1998, Statistics in Medicine 17:873-890, with the
 *   distances widened by how much losses differ between cooks (the project's own); shares over strata with weights of Cochran
 *   1954, Biometrics 10:417-451, and Kish's effective counts (from memory)
 */
export function startedDifference(input: {
  counts: ReadonlyArray<CountedPair>;
  strata?: ReadonlyArray<CountedPair> | undefined;
  means: { low: number | undefined; high: number | undefined };
  good: StandardError | undefined;
  estimate: number | undefined;
}): StartedDifference {
  const { counts, strata = [], means, good, estimate: goodDifference } = input;
  const [low, high] = overStrata(strata) ?? [sum(counts.map((cook) => cook.low)), sum(counts.map((cook) => cook.high))];
  const shareLow = low.good / low.started;
  const shareHigh = high.good / high.started;
  const share = (shareLow + shareHigh) / 2;
  const worth = goodDifference === undefined ? Math.abs(shareHigh - shareLow) : share;
  const known = [means.low, means.high].filter((mean) => mean !== undefined);
  const mean = known.reduce((total, value) => total + value, 0) / known.length;
  const spread = clustering(counts, shareLow, shareHigh);
  const estimate = share * (goodDifference ?? 0) + mean * (shareHigh - shareLow);
  const boundsAt = (significance: number): Interval => {
    const a = scoreLimits(low.good, low.started, 1 - significance);
    const b = scoreLimits(high.good, high.started, 1 - significance);
    const half =
      good === undefined || good.standardError === 0
        ? 0
        : worth * studentTQuantile(1 - significance / 2, good.degreesOfFreedom) * good.standardError;
    const size = Math.abs(mean) * Math.sqrt(spread);
    return {
      lower: estimate - Math.hypot(half, size * Math.hypot(shareHigh - b.lower, a.upper - shareLow)),
      upper: estimate + Math.hypot(half, size * Math.hypot(b.upper - shareHigh, shareLow - a.lower)),
    };
  };
  const degreesOfFreedom = good?.degreesOfFreedom ?? 1e6;
  const bounds = boundsAt(0.05);
  const distance = estimate >= 0 ? estimate - bounds.lower : bounds.upper - estimate;
  return {
    estimate,
    standardError: distance / studentTQuantile(0.975, degreesOfFreedom),
    degreesOfFreedom,
    boundsAt,
    p: smallestLeavingOutZero(estimate, boundsAt),
  };
}

/** Shares as if both levels lay alike over the strata, from as many trays as they are worth; undefined where none has both. */
function overStrata(strata: ReadonlyArray<CountedPair>): [Counts, Counts] | undefined {
  const both = strata.filter(({ low, high }) => low.started > 0 && high.started > 0);
  if (both.length === 0) return undefined;
  const weights = both.map(({ low, high }) => (low.started * high.started) / (low.started + high.started));
  const total = weights.reduce((all, weight) => all + weight, 0);
  const worth = (of: (pair: CountedPair) => Counts): Counts => {
    let [share, square] = [0, 0];
    both.forEach((pair, i) => {
      const { good, started } = of(pair);
      const weight = weights[i]! / total;
      share += (weight * good) / started;
      square += weight ** 2 / started;
    });
    // a share of 1 is no more than that, whatever rounding does
    return { good: Math.min(1, share) / square, started: 1 / square };
  };
  return [worth(({ low }) => low), worth(({ high }) => high)];
}

function sum(list: ReadonlyArray<Counts>): Counts {
  return list.reduce((total, { good, started }) => ({ good: total.good + good, started: total.started + started }), {
    good: 0,
    started: 0,
  });
}

/** How many times more the shares' difference varies over cooks than trays lost one by one would make it. */
function clustering(counts: ReadonlyArray<CountedPair>, shareLow: number, shareHigh: number): number {
  const both = counts.filter(({ low, high }) => low.started > 0 && high.started > 0);
  if (both.length <= fewGroups) return 1;
  const differences = both.map(({ low, high }) => high.good / high.started - low.good / low.started);
  const mean = differences.reduce((total, value) => total + value, 0) / differences.length;
  const variance = differences.reduce((total, value) => total + (value - mean) ** 2, 0) / (differences.length - 1);
  const byChance =
    both.reduce(
      (total, { low, high }) =>
        total + (shareLow * (1 - shareLow)) / low.started + (shareHigh * (1 - shareHigh)) / high.started,
      0,
    ) / both.length;
  return byChance > 0 ? Math.max(1, variance / byChance) : 1;
}

/** Bisection on the logarithm of the significance level: intervals narrow as it grows. */
function smallestLeavingOutZero(estimate: number, boundsAt: (significance: number) => Interval): number {
  const leavesOut = (significance: number): boolean => {
    const { lower, upper } = boundsAt(significance);
    return estimate > 0 ? lower > 0 : upper < 0;
  };
  let [inside, outside] = [Math.log(1e-12), Math.log(1 - 1e-9)];
  if (estimate === 0 || !leavesOut(Math.exp(outside))) return 1;
  if (leavesOut(Math.exp(inside))) return Math.exp(inside);
  for (let step = 0; step < 40; step++) {
    const middle = (inside + outside) / 2;
    if (leavesOut(Math.exp(middle))) outside = middle;
    else inside = middle;
  }
  return Math.exp(outside);
}
