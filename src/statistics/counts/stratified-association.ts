import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { normalUpperTail } from "../distributions/normal.ts";
import { cholesky } from "../linear-algebra/cholesky.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";
import { requireProportion } from "./require-proportion.ts";

/** Counts of one stratum, one entry per level. */
export interface Stratum {
  events: ReadonlyArray<number>;
  trials: ReadonlyArray<number>;
}

/** Counts of one stratum at scores. */
export interface ScoredStratum extends Stratum {
  scores: ReadonlyArray<number>;
}

/** Outcome of a stratified test of a trend in proportions. */
export interface StratifiedTrend {
  /** positive when the proportion rises with the score */
  z: number;
  /** two-sided, without continuity correction */
  p: number;
}

/**
 * Does a proportion rise or fall steadily with a score, compared inside strata only?
 * @param strata counts at each score
 * @returns undefined if no stratum has both outcomes at scores that differ
 * @throws RangeError if columns differ in length, a score is not finite, or counts are not whole or exceed the trials
 * @source Mantel 1963, Journal of the American Statistical Association 58:690-700
 * @example stratifiedTrend([{ events: [1, 2, 3], trials: [10, 10, 10], scores: [0, 1, 2] }])?.z // 1.0992...
 */
export function stratifiedTrend(strata: ReadonlyArray<ScoredStratum>): StratifiedTrend | undefined {
  let excess = 0;
  let variance = 0;
  let largest = 0;
  for (const stratum of strata) {
    const { scores, trials, events } = stratum;
    requireFinite("stratifiedTrend", "scores", scores);
    const { lost, total } = totals("stratifiedTrend", stratum, scores);
    if (lost === 0 || lost === total) continue;
    let mean = 0;
    trials.forEach((count, i) => {
      mean += (count / total) * scores[i]!;
      largest = Math.max(largest, Math.abs(scores[i]!));
    });
    let squares = 0;
    trials.forEach((count, i) => {
      squares += count * (scores[i]! - mean) ** 2;
      excess += events[i]! * (scores[i]! - mean);
    });
    variance += ((lost / total) * (total - lost) * squares) / (total - 1);
  }
  if (!(variance > (1e-12 * largest) ** 2)) return undefined;
  const z = excess / Math.sqrt(variance);
  return { z, p: Math.min(1, 2 * normalUpperTail(Math.abs(z))) };
}

/** Outcome of a stratified test of any difference between proportions. */
export interface StratifiedAssociation {
  chiSquare: number;
  degreesOfFreedom: number;
  p: number;
}

/**
 * Do proportions differ between unordered levels at all, compared inside strata only?
 * @param strata counts at each level; a level absent from a stratum has 0 trials there
 * @returns undefined if no stratum has both outcomes at two levels, or strata do not connect the levels
 * @throws RangeError if columns differ in length or counts are not whole or exceed the trials
 * @source Mantel 1963, Journal of the American Statistical Association 58:690-700, extended to several levels: Landis,
 *   Heyman and Koch 1978, International Statistical Review 46:237-254
 * @example stratifiedAssociation([{ events: [1, 4], trials: [10, 10] }])?.chiSquare // 2.28
 */
export function stratifiedAssociation(strata: ReadonlyArray<Stratum>): StratifiedAssociation | undefined {
  const levels = strata[0]?.trials.length ?? 0;
  const scatter = zeroMatrix(levels, levels);
  const excess = new Float64Array(levels);
  for (const stratum of strata) {
    const { lost, total } = totals("stratifiedAssociation", stratum, Array.from(excess));
    if (lost === 0 || lost === total) continue;
    const factor = ((lost / total) * ((total - lost) / total)) / (total - 1);
    stratum.trials.forEach((count, i) => {
      excess[i]! += stratum.events[i]! - (count * lost) / total;
      scatter[i]![i]! += factor * count * total;
      stratum.trials.forEach((other, j) => {
        scatter[i]![j]! -= factor * count * other;
      });
    });
  }
  const varying = Array.from(excess.keys()).filter((i) => scatter[i]![i]! > 1e-12);
  const kept = varying.slice(1);
  if (kept.length === 0) return undefined;
  const matrix = kept.map((i) => Float64Array.from(kept, (j) => scatter[i]![j]!));
  const solved = cholesky(matrix)?.solve(kept.map((i) => excess[i]!));
  if (solved === undefined) return undefined;
  const chiSquare = kept.reduce((sum, i, at) => sum + excess[i]! * solved[at]!, 0);
  return { chiSquare, degreesOfFreedom: kept.length, p: chiSquareUpperTail(chiSquare, kept.length) };
}

function totals(routine: string, stratum: Stratum, levels: ReadonlyArray<number>): { lost: number; total: number } {
  requireSameLength(routine, "trials", stratum.trials, "levels", levels);
  requireSameLength(routine, "events", stratum.events, "trials", stratum.trials);
  let lost = 0;
  let total = 0;
  stratum.trials.forEach((count, i) => {
    if (count > 0) requireProportion(routine, stratum.events[i]!, count);
    lost += stratum.events[i]!;
    total += count;
  });
  return { lost, total };
}
