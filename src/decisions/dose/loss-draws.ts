import { cholesky } from "../../statistics/linear-algebra/cholesky.ts";
import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import { systematicCounts } from "../../statistics/random/systematic-counts.ts";
import type { TestedDoses } from "./tested-doses.ts";

/** Chances of losing a tray, drawn. */
export interface LossDraws {
  /** per grid dose and draw, 0 to 1; draw i at grid place j is `share[j * draws + i]` */
  share: Float64Array;
  noneLost: boolean;
}

/**
 * Pearson's X^2 of losses over cooks, each dose at its own rate, moderated by four cooks without excess. Its degrees of freedom
 * are what it is on average without excess: the rates are the cooks' own, so that with one dose a cook each dose takes one.
 */
export function lossSpread({ doses, cooks, cells }: TestedDoses): number {
  if (cooks < 3) return 1;
  const started = new Float64Array(doses.length);
  const lost = new Float64Array(doses.length);
  for (const cell of cells) {
    started[cell.dose]! += cell.started;
    lost[cell.dose]! += cell.lost;
  }
  const excess = new Float64Array(cooks);
  const variance = new Float64Array(cooks);
  // of a cook's variance, the part that the rates follow
  const followed = new Float64Array(cooks);
  for (const cell of cells) {
    const rate = lost[cell.dose]! / started[cell.dose]!;
    excess[cell.cook]! += cell.lost - cell.started * rate;
    variance[cell.cook]! += cell.started * rate * (1 - rate);
    followed[cell.cook]! += (cell.started ** 2 / started[cell.dose]!) * rate * (1 - rate);
  }
  let [square, freedom] = [0, 0];
  for (let cook = 0; cook < cooks; cook++) {
    if (variance[cook]! === 0) continue;
    square += excess[cook]! ** 2 / variance[cook]!;
    freedom += 1 - followed[cook]! / variance[cook]!;
  }
  return Math.max(1, (square + 4) / (freedom + 4));
}

const intercepts = { from: -8, to: 4, points: 97 };
const slopes = { from: -8, to: 8, points: 129 };
const cell = 0.125;

/** Trays and lost ones at one dose and one level of what else was varied. */
interface LossCount {
  x: number;
  other: number;
  trays: number;
  lost: number;
}

/** Standard deviation of the slope, and of what else was varied, beforehand. */
const usualSlope = 2.5;

/**
 * What each level of the other thing adds to the logit, beside the line over dose: the mode with weak normal priors, by
 * Newton's steps; it exists whatever is lost.
 * @source penalised likelihood of logistic models: le Cessie and van Houwelingen 1992, Applied Statistics 41(1):191-201
 */
function otherLogits(counts: ReadonlyArray<LossCount>, others: number): Float64Array {
  if (others === 1) return new Float64Array(1);
  const width = others + 2;
  const has = ({ x, other }: LossCount, k: number): number => (k === 0 ? 1 : k === 1 ? x : Number(other === k - 2));
  const at = new Float64Array(width);
  for (let step = 0; step < 50; step++) {
    const prior = Float64Array.from({ length: width }, (_, k) => 1 / (k === 0 ? 10 : usualSlope) ** 2);
    const score = at.map((value, k) => -value * prior[k]!);
    const information = Array.from({ length: width }, (_, k) =>
      Float64Array.from({ length: width }, (_, l) => (k === l ? prior[k]! : 0)),
    );
    for (const count of counts) {
      const share = 1 / (1 + Math.exp(-at.reduce((sum, value, k) => sum + value * has(count, k), 0)));
      for (let k = 0; k < width; k++) {
        score[k]! += (count.lost - count.trays * share) * has(count, k);
        for (let l = 0; l < width; l++) {
          information[k]![l]! += count.trays * share * (1 - share) * has(count, k) * has(count, l);
        }
      }
    }
    const move = cholesky(information)!.solve(score);
    const longest = move.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    // a long step may lead past the top
    move.forEach((value, k) => {
      at[k]! += value / Math.max(1, longest);
    });
    if (longest < 1e-10) break;
  }
  return at.slice(2);
}

