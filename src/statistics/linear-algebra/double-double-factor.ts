import type { DoubleDouble } from "./double-double.ts";
import { copyColumn, type DoubleDoubleColumn, doubleDouble } from "./double-double-column.ts";
import { type OrthogonalFactor, orthogonalFactor } from "./orthogonal-factor.ts";

/** A tall matrix as rotation times triangle, in double-double arithmetic. */
export type DoubleDoubleFactor = OrthogonalFactor<DoubleDouble, DoubleDoubleColumn>;

/** A column that keeps less than this share of its length once the columns before it are removed is called dependent. */
const collinearityTolerance = 1e-13;

/**
 * Triangularisation in double-double arithmetic, for designs whose columns are nearly collinear.
 *
 * With 32 digits carried, the only noise in a column is the rounding it arrived with (1 part in 10^16), so dependence can be
 * distinguished from bad conditioning: a tenth-degree polynomial is still independent, a copied or summed column is not.
 * @param columns equally long; left as they are
 * @source as {@link orthogonalFactor}
 * @example doubleDoubleFactor([columnOf([1, 1]), columnOf([2, 2])]).kept // [0]
 */
export function doubleDoubleFactor(columns: ReadonlyArray<DoubleDoubleColumn>): DoubleDoubleFactor {
  return orthogonalFactor(doubleDouble, columns.map(copyColumn), collinearityTolerance);
}
