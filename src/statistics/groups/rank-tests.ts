import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { requireSample } from "../require-numbers.ts";
import { blockTable } from "./block-table.ts";
import { midranks } from "./midranks.ts";

/** A statistic judged by the chi-square distribution. */
export interface ChiSquareTest {
  statistic: number;
  degreesOfFreedom: number;
  p: number;
}

/**
 * Whether independent groups differ in location, by ranks, with the correction for ties.
 * @param groups the values of each group, one or more each
 * @returns H and its p by the chi-square approximation, which is rough below about 5 values a group
 * @throws RangeError if there are fewer than two groups, one is empty, a value is not finite, or all values are equal
 * @source Kruskal and Wallis 1952, Journal of the American Statistical Association 47(260):583-621
 * @example kruskalWallis([[1, 2], [3, 4]]).statistic // 2.4
 */
export function kruskalWallis(groups: ReadonlyArray<ReadonlyArray<number>>): ChiSquareTest {
  if (groups.length < 2) throw new RangeError(`kruskalWallis: at least 2 groups are needed; received ${groups.length}`);
  groups.forEach((group, i) => {
    requireSample("kruskalWallis", `group ${i + 1}`, group, 1);
  });
  const { ranks, tieSum } = midranks(groups.flat());
  const n = ranks.length;
  if (tieSum === n ** 3 - n) {
    throw new RangeError(`kruskalWallis: the values must differ; received ${groups[0]![0]} only`);
  }
  let start = 0;
  let spread = 0;
  for (const group of groups) {
    let sum = 0;
    for (let i = start; i < start + group.length; i++) sum += ranks[i]! - (n + 1) / 2;
    spread += (sum * sum) / group.length;
    start += group.length;
  }
  const statistic = ((12 / (n * (n + 1))) * spread) / (1 - tieSum / (n ** 3 - n));
  const degreesOfFreedom = groups.length - 1;
  return { statistic, degreesOfFreedom, p: chiSquareUpperTail(statistic, degreesOfFreedom) };
}

/**
 * Whether treatments differ in complete blocks, by ranks within each block, with the correction for ties.
 * @param layout one row per unit; each block must hold each treatment once
 * @returns Q and its p by the chi-square approximation
 * @throws RangeError if there are fewer than two treatments or blocks, a block lacks or repeats a treatment, columns differ
 *   in length, a value is not finite, or the values of every block are all equal
 * @source Friedman 1937, Journal of the American Statistical Association 32(200):675-701
 * @example friedmanTest({ response: [1, 2, 3, 5], treatment: ["A", "B", "A", "B"], block: ["1", "1", "2", "2"] }).statistic // 2
 */
export function friedmanTest(layout: {
  response: ReadonlyArray<number>;
  treatment: ReadonlyArray<string>;
  block: ReadonlyArray<string>;
}): ChiSquareTest {
  const { treatments, blocks, cells } = blockTable("friedmanTest", layout);
  const k = treatments.length;
  const b = blocks.length;
  const sums = new Float64Array(k);
  let ties = 0;
  cells.forEach((row, i) => {
    const values = row.map((cell, j) => {
      if (cell.length !== 1) {
        throw new RangeError(
          `friedmanTest: each block must hold each treatment once; received ${cell.length} of "${treatments[j]}" in "${blocks[i]}"`,
        );
      }
      return cell[0]!;
    });
    const ranked = midranks(values);
    ties += ranked.tieSum;
    ranked.ranks.forEach((rank, j) => {
      sums[j] = sums[j]! + rank - (k + 1) / 2;
    });
  });
  const allTied = b * (k ** 3 - k);
  if (ties === allTied)
    throw new RangeError("friedmanTest: values must differ within a block; received only equal ones");
  const spread = sums.reduce((sum, value) => sum + value * value, 0);
  const statistic = ((12 / (b * k * (k + 1))) * spread) / (1 - ties / allTied);
  return { statistic, degreesOfFreedom: k - 1, p: chiSquareUpperTail(statistic, k - 1) };
}