/** Log posterior of the logistic line on the grid of intercepts and slopes, less its maximum, as weights. */
function lineWeights(counts: ReadonlyArray<LossCount>, logits: Float64Array, spread: number): Float64Array {
  const weights = new Float64Array(intercepts.points * slopes.points);
  const odds = Float64Array.from({ length: intercepts.points }, (_, i) => Math.exp(intercepts.from + i * cell));
  const lostInAll = counts.reduce((sum, { lost }) => sum + lost, 0);
  let most = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < slopes.points; j++) {
    const b = slopes.from + j * cell;
    const tilt = Float64Array.from(counts, ({ x, other }) => Math.exp(b * x + logits[other]!));
    const along = counts.reduce((sum, { lost, x }) => sum + lost * b * x, 0);
    for (let i = 0; i < intercepts.points; i++) {
      const a = intercepts.from + i * cell;
      let log = lostInAll * a + along;
      for (let one = 0; one < tilt.length; one++) log -= counts[one]!.trays * Math.log(1 + odds[i]! * tilt[one]!);
      log = log / spread - Math.log1p((a / 10) ** 2) - Math.log1p((b / usualSlope) ** 2);
      weights[j * intercepts.points + i] = log;
      if (log > most) most = log;
    }
  }
  for (let at = 0; at < weights.length; at++) weights[at] = Math.exp(weights[at]! - most);
  return weights;
}

/** A stride near the golden section of `draws` that reaches every place once. */
function evenStride(draws: number): number {
  const shares = (a: number, b: number): number => (b === 0 ? a : shares(b, a % b));
  let stride = Math.max(1, Math.round(draws * 0.6180339887));
  while (shares(stride, draws) !== 1) stride++;
  return stride;
}

/**
 * Draws the share of trays lost over dose: a straight line of logits, counts divided by how unevenly cooks lose.
 * @param grid doses at which the share is wanted
 * @param draws how many
 * @source weak priors: Gelman, Jakulin, Pittau and Su 2008, Annals of Applied Statistics 2(4):1360-1383 (intercept
 *   Cauchy 10, slope over two standard deviations Cauchy 2.5); division of the counts by their spread is this project's own
 */
export function lossDraws(
  tested: TestedDoses,
  grid: ReadonlyArray<number>,
  draws: number,
  random: SeededRandom,
): LossDraws {
  const { doses, others, cells } = tested;
  const points = grid.length;
  const share = new Float64Array(draws * points);
  const spread = lossSpread(tested);
  if (cells.every(({ lost }) => lost === 0)) return { share, noneLost: true };
  const all = cells.reduce((sum, { started }) => sum + started, 0);
  const mean = cells.reduce((sum, { started, dose }) => sum + started * doses[dose]!, 0) / all;
  const sd = Math.sqrt(cells.reduce((sum, { started, dose }) => sum + started * (doses[dose]! - mean) ** 2, 0) / all);
  const scaled = (dose: number): number => (dose - mean) / (2 * sd);
  const byPlace = new Map<number, LossCount>();
  for (const { dose, other, started, lost } of cells) {
    const place = other * doses.length + dose;
    const own = byPlace.get(place) ?? { x: scaled(doses[dose]!), other, trays: 0, lost: 0 };
    byPlace.set(place, own);
    own.trays += started;
    own.lost += lost;
  }
  const lossCounts = [...byPlace.values()].sort((a, b) => a.other - b.other || a.x - b.x);
  const logits = otherLogits(lossCounts, others);
  const counts = systematicCounts(lineWeights(lossCounts, logits, spread), draws, random);
  // curves come in the order of their components and lines in that of the grid: strides keep one from following the other
  const stride = evenStride(draws);
  const x = grid.map(scaled);
  let made = 0;
  for (let at = 0; at < counts.length; at++) {
    for (let n = counts[at]!; n > 0; n--) {
      const a = intercepts.from + cell * ((at % intercepts.points) + random.uniform() - 0.5);
      const b = slopes.from + cell * (Math.floor(at / intercepts.points) + random.uniform() - 0.5);
      const into = (made++ * stride) % draws;
      // every level of what else was varied counts the same
      for (let j = 0; j < points; j++) {
        for (const logit of logits) share[j * draws + into]! += 1 / (1 + Math.exp(-(a + b * x[j]! + logit))) / others;
      }
    }
  }
  return { share, noneLost: false };
}
