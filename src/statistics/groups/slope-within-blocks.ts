import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** The values of one block over an amount. */
export interface BlockOfValues {
  amount: ReadonlyArray<number>;
  value: ReadonlyArray<number>;
}

/** A slope pooled over blocks that each have their own level, with a variance that holds when slopes differ between blocks. */
export interface SlopeWithinBlocks {
  slope: number;
  standardError: number;
  /** of Bell and McCaffrey: blocks less 1 when all blocks weigh the same */
  degreesOfFreedom: number;
  /** squared standard error times `sumOfSquares`: the mean square that blocks' slopes show */
  meanSquare: number;
  /** of the amounts about their block's mean, over all blocks */
  sumOfSquares: number;
  /** blocks whose amounts vary; the others say nothing */
  blocks: number;
}

/**
 * Straight-line change with an amount inside blocks, judged by how much the blocks' own slopes differ (the bias-reduced
 * cluster-robust variance in closed form for one slope with block levels removed).
 * @param blocks values of each block; blocks whose amounts do not vary count for nothing
 * @returns slope in value units per amount unit; undefined with fewer than two blocks whose amounts vary
 * @throws RangeError if columns differ in length or a number is not finite
 * @source Bell and McCaffrey 2002, Survey Methodology 28:169-181, variance CR2 and its degrees of freedom; as advice for few
 *   clusters Imbens and Kolesár 2016, Review of Economics and Statistics 98:701-712
 * @example slopeWithinBlocks([{ amount: [0, 1], value: [1, 2] }, { amount: [0, 1], value: [5, 8] }])?.slope // 2
 */
export function slopeWithinBlocks(blocks: ReadonlyArray<BlockOfValues>): SlopeWithinBlocks | undefined {
  const squares: number[] = [];
  const slopes: number[] = [];
  let sumOfSquares = 0;
  for (const { amount, value } of blocks) {
    requireSameLength("slopeWithinBlocks", "amount", amount, "value", value);
    requireFinite("slopeWithinBlocks", "amount", amount);
    requireFinite("slopeWithinBlocks", "value", value);
    let meanAmount = 0;
    let meanValue = 0;
    for (let i = 0; i < amount.length; i++) {
      meanAmount += amount[i]! / amount.length;
      meanValue += value[i]! / amount.length;
    }
    let square = 0;
    let product = 0;
    let size = 0;
    for (let i = 0; i < amount.length; i++) {
      square += (amount[i]! - meanAmount) ** 2;
      product += (amount[i]! - meanAmount) * (value[i]! - meanValue);
      size = Math.max(size, Math.abs(amount[i]!));
    }
    if (!(square > (1e-12 * size) ** 2)) continue;
    squares.push(square);
    slopes.push(product / square);
    sumOfSquares += square;
  }
  if (squares.length < 2) return undefined;
  let slope = 0;
  squares.forEach((square, g) => {
    slope += (square / sumOfSquares) * slopes[g]!;
  });
  let variance = 0;
  let sumWeights2 = 0;
  let sumA = 0;
  let sumA2 = 0;
  squares.forEach((square, g) => {
    const weight = square / sumOfSquares;
    const a = weight ** 2 / (1 - weight);
    variance += a * (slopes[g]! - slope) ** 2;
    sumWeights2 += weight ** 2;
    sumA += a;
    sumA2 += a ** 2;
  });
  return {
    slope,
    standardError: Math.sqrt(variance),
    degreesOfFreedom: 1 / (sumWeights2 + sumA ** 2 - sumA2),
    meanSquare: variance * sumOfSquares,
    sumOfSquares,
    blocks: squares.length,
  };
}
