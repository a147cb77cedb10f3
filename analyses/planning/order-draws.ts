import type { ShareOverClusters } from "../../src/statistics/counts/share-over-clusters.ts";
import { normalQuantile } from "../../src/statistics/distributions/normal.ts";
import { chiSquareDraw } from "../../src/statistics/random/chi-square-draw.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** What a book knows of trays to come; grams are of a good tray. */
export interface OrderModel {
  mean: number;
  /** between trays of one cook, and between cooks */
  traySd: number;
  cookSd: number;
  /** good trays and cooks these are from */
  trays: number;
  cooks: number;
  /** share lost, and how far the losses of one cook go together */
  losses: ShareOverClusters;
  /** share of the variance of days that lies between cooks */
  dayLikeness: number;
}

/** Trays of one cook that are to be picked for an order. */
export interface OrderLoad {
  trays: number;
  /** chance that a tray which is not lost is picked in time */
  inTime: number;
  /** chance that a tray is lost, where it is another than of a tray just started: it has colonised, or is late */
  lost?: number;
}

const beta = (a: number, b: number, random: SeededRandom): number => {
  const [x, y] = [chiSquareDraw(2 * a, random), chiSquareDraw(2 * b, random)];
  return x / (x + y);
};

/** A share around another, alike within a cook: its variance is likeness times share times the rest. */
function aroundShare(share: number, likeness: number, random: SeededRandom): number {
  if (likeness <= 0 || share <= 0 || share >= 1) return share;
  const sum = 1 / likeness - 1;
  return beta(Math.max(share * sum, 1e-3), Math.max((1 - share) * sum, 1e-3), random);
}

/** Grams of one load in one draw. */
function gramsOf(
  { trays, inTime, lost }: OrderLoad,
  drawn: { mean: number; cookSd: number; traySd: number; share: number; likeness: number },
  { dayLikeness }: OrderModel,
  random: SeededRandom,
): number {
  const cook = drawn.mean + drawn.cookSd * random.normal();
  const share = aroundShare(lost ?? drawn.share, drawn.likeness, random);
  const [together, apart] = [Math.sqrt(dayLikeness) * random.normal(), Math.sqrt(1 - dayLikeness)];
  const latest =
    inTime <= 0 ? Number.NEGATIVE_INFINITY : inTime >= 1 ? Number.POSITIVE_INFINITY : normalQuantile(inTime);
  let grams = 0;
  for (let tray = 0; tray < trays; tray++) {
    const isKept = random.uniform() >= share && together + apart * random.normal() <= latest;
    const own = cook + drawn.traySd * random.normal();
    if (isKept) grams += Math.max(0, own);
  }
  return grams;
}

/**
 * What the trays at hand and one, two, ... loads more give, in simulated futures: yields, losses and days vary from tray to tray
 * and from cook to cook, and what the book says of each is itself uncertain.
 * @param now trays that grow already, by cook; @param loads the loads that would be started, the last to be left out first
 * @returns for each draw the grams of what grows, then with each load more
 * @source predictive draws with the variances' posterior under the usual prior: Gelman et al. 2013, Bayesian Data Analysis,
 *   sections 3.2 and 5.4 (from memory)
 */
export function orderDraws(
  model: OrderModel,
  now: ReadonlyArray<OrderLoad>,
  loads: ReadonlyArray<OrderLoad>,
  { draws, seed }: { draws: number; seed: number },
): Float64Array[] {
  const random = seededRandom(seed);
  const freedom = Math.max(1, model.cooks - 1);
  const error = Math.sqrt(model.cookSd ** 2 / Math.max(1, model.cooks) + model.traySd ** 2 / Math.max(1, model.trays));
  return Array.from({ length: draws }, () => {
    const scale = Math.sqrt(freedom / chiSquareDraw(freedom, random));
    const drawn = {
      mean: Math.max(0, model.mean + error * scale * random.normal()),
      cookSd: model.cookSd * scale,
      traySd: model.traySd,
      ...model.losses.draw(random),
    };
    const sums = new Float64Array(loads.length + 1);
    sums[0] = now.reduce((sum, load) => sum + gramsOf(load, drawn, model, random), 0);
    loads.forEach((load, index) => {
      sums[index + 1] = sums[index]! + gramsOf(load, drawn, model, random);
    });
    return sums;
  });
}

/** Share of the draws that reach the grams wanted, for each number of loads. */
export const chanceByLoads = (draws: ReadonlyArray<Float64Array>, grams: number): number[] =>
  Array.from(draws[0] ?? [], (_, loads) => draws.filter((sums) => sums[loads]! >= grams).length / draws.length);
