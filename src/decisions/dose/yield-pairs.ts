import { selectedQuantiles } from "../../statistics/descriptive/selected-quantiles.ts";
import type { CurveDraws } from "./curve-draws.ts";
import type { DoseDecision, YieldPair } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";

const shownAt = 0.975;
const probableAt = 0.8;

/**
 * Whether dose changes the yield of good trays: every pair of tested doses in the draws of the curve. Of the pairs that are
 * shown the one with the largest expected difference speaks, else the likeliest.
 */
export function yieldPairs({ grams, count }: CurveDraws, grid: DoseGrid): DoseDecision["yield"] {
  const pairs: YieldPair[] = [];
  const differences = new Float64Array(count);
  grid.tested.forEach((a, second) => {
    for (const b of grid.tested.slice(0, second)) {
      let above = 0;
      let sum = 0;
      for (let i = 0; i < count; i++) {
        const difference = grams[a * count + i]! - grams[b * count + i]!;
        differences[i] = difference;
        sum += difference;
        if (difference > 0) above++;
      }
      const [low, high] = selectedQuantiles(differences, [0.025, 0.975]);
      const mean = sum / count;
      const rises = 2 * above >= count;
      pairs.push({
        higher: grid.doses[rises ? a : b]!,
        lower: grid.doses[rises ? b : a]!,
        chance: Math.max(above, count - above) / count,
        difference: rises ? { mean, low: low!, high: high! } : { mean: -mean, low: -high!, high: -low! },
      });
    }
  });
  const shown = pairs.filter(({ chance }) => chance >= shownAt);
  const pair =
    shown.length > 0
      ? shown.reduce((best, one) => (one.difference.mean > best.difference.mean ? one : best))
      : pairs.reduce((best, one) => (one.chance > best.chance ? one : best));
  return { shown: pair.chance >= shownAt ? "yes" : pair.chance >= probableAt ? "probably" : "not shown", pair, pairs };
}
