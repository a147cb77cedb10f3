import type { Observation } from "./tray-response.ts";

/** How the spread of trays goes with their mean: as the mean to this power. */
export interface SpreadExponent {
  exponent: number;
  standardError: number;
  /** arm and group combinations it was read from */
  cells: number;
}

const leastPerCell = 3;

interface Cell {
  logMean: number;
  logSpread: number;
  /** 1 over the sampling variance of `logSpread` */
  weight: number;
}

/** Mean and variance of half the logarithm of a chi-square over its degrees of freedom, by the digamma function's series. */
function logSpreadSampling(degrees: number): { mean: number; variance: number } {
  const x = degrees / 2;
  const bias = -1 / (2 * x) - 1 / (12 * x ** 2) + 1 / (120 * x ** 4);
  const variance = 1 / x + 1 / (2 * x ** 2) + 1 / (6 * x ** 3) - 1 / (30 * x ** 5);
  return { mean: bias / 2, variance: variance / 4 };
}

function cellsOf(observations: ReadonlyArray<Observation>): Cell[] {
  const byCell = new Map<string, number[]>();
  for (const { arm, groups, value } of observations) {
    const key = JSON.stringify([arm, ...groups]);
    const own = byCell.get(key);
    if (own === undefined) byCell.set(key, [value]);
    else own.push(value);
  }
  return [...byCell.values()].flatMap((values) => {
    if (values.length < leastPerCell) return [];
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    if (!(mean > 0 && squares > 0)) return [];
    const degrees = values.length - 1;
    const sampling = logSpreadSampling(degrees);
    return [
      {
        logMean: Math.log(mean),
        logSpread: Math.log(squares / degrees) / 2 - sampling.mean,
        weight: 1 / sampling.variance,
      },
    ];
  });
}

/**
 * Fits the logarithm of the standard deviation within each arm and group to the logarithm of its mean.
 * @returns undefined with fewer than 3 cells of 3 trays, or means that do not differ
 * @source Box, Hunter and Hunter 1978, Statistics for Experimenters, section 7.8: a slope near 1 calls for logarithms
 *   (from memory); the sampling variance of a log variance is the trigamma function of half its degrees of freedom
 *   (Bartlett and Kendall 1946, Supplement to the Journal of the Royal Statistical Society 8:128)
 */
export function spreadExponent(observations: ReadonlyArray<Observation>): SpreadExponent | undefined {
  const cells = cellsOf(observations);
  if (cells.length < 3) return undefined;
  const whole = cells.reduce((sum, { weight }) => sum + weight, 0);
  const centre = (of: (cell: Cell) => number) => cells.reduce((sum, cell) => sum + cell.weight * of(cell), 0) / whole;
  const [x, y] = [centre(({ logMean }) => logMean), centre(({ logSpread }) => logSpread)];
  const squares = cells.reduce((sum, { weight, logMean }) => sum + weight * (logMean - x) ** 2, 0);
  const products = cells.reduce((sum, cell) => sum + cell.weight * (cell.logMean - x) * (cell.logSpread - y), 0);
  if (!(squares > 1e-9 * whole)) return undefined;
  return { exponent: products / squares, standardError: 1 / Math.sqrt(squares), cells: cells.length };
}

const reach = 1.96;

/**
 * Whether spread grows in proportion to the mean, as far as these trays can show: the exponent's 95% interval lies between
 * 0 (the same spread everywhere) and 2, so that 1, the logarithm's, is the whole power it points to.
 */
export function growsInProportion(found: SpreadExponent | undefined): found is SpreadExponent {
  if (found === undefined) return false;
  const { exponent, standardError } = found;
  return exponent - reach * standardError > 0 && exponent + reach * standardError < 2;
}
