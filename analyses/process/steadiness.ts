import type { Memo } from "../../src/records/memo.ts";
import {
  type IndividualsChart,
  individualsChart,
  meanRangeOfTwo,
} from "../../src/statistics/control/individuals-chart.ts";
import { runRules } from "../../src/statistics/control/run-rules.ts";
import {
  type WeightedAveragePoint,
  weightedAverageChart,
} from "../../src/statistics/control/weighted-average-chart.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** Weight of the newest value in the moving average. */
const averageWeight = 0.2;

/** A measure in time order looked at for change. */
export interface Steadiness {
  kind: "watched";
  chart: IndividualsChart;
  averages: WeightedAveragePoint[];
  /** position → what is unusual there, first rule first */
  signals: Map<number, string>;
  /** largest distance from the centre as a share of its limit: single values, and moving averages */
  furthest: { single: number; average: number };
  /** chance that a steady process of as many values comes as far from its centre on either chart */
  p: number;
  /** where a change would lie, if there was one: from `at` on, or at `at` alone */
  change: { kind: "lasting" | "one cook"; at: number };
}

/**
 * The furthest single value and moving average as shares of their limits; the limits are those of `individualsChart` and
 * `weightedAverageChart`, in one pass because thousands of processes are simulated.
 */
function furthestShares(values: Float64Array): Steadiness["furthest"] {
  const count = values.length;
  let [sum, ranges] = [0, 0];
  for (let at = 0; at < count; at++) {
    sum += values[at]!;
    if (at > 0) ranges += Math.abs(values[at]! - values[at - 1]!);
  }
  const centre = sum / count;
  const reach = (3 * ranges) / (count - 1) / meanRangeOfTwo;
  const furthest = { single: 0, average: 0 };
  let [average, left] = [0, 1];
  for (let at = 0; at < count; at++) {
    const away = values[at]! - centre;
    average = averageWeight * away + (1 - averageWeight) * average;
    left *= (1 - averageWeight) ** 2;
    const drift = Math.abs(average) / (reach * Math.sqrt((averageWeight / (2 - averageWeight)) * (1 - left)));
    furthest.single = Math.max(furthest.single, Math.abs(away) / reach);
    furthest.average = Math.max(furthest.average, drift);
  }
  return furthest;
}

/** The step in level, or the one odd value, that takes most of the variation away. */
function likeliestChange(values: ReadonlyArray<number>, centre: number): Steadiness["change"] {
  const count = values.length;
  let best: Steadiness["change"] = { kind: "one cook", at: 0 };
  let most = 0;
  let before = 0;
  values.forEach((value, at) => {
    if (at > 0) {
      const gain = (before * before * count) / (at * (count - at));
      if (gain > most) [best, most] = [{ kind: "lasting", at }, gain];
    }
    const away = value - centre;
    const alone = (away * away * count) / (count - 1);
    // at either end a step and an odd value are the same thing, and one cook does not make a step
    if (alone >= most * (1 - 1e-9)) [best, most] = [{ kind: "one cook", at }, Math.max(alone, most)];
    before += away;
  });
  return best;
}

/** Simulated steady processes: enough for p near 0.01, fewer where each is long. */
const drawsFor = (length: number): number => Math.max(399, Math.min(1999, Math.floor(1e6 / length)));

/** Furthest share of either chart in simulated steady processes, ascending; the same for every measure with as many values. */
function steadyShares(length: number, seed: number): Float64Array {
  const random = seededRandom(seed);
  const values = new Float64Array(length);
  return Float64Array.from({ length: drawsFor(length) }, () => {
    for (let at = 0; at < length; at++) values[at] = random.normal();
    const { single, average } = furthestShares(values);
    return Math.max(single, average);
  }).sort();
}

/**
 * Looks at values in time order on a chart of single values with moving-range limits and on a chart of exponentially weighted
 * moving averages, and works out how often a steady process would look as bad: limits of three standard deviations set from
 * few values are crossed far more often than tables for long runs say.
 * @param values two or more; in one unit
 * @returns "flat" where neighbours never differ, so that no limits can be set
 * @throws RangeError if there are fewer than two values or one is not finite
 * @source individuals and moving-average charts: NIST/SEMATECH e-Handbook, sections 6.3.2.2 and 6.3.2.4; chance by
 *   simulation of independent normal values (Barnard 1963, Journal of the Royal Statistical Society B 25:294; from memory)
 */
export function steadiness(values: ReadonlyArray<number>, seed: number, memo: Memo): Steadiness | { kind: "flat" } {
  const chart = individualsChart(values);
  // differences in the last digits of the arithmetic are none
  if (chart.sigma <= 1e-10 * Math.abs(chart.centre)) return { kind: "flat" };
  const averages = weightedAverageChart(values, {
    weight: averageWeight,
    target: chart.centre,
    standardDeviation: chart.sigma,
  });
  const furthest = furthestShares(Float64Array.from(values));
  const signals = new Map<number, string>();
  for (const { rule, to } of runRules(values, chart.centre, chart.sigma)) if (!signals.has(to)) signals.set(to, rule);
  averages.forEach(({ outside }, at) => {
    if (outside && !signals.has(at)) signals.set(at, "moving average beyond its limits");
  });
  const worst = Math.max(furthest.single, furthest.average);
  const steady = memo.once([], `steady processes of ${values.length} values, seed ${seed}`, () =>
    steadyShares(values.length, seed),
  );
  const asFar = steady.reduce((count, share) => count + (share >= worst ? 1 : 0), 0);
  return {
    kind: "watched",
    chart,
    averages,
    signals,
    furthest,
    p: (asFar + 1) / (steady.length + 1),
    change: likeliestChange(values, chart.centre),
  };
}
