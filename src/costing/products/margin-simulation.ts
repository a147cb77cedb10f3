import { requireNotNegative, requirePositive, requireShareBelowOne } from "../../measures/require-amounts.ts";
import { earningsBy, type SaleTerms } from "./price.ts";

/** A repeatable source of chance, handed in so that costing needs no generator of its own. */
export interface RandomSource {
  /** from 0 (included) to 1 (left out) */
  uniform(): number;
  /** mean 0, variance 1 */
  normal(): number;
}

/** What is not known for sure, and how far it may lie off. */
export interface MarginUncertainty {
  /** a draw of what the mushrooms in a unit cost; Infinity where a draw sets no upper end to it */
  mushrooms(random: RandomSource): number;
  /** price of one unit; equal ends: certain */
  price: { low: number; central: number; high: number };
  /** all cost but the mushrooms together, as shares of its central value; absent: certain */
  costShare?: { low: number; high: number };
}

/** What a unit is sold for and costs beside its mushrooms. */
export interface MarginBasis {
  terms: SaleTerms;
  otherCostPerUnit: number;
  targetMargin?: number;
}

/** Quantiles of something simulated. */
export interface SimulatedQuantiles {
  q05: number;
  q95: number;
}

/** How margin may turn out. */
export interface SimulatedMargin {
  kind: "simulation";
  /** share of draws in which the price covers full cost, and in which it reaches the target */
  chanceCovered: number;
  chanceTarget?: number;
  margin: SimulatedQuantiles;
}

/**
 * A draw from the triangular distribution, by its inverse; the central value when the ends are equal.
 * @throws RangeError unless low <= central <= high
 */
export function drawTriangular(low: number, central: number, high: number, random: RandomSource): number {
  if (!(low <= central && central <= high) || !Number.isFinite(high - low)) {
    throw new RangeError(`drawTriangular: low <= central <= high must hold; received ${low}, ${central}, ${high}`);
  }
  const u = random.uniform();
  if (high === low) return central;
  const turn = (central - low) / (high - low);
  return u < turn
    ? low + Math.sqrt(u * (high - low) * (central - low))
    : high - Math.sqrt((1 - u) * (high - low) * (high - central));
}

/** Quantile of sorted values by linear interpolation between order statistics, position (n - 1)p. */
function quantileOfSorted(sorted: Float64Array, p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const low = sorted[below]!;
  return low + (place - below) * ((sorted[below + 1] ?? low) - low);
}

const quantilesOf = (values: Float64Array): SimulatedQuantiles => {
  const sorted = values.toSorted();
  const at = (p: number): number => quantileOfSorted(sorted, p);
  return { q05: at(0.05), q95: at(0.95) };
};

/**
 * How margin may turn out when the cost of the mushrooms, the price and other cost are not certain. A draw in which the
 * mushrooms' cost has no upper end covers nothing, and its margin is as low as the lowest of the others.
 * @param draws whole number of 100 or more
 * @param random its draws fix the result: the same seed gives the same answer
 * @throws RangeError if a number lies outside its range
 * @source Monte Carlo; price and other cost: triangular; quantiles by linear interpolation, (n - 1)p (Hyndman and Fan 1996,
 *   American Statistician 50:361-365, type 7)
 * @example simulateMargin(basis, uncertainty, 4000, seededRandom(20261)).chanceCovered // 1
 */
export function simulateMargin(
  basis: MarginBasis,
  uncertainty: MarginUncertainty,
  draws: number,
  random: RandomSource,
): SimulatedMargin {
  const { mushrooms, price, costShare = { low: 1, high: 1 } } = uncertainty;
  if (!Number.isInteger(draws) || draws < 100) {
    throw new RangeError(`simulateMargin: draws must be a whole number of 100 or more; received ${draws}`);
  }
  requirePositive("simulateMargin", "price.low", price.low);
  requireNotNegative("simulateMargin", "otherCostPerUnit", basis.otherCostPerUnit);
  if (basis.targetMargin !== undefined) requireShareBelowOne("simulateMargin", "targetMargin", basis.targetMargin);

  const margins = new Float64Array(draws);
  let [covered, reached] = [0, 0];
  const endless: number[] = [];
  const earnings = earningsBy(basis.terms);
  for (let draw = 0; draw < draws; draw++) {
    const made = mushrooms(random);
    const asked = drawTriangular(price.low, price.central, price.high, random);
    const other = basis.otherCostPerUnit * drawTriangular(costShare.low, 1, costShare.high, random);
    if (!Number.isFinite(made)) {
      endless.push(draw);
      continue;
    }
    const { profit, margin } = earnings(asked, Math.max(0, other + made));
    margins[draw] = margin;
    if (profit >= 0) covered++;
    if (basis.targetMargin !== undefined && margin >= basis.targetMargin) reached++;
  }
  let lowest = 0;
  for (const margin of margins) lowest = Math.min(lowest, margin);
  for (const draw of endless) margins[draw] = lowest;
  return {
    kind: "simulation",
    chanceCovered: covered / draws,
    ...(basis.targetMargin === undefined ? {} : { chanceTarget: reached / draws }),
    margin: quantilesOf(margins),
  };
}
