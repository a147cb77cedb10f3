import { orthonormalColumns, removeParts } from "../linear-algebra/orthonormal-columns.ts";
import { groupMeans } from "./group-means.ts";

/**
 * What is left of a response inside groups after the fixed columns: the residual sum of squares of a fit that gives each
 * group its own level.
 * @param columns perpendicular unit columns
 * @internal
 */
export function withinGroupVariation(
  columns: ReadonlyArray<Float64Array>,
  response: Float64Array,
  index: Int32Array,
  groups: number,
): number {
  const { means } = groupMeans([...columns, response], index, groups);
  const deviations = [...columns, response].map((column, c) => column.map((value, i) => value - means[index[i]!]![c]!));
  const left = deviations.pop()!;
  const squares = (column: Float64Array): number => column.reduce((sum, value) => sum + value * value, 0);
  // a column that is constant within groups leaves only rounding here; measured against its own length it is nothing
  removeParts(left, orthonormalColumns(deviations.filter((deviation) => squares(deviation) > 1e-20)).basis);
  return squares(left);
}
