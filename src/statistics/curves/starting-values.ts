import type { CurveData } from "./curve-data.ts";
import { fitKnownColumns } from "./curve-problem.ts";

/**
 * Starting values for a curve that is linear in some parameters once the others are given: the others run over a grid,
 * the linear ones are fitted at each point, and the best local minima are handed on.
 * @param grid values of the parameters that are not linear, neighbours next to one another
 * @param columnCount number of linear coefficients
 * @param fill writes the known functions at dose x for one grid point
 * @param assemble parameters from the grid point and the fitted coefficients; undefined where they mean nothing
 * @returns at most `keep` starts, smallest residual sum of squares first
 * @source the idea of projecting out linear parameters: Golub and Pereyra 1973, SIAM Journal on Numerical Analysis
 *   10(2):413-432
 * @internal
 */
export function startsByProjection(
  data: CurveData,
  grid: ReadonlyArray<ReadonlyArray<number>>,
  columnCount: number,
  fill: (x: number, point: ReadonlyArray<number>, into: Float64Array) => void,
  assemble: (point: ReadonlyArray<number>, coefficients: ReadonlyArray<number>) => number[] | undefined,
  keep = 3,
): number[][] {
  const tried: { sum: number; start: number[] | undefined }[] = grid.map((point) => {
    const fit = fitKnownColumns(data, columnCount, (i, into) => fill(data.doses[i]!, point, into));
    const usable = fit.independence > 1e-12 && Number.isFinite(fit.residualSumOfSquares);
    return usable
      ? { sum: fit.residualSumOfSquares, start: assemble(point, fit.coefficients) }
      : { sum: Number.POSITIVE_INFINITY, start: undefined };
  });
  return tried
    .filter(
      ({ sum, start }, k) =>
        start !== undefined && sum <= (tried[k - 1]?.sum ?? Infinity) && sum <= (tried[k + 1]?.sum ?? Infinity),
    )
    .sort((a, b) => a.sum - b.sum)
    .slice(0, keep)
    .map(({ start }) => start!);
}

/**
 * Values from `low` to `high` in equal ratios.
 * @internal
 */
export function ratioGrid(low: number, high: number, count: number): number[][] {
  return Array.from({ length: count }, (_, i) => [low * (high / low) ** (i / (count - 1))]);
}

/**
 * Largest dose less smallest.
 * @internal
 */
export function doseSpan(data: CurveData): number {
  return data.differentDoses.at(-1)! - data.differentDoses[0]!;
}

/**
 * The smallest step between two different doses.
 * @internal
 */
export function smallestStep(data: CurveData): number {
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < data.differentDoses.length; i++) {
    step = Math.min(step, data.differentDoses[i]! - data.differentDoses[i - 1]!);
  }
  return step;
}
