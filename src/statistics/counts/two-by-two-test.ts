import { findRoot } from "../distributions/find-root.ts";
import { logGamma } from "../distributions/gamma.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { contingencyTable } from "./contingency-table.ts";
import { fisherExactTest } from "./fisher-exact-test.ts";

/** Exact analysis of a two-by-two table. */
export interface TwoByTwoTest {
  /** odds of the first column in the first row over those in the second, by conditional maximum likelihood; 0 or infinite at the edge */
  oddsRatio: number;
  /** cross-product ratio of the counts; 0 or infinite when a cell is empty */
  sampleOddsRatio: number;
  /** exact limits of the odds ratio; the upper one can be infinite */
  lower: number;
  upper: number;
  level: number;
  /** two-sided, the tables no more likely than the observed one */
  p: number;
  midP: number;
  /** one-sided, for an odds ratio above 1 */
  pGreater: number;
  /** one-sided, for an odds ratio below 1 */
  pLess: number;
}

/**
 * Do two groups differ in a yes-or-no outcome? Exact, whatever the counts.
 * @param table two rows of two counts; every row and column must hold something
 * @param level confidence level of the odds ratio's interval, 0.95 unless stated
 * @throws RangeError if the table is not two by two, a cell is not a whole number of 0 or more, or a margin is empty
 * @source Freeman and Halton 1951, Biometrika 38(1/2):141-149, for two rows and columns; interval: Cornfield 1956,
 *   Proceedings of the Third Berkeley Symposium 4:135-148; values as R's fisher.test
 * @example twoByTwoTest([[3, 1], [1, 3]]).p // 0.4857142857142857
 */
export function twoByTwoTest(table: ReadonlyArray<ReadonlyArray<number>>, level = 0.95): TwoByTwoTest {
  requireOpenProbability("twoByTwoTest", "level", level);
  const { cells, rowTotals, columnTotals, total } = contingencyTable("twoByTwoTest", table);
  if (rowTotals.length !== 2 || columnTotals.length !== 2) {
    throw new RangeError(
      `twoByTwoTest: the table must be two by two; received ${rowTotals.length} by ${columnTotals.length}`,
    );
  }
  const [[a, b], [c, d]] = cells as [[number, number], [number, number]];
  const smallest = Math.max(0, rowTotals[0]! - columnTotals[1]!);
  const largest = Math.min(rowTotals[0]!, columnTotals[0]!);
  const weights: number[] = [];
  for (let count = smallest; count <= largest; count++) {
    weights.push(
      -logGamma(count + 1) -
        logGamma(rowTotals[0]! - count + 1) -
        logGamma(columnTotals[0]! - count + 1) -
        logGamma(total - rowTotals[0]! - columnTotals[0]! + count + 1),
    );
  }
  /** Chances of each count in the first cell when the log odds ratio is as given. */
  const chances = (logOdds: number): number[] => {
    const logs = weights.map((weight, index) => weight + logOdds * (smallest + index));
    const peak = Math.max(...logs);
    const raw = logs.map((log) => Math.exp(log - peak));
    const sum = raw.reduce((all, value) => all + value, 0);
    return raw.map((value) => value / sum);
  };
  const sumWhere = (logOdds: number, keep: (count: number) => boolean): number =>
    chances(logOdds).reduce((sum, chance, index) => (keep(smallest + index) ? sum + chance : sum), 0);
  const atLeast = (logOdds: number): number => sumWhere(logOdds, (count) => count >= a);
  const atMost = (logOdds: number): number => sumWhere(logOdds, (count) => count <= a);
  const tail = (1 - level) / 2;
  const solve = (f: (logOdds: number) => number): number => Math.exp(findRoot(f, -700, 700, 1e-14));
  return {
    oddsRatio:
      a === smallest
        ? 0
        : a === largest
          ? Number.POSITIVE_INFINITY
          : solve((logOdds) =>
              chances(logOdds).reduce((sum, chance, index) => sum + chance * (smallest + index - a), 0),
            ),
    sampleOddsRatio: b * c === 0 ? (a * d === 0 ? 0 : Number.POSITIVE_INFINITY) : (a * d) / (b * c),
    lower: a === smallest ? 0 : solve((logOdds) => Math.log(Math.max(1e-300, atLeast(logOdds)) / tail)),
    upper:
      a === largest ? Number.POSITIVE_INFINITY : solve((logOdds) => Math.log(Math.max(1e-300, atMost(logOdds)) / tail)),
    level,
    ...fisherExactTest(table),
    pGreater: Math.min(1, atLeast(0)),
    pLess: Math.min(1, atMost(0)),
  };
}
