import { fCdf } from "../distributions/f.ts";
import { findRoot } from "../distributions/find-root.ts";
import { noncentralFCdf } from "../distributions/noncentral-f.ts";
import { requireCount, requireOpenProbability, requirePositive } from "../require-numbers.ts";

/** How much of the variation a term of an analysis of variance goes with. */
export interface EffectSizeOfF {
  /** term's over term's plus residual sum of squares; eta squared itself in a one-way analysis */
  partialEtaSquared: number;
  /** limits of the share in the population that partial eta squared estimates */
  lower: number;
  upper: number;
  /** the same share with most of the upward bias of eta squared removed; 0 where that would be below 0 */
  partialOmegaSquared: number;
  level: number;
}

/**
 * Share of the variation that goes with a term, with its interval.
 * @param test f with its degrees of freedom; f finite, 0 or more
 * @param level of the interval; 0.95 unless stated
 * @returns proportions; the interval is for noncentrality / (noncentrality + rows), rows being numerator + denominator
 *   degrees of freedom + 1, and starts at 0 when the test does not reject on that side
 * @throws RangeError if f is not finite or below 0, or degrees of freedom are not whole and above 0
 * @source Steiger 2004, Psychological Methods 9(2):164-182; omega squared: Olejnik and Algina 2003, Psychological Methods
 *   8(4):434-447
 * @example effectSizeOfF({ f: 4.5, numeratorDf: 1, denominatorDf: 2 }).partialEtaSquared // 0.6923...
 */
export function effectSizeOfF(
  test: { f: number; numeratorDf: number; denominatorDf: number },
  level = 0.95,
): EffectSizeOfF {
  const routine = "effectSizeOfF";
  const { f, numeratorDf, denominatorDf } = test;
  requireCount(routine, "numeratorDf", numeratorDf, 1);
  requireCount(routine, "denominatorDf", denominatorDf, 1);
  requireOpenProbability(routine, "level", level);
  if (!Number.isFinite(f) || f < 0) throw new RangeError(`${routine}: f must be a finite number from 0; received ${f}`);
  const rows = numeratorDf + denominatorDf + 1;
  const { lower, upper } = noncentralityOfF(test, level);
  return {
    partialEtaSquared: (f * numeratorDf) / (f * numeratorDf + denominatorDf),
    lower: lower / (lower + rows),
    upper: upper / (upper + rows),
    partialOmegaSquared: Math.max(0, (numeratorDf * (f - 1)) / (numeratorDf * (f - 1) + rows)),
    level,
  };
}

/** Limits of the noncentrality that would leave the observed f at the edge of either tail. */
function noncentralityOfF(
  { f, numeratorDf, denominatorDf }: { f: number; numeratorDf: number; denominatorDf: number },
  level: number,
): { lower: number; upper: number } {
  const limit = (target: number): number => {
    if (fCdf(f, numeratorDf, denominatorDf) <= target) return 0;
    const above = (noncentrality: number) => noncentralFCdf(f, numeratorDf, denominatorDf, noncentrality) - target;
    let high = Math.max(1, 2 * f * numeratorDf);
    while (above(high) > 0) high *= 2;
    return findRoot(above, 0, high, 1e-12);
  };
  return { lower: limit((1 + level) / 2), upper: limit((1 - level) / 2) };
}

/**
 * Eta squared: a term's share of the total sum of squares.
 * @param termSumOfSquares 0 or more; total above 0 and at least as large
 * @throws RangeError if the sums are not so
 * @source Cohen 1973, Educational and Psychological Measurement 33(1):107-112
 * @example etaSquared(3, 12) // 0.25
 */
export function etaSquared(termSumOfSquares: number, totalSumOfSquares: number): number {
  requirePositive("etaSquared", "totalSumOfSquares", totalSumOfSquares);
  if (!(termSumOfSquares >= 0) || termSumOfSquares > totalSumOfSquares * (1 + 1e-12)) {
    throw new RangeError(
      `etaSquared: the term's sum must lie from 0 to ${totalSumOfSquares}; received ${termSumOfSquares}`,
    );
  }
  return Math.min(1, termSumOfSquares / totalSumOfSquares);
}

/**
 * Omega squared: a term's share of the total variance with most of the upward bias of eta squared removed.
 * @param lines the term's sum of squares and degrees of freedom, the residual mean square and the total sum of squares
 * @returns a proportion, 0 where the formula falls below 0
 * @throws RangeError if the total and the residual are both 0
 * @source Olejnik and Algina 2003, Psychological Methods 8(4):434-447, after Hays 1963, Statistics for Psychologists
 * @example omegaSquared({ sumOfSquares: 3, degreesOfFreedom: 1, residualMeanSquare: 0.9, totalSumOfSquares: 12 }) // 0.1627...
 */
export function omegaSquared(lines: {
  sumOfSquares: number;
  degreesOfFreedom: number;
  residualMeanSquare: number;
  totalSumOfSquares: number;
}): number {
  const below = lines.totalSumOfSquares + lines.residualMeanSquare;
  requirePositive("omegaSquared", "total and residual together", below);
  return Math.max(0, (lines.sumOfSquares - lines.degreesOfFreedom * lines.residualMeanSquare) / below);
}
