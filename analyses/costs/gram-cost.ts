import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import type { GramCost } from "../../src/costing/trays/cost-account.ts";
import { type RatioOverCooks, ratioOverCooks } from "./ratio-over-cooks.ts";

/** What a gram cost with all losses, and how far another set of trays like these could differ. */
export interface GramCostInterval extends RatioOverCooks {
  kind: "interval";
}

const known = new WeakMap<GramCost, Map<string, GramCostInterval>>();

/**
 * Cost of a gram as a ratio of sums with Fieller's interval, over cooks (or trays where cooks are few or not recorded).
 * Asked again of the same cost it gives the same object.
 * @param seed for the interval that redrawing whole cooks gives; absent: only Fieller's
 * @returns the costing's own reason where there is no cost
 */
export function gramCostInterval(
  cost: GramCost | CostCannotTell,
  level: number,
  seed?: number,
): GramCostInterval | CostCannotTell {
  if (cost.kind === "cannot-tell") return cost;
  const before = known.get(cost) ?? new Map<string, GramCostInterval>();
  known.set(cost, before);
  const key = `${level} ${seed}`;
  const found = before.get(key) ?? intervalOf(cost, level, seed);
  before.set(key, found);
  return found;
}

function intervalOf(cost: GramCost, level: number, seed: number | undefined): GramCostInterval {
  const ratio = ratioOverCooks(
    cost.pairs.map(({ tray, cost: money, grams }) => ({ tray, numerator: money, denominator: grams })),
    level,
    seed,
  );
  return {
    ...ratio,
    kind: "interval",
    value: cost.withAllLosses,
    // a gram costs less than nothing only where lost trays bring in more than everything costs
    low: ratio.low === undefined || cost.withAllLosses < 0 ? ratio.low : Math.max(0, ratio.low),
  };
}
