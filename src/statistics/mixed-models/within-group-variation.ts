import { orthonormalColumns, removeParts } from "../linear-algebra/orthonormal-columns.ts";
import { groupMeans } from "./group-means.ts";

/**
 * What is left of a response inside groups after the fixed columns: the residual of a fit that gives each group its own level.
 * @returns rank: how many fixed columns vary within groups; sumOfSquares: what they leave of the response's deviations
 * @internal
 */
export function withinGroupVariation(
  columns: ReadonlyArray<Float64Array>,
  response: Float64Array,
  index: Int32Array,
  groups: number,
): { rank: number; sumOfSquares: number } {
  const { means } = groupMeans([...columns, response], index, groups);
  const deviations = [...columns, response].map((column, c) => column.map((value, i) => value - means[index[i]!]![c]!));
  const left = deviations.pop()!;
  // a column that is constant within groups leaves only rounding here; measured against its own length it is nothing
  const varying = deviations.filter((deviation) => deviation.some((value) => Math.abs(value) > 0));
  const lengths = varying.map((deviation) => Math.sqrt(deviation.reduce((sum, value) => sum + value * value, 0)));
  const within = orthonormalColumns(varying.filter((_, k) => lengths[k]! > 1e-10));
  removeParts(left, within.basis);
  return { rank: within.basis.length, sumOfSquares: left.reduce((sum, value) => sum + value * value, 0) };
}
