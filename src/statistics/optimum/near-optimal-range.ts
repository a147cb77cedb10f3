import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { type BestOnRange, bestOnRange } from "./best-on-range.ts";

/** The doses that earn nearly as much as the best one. */
export interface NearOptimalRange {
  best: BestOnRange;
  /** profit a dose must reach: best less the share of its size */
  threshold: number;
  /** the stretch that holds the best dose */
  low: number;
  high: number;
  /** true where the stretch runs into the end of the range, so that doses beyond may do as well */
  reachesLowest: boolean;
  reachesHighest: boolean;
  /** every stretch that reaches the threshold, in order; more than one when profit has several hills */
  stretches: { low: number; high: number }[];
}

const gridPoints = 1000;

/**
 * Doses whose profit lies within a share of the best: usually wide, and more use than the best dose itself.
 * @param share 0.02 for "within 2 % of the best profit"; of its size, so that a loss has a range as well
 * @throws RangeError if the share is not between 0 and 1, the range is empty or profit is not finite
 * @example nearOptimalRange((dose) => 100 - (dose - 10) ** 2, 0, 20, 0.04).low // 8
 */
export function nearOptimalRange(
  profit: (dose: number) => number,
  low: number,
  high: number,
  share: number,
  extra: ReadonlyArray<number> = [],
): NearOptimalRange {
  requireOpenProbability("nearOptimalRange", "share", share);
  const best = bestOnRange(profit, low, high, extra);
  const threshold = best.value - share * Math.abs(best.value);
  const good = (dose: number): boolean => {
    const value = profit(dose);
    requireFinite("nearOptimalRange", `profit at ${dose}`, [value]);
    return value >= threshold;
  };
  const places = [
    ...Array.from({ length: gridPoints + 1 }, (_, k) =>
      k === gridPoints ? high : low + ((high - low) * k) / gridPoints,
    ),
    ...extra.filter((dose) => dose > low && dose < high),
    best.at,
  ].sort((a, b) => a - b);
  const stretches: { low: number; high: number }[] = [];
  let open: number | undefined;
  places.forEach((place, k) => {
    const within = place === best.at || good(place);
    if (within && open === undefined) open = k === 0 ? place : edge(good, place, places[k - 1]!);
    if (!within && open !== undefined) {
      stretches.push({ low: open, high: edge(good, places[k - 1]!, place) });
      open = undefined;
    }
  });
  if (open !== undefined) stretches.push({ low: open, high });
  const main = stretches.find((stretch) => stretch.low <= best.at && best.at <= stretch.high)!;
  return {
    best,
    threshold,
    low: main.low,
    high: main.high,
    reachesLowest: main.low <= low,
    reachesHighest: main.high >= high,
    stretches,
  };
}

/** The last good place between a good one and one that is not, by halving. */
function edge(good: (dose: number) => boolean, inside: number, outside: number): number {
  let [near, far] = [inside, outside];
  for (let round = 0; round < 60; round++) {
    const middle = (near + far) / 2;
    if (good(middle)) near = middle;
    else far = middle;
  }
  return near;
}
