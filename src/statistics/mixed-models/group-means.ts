import { addOuter, type Matrix, zeroMatrix } from "../linear-algebra/dense-matrix.ts";

/** Sufficient statistics of columns split into groups. */
export interface GroupMeans {
  /** observations in each group */
  counts: Float64Array;
  /** row g: mean of each column in group g */
  means: Matrix;
  /** sums of squares and products of deviations from the group's mean, over all groups */
  withinProducts: Matrix;
}

/**
 * Group means and pooled products within groups; time and memory grow in proportion to the observations.
 * @param columns equally long columns
 * @param index group number of each observation, from 0
 * @internal
 */
export function groupMeans(columns: ReadonlyArray<Float64Array>, index: Int32Array, groups: number): GroupMeans {
  const width = columns.length;
  const counts = new Float64Array(groups);
  const means = zeroMatrix(groups, width);
  for (let i = 0; i < index.length; i++) counts[index[i]!]! += 1;
  for (let j = 0; j < width; j++) {
    const column = columns[j]!;
    for (let i = 0; i < index.length; i++) means[index[i]!]![j]! += column[i]!;
  }
  for (let g = 0; g < groups; g++) for (let j = 0; j < width; j++) means[g]![j]! /= counts[g]!;
  const deviation = new Float64Array(width);
  const withinProducts = zeroMatrix(width, width);
  for (let i = 0; i < index.length; i++) {
    const mean = means[index[i]!]!;
    for (let j = 0; j < width; j++) deviation[j] = columns[j]![i]! - mean[j]!;
    addOuter(withinProducts, 1, deviation, deviation);
  }
  return { counts, means, withinProducts };
}
