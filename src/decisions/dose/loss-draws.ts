import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import { systematicCounts } from "../../statistics/random/systematic-counts.ts";
import type { TestedDoses } from "./tested-doses.ts";

/** Chances of losing a tray, drawn. */
export interface LossDraws {
  /** per grid dose and draw, 0 to 1; draw i at grid place j is `share[j * draws + i]` */
  share: Float64Array;
  noneLost: boolean;
  /** by how much losses vary more from cook to cook than chance would make them, 1 or more */
  spread: number;
}

/** Pearson's X^2 of losses over cooks, each dose at its own rate, moderated by four cooks without excess. */
function lossSpread({ doses, cooks, cells }: TestedDoses): number {
  if (cooks < 3) return 1;
  const started = new Float64Array(doses.length);
  const lost = new Float64Array(doses.length);
  for (const cell of cells) {
    started[cell.dose]! += cell.started;
    lost[cell.dose]! += cell.lost;
  }
  const excess = new Float64Array(cooks);
  const variance = new Float64Array(cooks);
  for (const cell of cells) {
    const rate = lost[cell.dose]! / started[cell.dose]!;
    excess[cell.cook]! += cell.lost - cell.started * rate;
    variance[cell.cook]! += cell.started * rate * (1 - rate);
  }
  let square = 0;
  for (let cook = 0; cook < cooks; cook++) if (variance[cook]! > 0) square += excess[cook]! ** 2 / variance[cook]!;
  return Math.max(1, (square + 4) / (cooks - 1 + 4));
}

const intercepts = { from: -8, to: 4, points: 97 };
const slopes = { from: -8, to: 8, points: 129 };
const cell = 0.125;

/** Log posterior of the logistic line on the grid of intercepts and slopes, less its maximum, as weights. */
function lineWeights(x: ArrayLike<number>, trays: Float64Array, lost: Float64Array, spread: number): Float64Array {
  const weights = new Float64Array(intercepts.points * slopes.points);
  const odds = Float64Array.from({ length: intercepts.points }, (_, i) => Math.exp(intercepts.from + i * cell));
  const lostInAll = lost.reduce((sum, one) => sum + one, 0);
  let most = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < slopes.points; j++) {
    const b = slopes.from + j * cell;
    const tilt = trays.map((_, dose) => Math.exp(b * x[dose]!));
    const along = lost.reduce((sum, one, dose) => sum + one * b * x[dose]!, 0);
    for (let i = 0; i < intercepts.points; i++) {
      const a = intercepts.from + i * cell;
      let log = lostInAll * a + along;
      for (let dose = 0; dose < trays.length; dose++) log -= trays[dose]! * Math.log(1 + odds[i]! * tilt[dose]!);
      log = log / spread - Math.log1p((a / 10) ** 2) - Math.log1p((b / 2.5) ** 2);
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
  const { doses, cells } = tested;
  const points = grid.length;
  const trays = new Float64Array(doses.length);
  const lost = new Float64Array(doses.length);
  for (const one of cells) {
    trays[one.dose]! += one.started;
    lost[one.dose]! += one.lost;
  }
  const share = new Float64Array(draws * points);
  const spread = lossSpread(tested);
  if (lost.every((one) => one === 0)) return { share, noneLost: true, spread };
  const all = trays.reduce((sum, one) => sum + one, 0);
  const mean = doses.reduce((sum, dose, i) => sum + trays[i]! * dose, 0) / all;
  const sd = Math.sqrt(doses.reduce((sum, dose, i) => sum + trays[i]! * (dose - mean) ** 2, 0) / all);
  const scaled = (dose: number): number => (dose - mean) / (2 * sd);
  const counts = systematicCounts(lineWeights(doses.map(scaled), trays, lost, spread), draws, random);
  // curves come in the order of their components and lines in that of the grid: strides keep one from following the other
  const stride = evenStride(draws);
  const x = grid.map(scaled);
  let made = 0;
  for (let at = 0; at < counts.length; at++) {
    for (let n = counts[at]!; n > 0; n--) {
      const a = intercepts.from + cell * ((at % intercepts.points) + random.uniform() - 0.5);
      const b = slopes.from + cell * (Math.floor(at / intercepts.points) + random.uniform() - 0.5);
      const into = (made++ * stride) % draws;
      for (let j = 0; j < points; j++) share[j * draws + into] = 1 / (1 + Math.exp(-(a + b * x[j]!)));
    }
  }
  return { share, noneLost: false, spread };
}
