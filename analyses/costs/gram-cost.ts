import type { Trial } from "../../src/analysis.ts";
import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import type { GramCost } from "../../src/costing/trays/cost-account.ts";
import type { Settings } from "../../src/records/setting.ts";
import { type RatioOverCooks, ratioOverCooks } from "./ratio-over-cooks.ts";

/** What a gram cost with all losses, and how far another set of trays like these could differ. */
export interface GramCostInterval extends RatioOverCooks {
  kind: "interval";
}

/** The weight that what mushrooms bring is told of, in the reader's units. */
export const kilogramWord = ({ displayUnits }: Pick<Settings, "displayUnits">): string =>
  displayUnits === "us" ? "pound" : "kilogram";

/** What a cost per weight is of, in the reader's units: "dry gram", "fresh ounce". */
export const gramWord = (kind: "dried" | "fresh", { displayUnits }: Pick<Settings, "displayUnits">): string =>
  `${kind === "dried" ? "dry" : "fresh"} ${displayUnits === "us" ? "ounce" : "gram"}`;

/**
 * Cost of a gram as a ratio of sums with Fieller's interval, over cooks (or trays where cooks are few or not recorded).
 * @returns the costing's own reason where there is no cost
 */
export function gramCostInterval(
  { settings, memo }: Pick<Trial, "settings" | "memo">,
  cost: GramCost | CostCannotTell,
): GramCostInterval | CostCannotTell {
  if (cost.kind === "cannot-tell") return cost;
  const level = settings.intervalLevel;
  return memo.once([cost], `interval at ${level}`, () => intervalOf(cost, level));
}

function intervalOf(cost: GramCost, level: number): GramCostInterval {
  const ratio = ratioOverCooks(
    cost.pairs.map(({ tray, cost: money, grams }) => ({ tray, numerator: money, denominator: grams })),
    level,
  );
  return {
    ...ratio,
    kind: "interval",
    value: cost.withAllLosses,
    // a gram costs less than nothing only where lost trays bring in more than everything costs
    low: ratio.low === undefined || cost.withAllLosses < 0 ? ratio.low : Math.max(0, ratio.low),
  };
}
