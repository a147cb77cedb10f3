import {
  requireFinite,
  requireNotNegative,
  requirePositive,
  requireShare,
  requireShareBelowOne,
} from "../../measures/require-amounts.ts";
import { earningsAt, type SaleTerms } from "./price.ts";

/** A repeatable source of chance, handed in so that costing needs no generator of its own. */
export interface RandomSource {
  /** from 0 (included) to 1 (left out) */
  uniform(): number;
  /** mean 0, variance 1 */
  normal(): number;
}

/** What is not known for sure, and how far it may lie off. */
export interface MarginUncertainty {
  /** grams of one good tray, mean over trays, and the standard error of that mean, not the spread between trays */
  gramsPerGoodTray: { mean: number; standardError: number };
  /** trays lost of trays finished: the loss is drawn from the beta distribution they leave over Jeffreys' prior */
  lost: number;
  finished: number;
  /** price of one unit; equal ends: certain */
  price: { low: number; central: number; high: number };
  /** all cost but the mushrooms together, as shares of its central value; absent: certain */
  costShare?: { low: number; high: number };
}

/** What a unit is made of and what that costs. */
export interface MarginBasis {
  terms: SaleTerms;
  /** grams of mushrooms for one unit sold */
  gramsNeeded: number;
  /** cost of a unit beside its mushrooms */
  otherCostPerUnit: number;
  /** cost of a good tray without what is counted per kg; of a lost tray, net of what it recovers */
  costPerGoodTray: number;
  costPerLostTray: number;
  /** cost counted per kg, per gram */
  costPerGram: number;
  targetMargin?: number;
}

/** Quantiles of something simulated. */
export interface SimulatedQuantiles {
  q05: number;
  q25: number;
  median: number;
  q75: number;
  q95: number;
}

/** How margin may turn out. */
export interface SimulatedMargin {
  kind: "simulation";
  draws: number;
  /** share of draws in which the price covers full cost, and in which it reaches the target */
  chanceCovered: number;
  chanceTarget?: number;
  profit: SimulatedQuantiles;
  margin: SimulatedQuantiles;
  costPerGram: SimulatedQuantiles;
}

/** Gamma draw with scale 1. @source Marsaglia and Tsang 2000, ACM Transactions on Mathematical Software 26(3):363-372 */
function drawGamma(shape: number, random: RandomSource): number {
  // below 1 the method does not hold; a draw at shape + 1 shrunk by a power of a uniform is right
  if (shape < 1) return drawGamma(shape + 1, random) * (1 - random.uniform()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = random.normal();
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random.uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/**
 * A draw from the beta distribution.
 * @throws RangeError if a shape is not above 0
 */
export function drawBeta(shapeA: number, shapeB: number, random: RandomSource): number {
  requirePositive("drawBeta", "shapeA", shapeA);
  requirePositive("drawBeta", "shapeB", shapeB);
  const a = drawGamma(shapeA, random);
  return a / (a + drawGamma(shapeB, random));
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

/** A positive draw with a given mean and standard deviation, log-normal so that a yield never turns negative. */
function drawPositive(mean: number, standardDeviation: number, random: RandomSource): number {
  const logVariance = Math.log1p((standardDeviation / mean) ** 2);
  return mean * Math.exp(Math.sqrt(logVariance) * random.normal() - logVariance / 2);
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
  return { q05: at(0.05), q25: at(0.25), median: at(0.5), q75: at(0.75), q95: at(0.95) };
};

/**
 * How margin may turn out when yield, loss, price and other cost are not certain. Each draw takes a mean yield, a loss
 * rate, a price and a share of other cost; a lost tray's cost is carried by the good ones.
 * @param draws whole number of 100 or more
 * @param random its draws fix the result: the same seed gives the same answer
 * @throws RangeError if a number lies outside its range
 * @source Monte Carlo; loss: beta posterior over Jeffreys' prior, Beta(1/2, 1/2); yield: log-normal; price and other
 *   cost: triangular; quantiles by linear interpolation, (n - 1)p (Hyndman and Fan 1996, The American Statistician
 *   50(4):361-365, definition 7)
 * @example simulateMargin(basis, uncertainty, 4000, seededRandom(20261)).chanceCovered
 */
export function simulateMargin(
  basis: MarginBasis,
  uncertainty: MarginUncertainty,
  draws: number,
  random: RandomSource,
): SimulatedMargin {
  const { gramsPerGoodTray, lost, finished, price, costShare = { low: 1, high: 1 } } = uncertainty;
  if (!Number.isInteger(draws) || draws < 100) {
    throw new RangeError(`simulateMargin: draws must be a whole number of 100 or more; received ${draws}`);
  }
  requirePositive("simulateMargin", "gramsPerGoodTray.mean", gramsPerGoodTray.mean);
  requireNotNegative("simulateMargin", "gramsPerGoodTray.standardError", gramsPerGoodTray.standardError);
  requirePositive("simulateMargin", "finished", finished);
  requireShare("simulateMargin", "lost over finished", lost / finished);
  requirePositive("simulateMargin", "price.low", price.low);
  requirePositive("simulateMargin", "gramsNeeded", basis.gramsNeeded);
  for (const key of ["otherCostPerUnit", "costPerGoodTray", "costPerGram"] as const) {
    requireNotNegative("simulateMargin", key, basis[key]);
  }
  requireFinite("simulateMargin", "costPerLostTray", basis.costPerLostTray);
  if (basis.targetMargin !== undefined) requireShareBelowOne("simulateMargin", "targetMargin", basis.targetMargin);

  const [profits, margins, gramCosts] = [new Float64Array(draws), new Float64Array(draws), new Float64Array(draws)];
  let [covered, reached] = [0, 0];
  for (let draw = 0; draw < draws; draw++) {
    const grams = drawPositive(gramsPerGoodTray.mean, gramsPerGoodTray.standardError, random);
    const loss = drawBeta(lost + 0.5, finished - lost + 0.5, random);
    const asked = drawTriangular(price.low, price.central, price.high, random);
    const other = basis.otherCostPerUnit * drawTriangular(costShare.low, 1, costShare.high, random);
    const goodTray = basis.costPerGoodTray + (loss / (1 - loss)) * basis.costPerLostTray;
    const costPerGram = goodTray / grams + basis.costPerGram;
    // what is recovered from lost trays can pass their cost; a unit's cost still does not fall below nothing
    const { profit, margin } = earningsAt(asked, Math.max(0, other + basis.gramsNeeded * costPerGram), basis.terms);
    profits[draw] = profit;
    margins[draw] = margin;
    gramCosts[draw] = costPerGram;
    if (profit >= 0) covered++;
    if (basis.targetMargin !== undefined && margin >= basis.targetMargin) reached++;
  }
  return {
    kind: "simulation",
    draws,
    chanceCovered: covered / draws,
    ...(basis.targetMargin === undefined ? {} : { chanceTarget: reached / draws }),
    profit: quantilesOf(profits),
    margin: quantilesOf(margins),
    costPerGram: quantilesOf(gramCosts),
  };
}
