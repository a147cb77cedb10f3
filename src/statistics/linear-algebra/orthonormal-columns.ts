import { dot, euclideanLength, ordinary } from "./ordinary-columns.ts";
import { orthogonalFactor } from "./orthogonal-factor.ts";

/** The columns of a design matrix turned into perpendicular columns of unit length. */
export interface OrthonormalColumns {
  /** perpendicular unit columns, one for each kept column of the design */
  basis: Float64Array[];
  /** triangle[i][k]: the part of kept column k along basis column i; above 0 for i = k, 0 for i > k */
  triangle: Float64Array[];
  /** positions of the kept columns in the design, in their order */
  kept: number[];
  /** positions of columns that are sums of multiples of earlier kept columns, with the multiple of each kept column */
  collinear: { column: number; multiples: Float64Array }[];
}

/** A column keeps less than this share of its length when it is taken to be a sum of multiples of earlier ones. */
const collinearShare = 1e-9;

/**
 * Takes the parts along each basis column out of a column, twice, so that rounding does not tilt it.
 * @param column overwritten with what is left of it
 * @param basis perpendicular unit columns
 * @returns the part along each basis column
 * @source two passes are enough: Giraud, Langou and Rozložník 2005, Computers & Mathematics with Applications 50(7):1069-1075
 * @example removeParts(Float64Array.of(3, 4), [Float64Array.of(1, 0)])[0] // 3
 */
export function removeParts(column: Float64Array, basis: ReadonlyArray<Float64Array>): Float64Array {
  const parts = new Float64Array(basis.length);
  for (let pass = 0; pass < 2; pass++) {
    for (let k = 0; k < basis.length; k++) {
      const unit = basis[k]!;
      const part = dot(unit, column);
      parts[k]! += part;
      for (let i = 0; i < column.length; i++) column[i]! -= part * unit[i]!;
    }
  }
  return parts;
}

/**
 * Perpendicular unit columns that span the same as the columns given, keeping their order and setting aside each that
 * earlier columns explain.
 * @param columns equally long columns of finite numbers; left as they are
 * @param dependentBelow the share of its length that a column has to keep beside earlier ones
 * @source Golub and Van Loan 1996, Matrix Computations, 3rd edition, algorithm 5.2.1, p. 224
 * @example orthonormalColumns([Float64Array.of(3, 4)]).triangle[0][0] // 5
 */
export function orthonormalColumns(
  columns: ReadonlyArray<Float64Array>,
  dependentBelow = collinearShare,
): OrthonormalColumns {
  const factor = orthogonalFactor(
    ordinary,
    columns.map((column) => column.slice()),
    dependentBelow,
  );
  const lengthOf = (position: number): number => euclideanLength(columns[position]!);
  const signs = factor.upper.map((row, i) => (row[i]! < 0 ? -1 : 1));
  return {
    basis: factor.basis().map((column, k) => (signs[k] === 1 ? column : column.map((value) => -value))),
    triangle: factor.upper.map((row, i) => Float64Array.from(row, (value) => signs[i]! * value)),
    kept: factor.kept,
    collinear: factor.dependent.map(({ column, multiples }) => ({
      column,
      multiples: Float64Array.from(multiples, (multiple, k) =>
        Math.abs(multiple) * lengthOf(factor.kept[k]!) <= 10 * dependentBelow * lengthOf(column) ? 0 : multiple,
      ),
    })),
  };
}
