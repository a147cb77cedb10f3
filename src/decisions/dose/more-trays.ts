import { cholesky } from "../../statistics/linear-algebra/cholesky.ts";
import { seededRandom } from "../../statistics/random/seeded-random.ts";
import { requireCount, requireFinite } from "../../statistics/require-numbers.ts";
import type { DoseDecision } from "./dose-facts.ts";

/** What more trays would be worth. */
export interface MoreTraysWorth {
  /** money a tray that the better choice afterwards is expected to bring */
  perTray: number;
  /** money given up by growing the trial's trays at their doses instead of the one to use */
  trialCost: number;
  /** a year's trays times `perTray`, less the trial's cost: stop where it is 0 or less */
  perYear: number;
}

const imagined = 4000;
/** variance of a cook's own level in such a trial, in the largest variance of what is known: it tells nothing */
const unknownLevel = 100;

/**
 * Value of growing more trays at the doses tried: how much better the choice after them is expected to be.
 * @param traysPerDose further trays at each tested dose over all `cooks` together, 1 or more; cooks 1 or more
 * @param traysAYear started trays a year that the choice is for, 0 or more
 * @throws RangeError if a number is outside its range
 * @source expected value of sample information: Raiffa and Schlaifer 1961, Applied Statistical Decision Theory, Harvard
 *   Business School; normal approximation to the draws, this project's own
 * @example valueOfMoreTrays(decision, { traysPerDose: 12, cooks: 4, traysAYear: 500 }).perTray >= 0 // true
 */
export function valueOfMoreTrays(
  { expected, evidence, use }: DoseDecision,
  { traysPerDose, cooks, traysAYear }: { traysPerDose: number; cooks: number; traysAYear: number },
): MoreTraysWorth {
  requireCount("valueOfMoreTrays", "traysPerDose", traysPerDose, 1);
  requireCount("valueOfMoreTrays", "cooks", cooks, 1);
  requireFinite("valueOfMoreTrays", "traysAYear", [traysAYear]);
  if (traysAYear < 0) throw new RangeError(`valueOfMoreTrays: traysAYear must be 0 or more; received ${traysAYear}`);
  const { tested, first, last, covariance, trayVariance, cellRatio, perGram, seed } = evidence;
  const trialCost = tested.reduce((sum, at) => sum + traysPerDose * expected[at]!.givesUp, 0);
  const means = expected.slice(first, last + 1).map(({ left }) => left.mean);
  const none = { perTray: 0, trialCost, perYear: -trialCost };
  const spread = tested.map((at) => Float64Array.from(covariance[at - first]!));
  const largest = Math.max(...spread.map((row, i) => row[i]!));
  if (!(largest > 0)) return none;
  spread.forEach((row, i) => {
    const { grams, loss } = expected[tested[i]!]!;
    const good = 1 - loss.mean;
    const ofTrays = good * trayVariance + loss.mean * good * grams.mean ** 2;
    row[i]! += perGram ** 2 * (ofTrays / traysPerDose + (good ** 2 * trayVariance * cellRatio) / cooks);
    for (let j = 0; j < row.length; j++) row[j]! += unknownLevel * largest;
  });
  const inverse = cholesky(spread)?.inverse();
  if (inverse === undefined) return none;
  // moves of the means: covariance x inverse x news, where news has the covariance `spread`
  const factor = lowerTriangle(inverse);
  const moves = covariance.map((row) =>
    factor[0]!.map((_, k) => row.reduce((sum, c, j) => sum + c * factor[j]![k]!, 0)),
  );
  const best = bestAfterNews(Float64Array.from(means), Float64Array.from(moves.flat()), tested.length, seed);
  const perTray = Math.max(0, best - Math.max(use.left.mean, ...means));
  return { perTray, trialCost, perYear: perTray * traysAYear - trialCost };
}

/** Mean of the largest of the moved means over imagined news. @param moves `size` numbers for each mean, one after the other */
function bestAfterNews(means: Float64Array, moves: Float64Array, size: number, seed: number): number {
  const random = seededRandom(seed);
  const news = new Float64Array(size);
  let sum = 0;
  for (let draw = 0; draw < imagined; draw++) {
    for (let k = 0; k < size; k++) news[k] = random.normal();
    // each draw counts with its mirror image, so that means move by 0 in all
    let up = Number.NEGATIVE_INFINITY;
    let down = Number.NEGATIVE_INFINITY;
    for (let at = 0, from = 0; at < means.length; at++, from += size) {
      const mean = means[at]!;
      let move = 0;
      for (let k = 0; k < size; k++) move += moves[from + k]! * news[k]!;
      if (mean + move > up) up = mean + move;
      if (mean - move > down) down = mean - move;
    }
    sum += (up + down) / 2;
  }
  return sum / imagined;
}

/** Lower triangular L with L L' = matrix. */
function lowerTriangle(matrix: ReadonlyArray<Float64Array>): number[][] {
  const lower = matrix.map((row) => Array.from(row, () => 0));
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      lower[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : lower[j]![j]! > 0 ? sum / lower[j]![j]! : 0;
    }
  }
  return lower;
}
