import type { Matrix } from "../linear-algebra/dense-matrix.ts";

/** How far the levels' variances and covariances are from what an F test over blocks supposes. */
export interface Sphericity {
  /** Greenhouse and Geisser's factor, 1 / (levels - 1) to 1 */
  greenhouseGeisser: number;
  /** Huynh and Feldt's, less biased; set to 1 where it falls outside 0 to 1 */
  huynhFeldt: number;
}

/**
 * Factors by which both degrees of freedom of the F test of levels over complete blocks are multiplied when differences
 * between levels vary unequally.
 * @param blocks the value of each level in each block, every block complete: at least two blocks and two levels
 * @returns 1 and 1 when nothing varies
 * @throws RangeError if there are too few blocks or levels, or blocks differ in length
 * @source Geisser and Greenhouse 1958, Annals of Mathematical Statistics 29:885-891; Huynh and Feldt 1976, Journal of
 *   Educational Statistics 1:69-82, one group of blocks
 * @example sphericity([[1, 2, 4], [2, 2, 5], [1, 3, 9]]).greenhouseGeisser // 0.5358...
 */
export function sphericity(blocks: ReadonlyArray<ReadonlyArray<number>>): Sphericity {
  const levels = blocks[0]?.length ?? 0;
  if (blocks.length < 2 || levels < 2 || blocks.some((block) => block.length !== levels)) {
    throw new RangeError(
      `sphericity: at least 2 blocks of the same 2 or more levels are needed; received ${blocks.length} blocks of ${levels}`,
    );
  }
  const centred = doubleCentred(covariance(blocks));
  let trace = 0;
  let squares = 0;
  centred.forEach((row, i) => {
    trace += row[i]!;
    for (const entry of row) squares += entry ** 2;
  });
  if (!(squares > 0)) return { greenhouseGeisser: 1, huynhFeldt: 1 };
  const free = levels - 1;
  const greenhouseGeisser = trace ** 2 / (free * squares);
  const n = blocks.length;
  const corrected = (n * free * greenhouseGeisser - 2) / (free * (n - 1 - free * greenhouseGeisser));
  return { greenhouseGeisser, huynhFeldt: corrected > 0 && corrected <= 1 ? corrected : 1 };
}

/** Covariances of levels over blocks, divisor blocks - 1. */
function covariance(blocks: ReadonlyArray<ReadonlyArray<number>>): Matrix {
  const levels = blocks[0]!.length;
  const means = blocks[0]!.map((_, i) => blocks.reduce((sum, block) => sum + block[i]!, 0) / blocks.length);
  return Array.from({ length: levels }, (_, i) =>
    Float64Array.from({ length: levels }, (_, j) => {
      let sum = 0;
      for (const block of blocks) sum += (block[i]! - means[i]!) * (block[j]! - means[j]!);
      return sum / (blocks.length - 1);
    }),
  );
}

/** Rows and columns brought to mean 0: what is left concerns differences between levels only. */
function doubleCentred(matrix: Matrix): Matrix {
  const size = matrix.length;
  const rowMeans = matrix.map((row) => row.reduce((sum, entry) => sum + entry, 0) / size);
  const grand = rowMeans.reduce((sum, mean) => sum + mean, 0) / size;
  return matrix.map((row, i) => row.map((entry, j) => entry - rowMeans[i]! - rowMeans[j]! + grand));
}
