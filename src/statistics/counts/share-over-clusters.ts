import { stirlingError } from "../distributions/stirling-error.ts";
import type { SeededRandom } from "../random/seeded-random.ts";
import { requireOpenProbability, requireSameLength } from "../require-numbers.ts";
import { requireProportion } from "./require-proportion.ts";

/** What is known of the share of units with an outcome, and of how far the units of a cluster go together. */
export interface ShareOverClusters {
  /** ends that the share lies between with the chance wanted, each left out alike; 0 where no unit has the outcome, 1 where all have */
  limits(level: number): { lower: number; upper: number };
  /** chance that units of a cluster go together at all, from {@link supposedTogether} before any is seen */
  together: number;
  /** a share, and the correlation of two units of one cluster, as likely as they are */
  draw(random: SeededRandom): { share: number; likeness: number };
}

/** Chance before any unit is seen that those of a cluster go together. Ours: test/simulation holds what it gives. */
export const supposedTogether = 0.7;
/** How far they then may, as correlations of two units: the more the less likely, as a beta variable of shapes 1 and 2. Ours. */
const likenesses = [0.05, 0.15, 0.25, 0.35, 0.45, 0.55, 0.65, 0.75, 0.85, 0.95];
const priorOf = (likeness: number): number =>
  likeness === 0 ? 1 - supposedTogether : (supposedTogether * (1 - likeness) * 2) / likenesses.length;

/** Up to so many units a sum of logarithms is kept for every count; beyond, each is worked out by itself. */
const mostKept = 400;
const logGamma = (x: number): number => stirlingError(x) + (x - 0.5) * Math.log(x) - x;

/** log of a (a + 1) ... (a + count - 1) for counts up to `most` */
function logRising(a: number, most: number): (count: number) => number {
  if (most > mostKept) return (count) => (count === 0 ? 0 : logGamma(a + count) - logGamma(a));
  const sums = new Float64Array(most + 1);
  for (let i = 0; i < most; i++) sums[i + 1] = sums[i]! + Math.log(a + i);
  return (count) => sums[count]!;
}

/** Clusters of one size and count, and how many there are. */
interface Kind {
  count: number;
  units: number;
  clusters: number;
}

function logLikelihood(kinds: ReadonlyArray<Kind>, share: number, likeness: number): number {
  let sum = 0;
  if (likeness === 0) {
    for (const { count, units, clusters } of kinds) {
      sum += clusters * (count * Math.log(share) + (units - count) * Math.log(1 - share));
    }
    return sum;
  }
  const both = 1 / likeness - 1;
  const most = kinds.reduce((top, { units }) => Math.max(top, units), 0);
  const [lost, kept, all] = [share * both, (1 - share) * both, both].map((a) => logRising(a, most));
  for (const { count, units, clusters } of kinds) {
    sum += clusters * (lost!(count) + kept!(units - count) - all!(units));
  }
  return sum;
}

/** Points from one angle to another, and the share at each: evenly over angles they are weighed as Jeffreys' prior has it. */
const shareAt = (angle: number): number => Math.sin(angle) ** 2;
const points = 80;

/** Weights of every likeness at every angle, those of one likeness after the other. */
function weightsOver(kinds: ReadonlyArray<Kind>, low: number, step: number): { weights: number[][]; sums: number[] } {
  const logs = [0, ...likenesses].map((likeness) => {
    const prior = Math.log(priorOf(likeness));
    return Array.from(
      { length: points },
      (_, i) => prior + logLikelihood(kinds, shareAt(low + (i + 0.5) * step), likeness),
    );
  });
  const most = logs.reduce((top, row) => row.reduce((one, log) => Math.max(one, log), top), Number.NEGATIVE_INFINITY);
  const weights = logs.map((row) => row.map((log) => Math.exp(log - most)));
  return { weights, sums: Array.from({ length: points }, (_, i) => weights.reduce((sum, row) => sum + row[i]!, 0)) };
}

/** The weights over the angles that hold nearly all of them. */
function narrowed(kinds: ReadonlyArray<Kind>): { low: number; step: number; weights: number[][]; sums: number[] } {
  let [low, step] = [0, Math.PI / 2 / points];
  for (;;) {
    const over = weightsOver(kinds, low, step);
    const most = Math.max(...over.sums);
    const first = Math.max(0, over.sums.findIndex((sum) => sum > 1e-6 * most) - 1);
    const last = Math.min(points - 1, over.sums.findLastIndex((sum) => sum > 1e-6 * most) + 1);
    if (last - first + 1 > points / 2) return { low, step, ...over };
    [low, step] = [low + first * step, ((last - first + 1) * step) / points];
  }
}

/**
 * The share of units with an outcome when units come in clusters (trays of one cook), whether or not those of a cluster go together:
 * each cluster's own share is a beta variable around the common one.
 * @param successes count with the outcome in each cluster
 * @param units how many units each cluster holds
 * @throws RangeError if the columns differ in length or are empty, a count is not whole or successes exceed units
 * @source beta-binomial: Skellam 1948, Journal of the Royal Statistical Society B 10(2):257-261; its posterior on a grid: Gelman
 *   et al. 2013, Bayesian Data Analysis, section 5.3 (from memory); Jeffreys' prior of the share, that of the likeness is ours
 * @example shareOverClusters([0, 2], [4, 4]).limits(0.95).upper > 0.6 // true
 */
export function shareOverClusters(successes: ReadonlyArray<number>, units: ReadonlyArray<number>): ShareOverClusters {
  requireSameLength("shareOverClusters", "successes", successes, "units", units);
  if (units.length === 0) throw new RangeError("shareOverClusters: needs a cluster; received none");
  const kinds = new Map<string, Kind>();
  let [all, total] = [0, 0];
  successes.forEach((count, i) => {
    requireProportion("shareOverClusters", count, units[i]!);
    const key = `${count} of ${units[i]}`;
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, { count, units: units[i]!, clusters: 1 });
    else kind.clusters++;
    all += count;
    total += units[i]!;
  });
  const { low, step, weights, sums } = narrowed([...kinds.values()]);
  const sum = sums.reduce((whole, one) => whole + one, 0);
  const quantile = (p: number): number => {
    let left = p * sum;
    for (let i = 0; i < points; i++) {
      if (left <= sums[i]!) return shareAt(low + (i + left / sums[i]!) * step);
      left -= sums[i]!;
    }
    return shareAt(low + points * step);
  };
  const flat = weights.flat();
  return {
    limits: (level) => {
      requireOpenProbability("shareOverClusters", "level", level);
      return { lower: all === 0 ? 0 : quantile((1 - level) / 2), upper: all === total ? 1 : quantile((1 + level) / 2) };
    },
    together: 1 - weights[0]!.reduce((whole, one) => whole + one, 0) / sum,
    draw: (random) => {
      let left = random.uniform() * sum;
      let at = flat.findIndex((weight) => {
        left -= weight;
        return left < 0;
      });
      if (at < 0) at = flat.length - 1;
      const likeness = at < points ? 0 : likenesses[Math.floor(at / points) - 1]!;
      return { share: shareAt(low + ((at % points) + random.uniform()) * step), likeness };
    },
  };
}
