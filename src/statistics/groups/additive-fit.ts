import { cholesky } from "../linear-algebra/cholesky.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";

/** One value of a two-way table: block from 0, level from 0, several values per place allowed. */
export interface TableCell {
  block: number;
  level: number;
  value: number;
}

/** Least squares of a two-way table on block + level. */
export interface AdditiveFit {
  /** effect of each level adjusted for blocks, their plain mean 0 */
  effects: number[];
  /** variance of a sum of effects with these weights (sum 0), as a multiple of the residual variance */
  varianceOf(weights: ReadonlyArray<number>): number;
  residual: { degreesOfFreedom: number; sumOfSquares: number };
  /** levels after blocks */
  levels: { degreesOfFreedom: number; sumOfSquares: number };
}

/**
 * Levels adjusted for blocks from the values of a two-way table that may have holes; time in proportion to the values.
 * @param cells one or more values; every block from 0 to `blockCount` - 1 has at least one
 * @returns undefined if blocks do not connect all levels, so that some cannot be compared
 * @throws RangeError if a place lies outside the table or a value is not finite
 * @source method of fitting constants, Yates 1933, Empire Journal of Experimental Agriculture 1:129-142 (from memory)
 * @example
 * const cells = [[0, 0, 1], [0, 1, 3], [1, 0, 2], [1, 1, 5]].map(([block, level, value]) => ({ block, level, value }));
 * additiveFit(cells, 2, 2)?.effects // [-1.25, 1.25]
 */
export function additiveFit(
  cells: ReadonlyArray<TableCell>,
  blockCount: number,
  levelCount: number,
): AdditiveFit | undefined {
  requireTable(cells, blockCount, levelCount);
  const blocks: TableCell[][] = Array.from({ length: blockCount }, () => []);
  for (const cell of cells) blocks[cell.block]!.push(cell);
  const means = blocks.map((block) => block.reduce((sum, { value }) => sum + value, 0) / Math.max(1, block.length));
  // normal equations of levels 1.. with blocks eliminated; level 0 is the reference
  const size = levelCount - 1;
  const matrix = zeroMatrix(size, size);
  const right = new Float64Array(size);
  const counts = new Map<number, number>();
  blocks.forEach((block, b) => {
    counts.clear();
    for (const { level, value } of block) {
      if (level === 0) continue;
      counts.set(level, (counts.get(level) ?? 0) + 1);
      right[level - 1]! += value - means[b]!;
    }
    for (const [level, count] of counts) {
      matrix[level - 1]![level - 1]! += count;
      for (const [other, also] of counts) matrix[level - 1]![other - 1]! -= (count * also) / block.length;
    }
  });
  const factor = size === 0 ? undefined : cholesky(matrix);
  const inverse = factor?.inverse() ?? [];
  if (size > 0 && (factor === undefined || nearlySingular(matrix, inverse))) return undefined;
  const solved = [0, ...(factor?.solve(right) ?? [])];
  const centre = solved.reduce((sum, effect) => sum + effect, 0) / levelCount;
  const effects = solved.map((effect) => effect - centre);
  let residual = 0;
  blocks.forEach((block, b) => {
    const meanEffect = block.reduce((sum, { level }) => sum + effects[level]!, 0) / Math.max(1, block.length);
    for (const { level, value } of block) residual += (value - means[b]! - (effects[level]! - meanEffect)) ** 2;
  });
  let between = 0;
  for (let i = 0; i < size; i++) between += solved[i + 1]! * right[i]!;
  return {
    effects,
    varianceOf: (weights) => {
      let variance = 0;
      for (let i = 0; i < size; i++) {
        for (let j = 0; j < size; j++) variance += weights[i + 1]! * weights[j + 1]! * inverse[i]![j]!;
      }
      return variance;
    },
    residual: { degreesOfFreedom: cells.length - blockCount - size, sumOfSquares: residual },
    levels: { degreesOfFreedom: size, sumOfSquares: Math.max(0, between) },
  };
}

function requireTable(cells: ReadonlyArray<TableCell>, blockCount: number, levelCount: number): void {
  for (const { block, level, value } of cells) {
    if (!(block >= 0 && block < blockCount && level >= 0 && level < levelCount)) {
      throw new RangeError(
        `additiveFit: places must lie in a table of ${blockCount} blocks and ${levelCount} levels; received block ${block}, level ${level}`,
      );
    }
    if (!Number.isFinite(value)) throw new RangeError(`additiveFit: values must be finite; received ${value}`);
  }
}

/** Levels that no chain of blocks connects leave a pivot of rounding noise, and with it an inverse without bound. */
function nearlySingular(matrix: ReadonlyArray<ArrayLike<number>>, inverse: ReadonlyArray<ArrayLike<number>>): boolean {
  return matrix.some((row, i) => row[i]! * inverse[i]![i]! > 1e10);
}
