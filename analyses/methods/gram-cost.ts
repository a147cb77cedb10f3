import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import type { GramCost } from "../../src/costing/cost-account.ts";
import { fiellerRatio } from "../../src/statistics/optimum/fieller-ratio.ts";

/** What a gram cost with all losses, and how far another set of trays like these could differ. */
export interface GramCostInterval {
  kind: "interval";
  value: number;
  low: number | undefined;
  high: number | undefined;
  /** what counted as one independent unit */
  units: number;
  unitName: "cooks" | "trays";
  says: string;
}

/** Sums of cost and grams of one independent unit. */
interface UnitSums {
  cost: number;
  grams: number;
}

const leastCooks = 3;

/** Trays of one cook share its luck, so cooks are the units where there are at least three; else trays stand alone. */
function unitsOf({ pairs }: GramCost): { units: UnitSums[]; unitName: "cooks" | "trays" } {
  const byCook = new Map<string, UnitSums>();
  for (const { tray, cost, grams } of pairs) {
    if (tray.batch === undefined) return { units: pairs, unitName: "trays" };
    const sums = byCook.get(tray.batch) ?? { cost: 0, grams: 0 };
    byCook.set(tray.batch, sums);
    sums.cost += cost;
    sums.grams += grams;
  }
  return byCook.size >= leastCooks
    ? { units: [...byCook.values()], unitName: "cooks" }
    : { units: pairs, unitName: "trays" };
}

/**
 * Cost of a gram as a ratio of sums with Fieller's interval, over cooks (or trays where cooks are few or not recorded).
 * @returns the costing's own reason where there is no cost
 */
export function gramCostInterval(cost: GramCost | CostCannotTell, level: number): GramCostInterval | CostCannotTell {
  if (cost.kind === "cannot-tell") return cost;
  const { units, unitName } = unitsOf(cost);
  const count = units.length;
  const value = cost.allIn;
  if (count < 3) {
    return {
      kind: "interval",
      value,
      low: undefined,
      high: undefined,
      units: count,
      unitName,
      says: "too few trays for an interval",
    };
  }
  const meanCost = units.reduce((sum, unit) => sum + unit.cost, 0) / count;
  const meanGrams = units.reduce((sum, unit) => sum + unit.grams, 0) / count;
  const moment = (of: (unit: UnitSums) => number) =>
    units.reduce((sum, unit) => sum + of(unit), 0) / (count - 1) / count;
  const set = fiellerRatio({
    numerator: meanCost,
    denominator: meanGrams,
    varianceNumerator: moment(({ cost: money }) => (money - meanCost) ** 2),
    varianceDenominator: moment(({ grams }) => (grams - meanGrams) ** 2),
    covariance: moment(({ cost: money, grams }) => (money - meanCost) * (grams - meanGrams)),
    degreesOfFreedom: count - 1,
    level,
  });
  if (set.kind === "bounded")
    return {
      kind: "interval",
      value,
      low: Math.max(0, set.low),
      high: set.high,
      units: count,
      unitName,
      says: set.says,
    };
  return { kind: "interval", value, low: undefined, high: undefined, units: count, unitName, says: set.says };
}
