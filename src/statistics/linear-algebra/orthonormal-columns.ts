/** The columns of a design matrix turned into perpendicular columns of unit length. */
export interface OrthonormalColumns {
  /** perpendicular unit columns, one for each kept column of the design */
  basis: Float64Array[];
  /** triangle[i][k]: the part of kept column k along basis column i; 0 for i > k */
  triangle: Float64Array[];
  /** positions of the kept columns in the design, in their order */
  kept: number[];
  /** positions of columns that are sums of multiples of earlier kept columns, with the multiple of each kept column */
  collinear: { column: number; multiples: Float64Array }[];
}

/** A column keeps less than this share of its length when it is taken to be a sum of multiples of earlier ones. */
const collinearShare = 1e-9;

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Takes the parts along each basis column out of a column, twice, so that rounding does not tilt it; returns the parts. */
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
 * Gram-Schmidt with a second pass, keeping the order of columns and setting aside each that earlier columns explain.
 * @param columns equally long columns of finite numbers; left as they were
 * @source Golub and Van Loan 1996, Matrix Computations, 3rd edition, section 5.2.8; two passes are enough:
 *   Giraud, Langou and Rozloznik 2005, Computers and Mathematics with Applications 50:1069-1075 (both from memory)
 */
export function orthonormalColumns(columns: ReadonlyArray<Float64Array>): OrthonormalColumns {
  const result: OrthonormalColumns = { basis: [], triangle: [], kept: [], collinear: [] };
  const parts: Float64Array[] = [];
  const lengths: number[] = [];
  const setAside: { column: number; along: Float64Array; length: number }[] = [];
  columns.forEach((original, position) => {
    const column = original.slice();
    let largest = 0;
    for (const value of column) largest = Math.max(largest, Math.abs(value));
    const length = largest === 0 ? 0 : largest * Math.sqrt(column.reduce((sum, v) => sum + (v / largest) ** 2, 0));
    const along = removeParts(column, result.basis);
    const left = Math.sqrt(dot(column, column));
    if (length === 0 || left <= collinearShare * length) {
      setAside.push({ column: position, along, length });
      return;
    }
    for (let i = 0; i < column.length; i++) column[i]! /= left;
    parts.push(Float64Array.of(...along, left));
    result.basis.push(column);
    result.kept.push(position);
    lengths.push(length);
  });
  const size = parts.length;
  result.triangle = Array.from({ length: size }, (_, i) => Float64Array.from(parts, (column) => column[i] ?? 0));
  for (const { column, along, length } of setAside) {
    const multiples = new Float64Array(size);
    multiples.set(solveUpper(result.triangle.slice(0, along.length), along));
    for (let k = 0; k < size; k++) {
      if (Math.abs(multiples[k]!) * lengths[k]! <= 10 * collinearShare * length) multiples[k] = 0;
    }
    result.collinear.push({ column, multiples });
  }
  return result;
}

/** Solves triangle * x = right for an upper triangle. */
export function solveUpper(triangle: ReadonlyArray<Float64Array>, right: ArrayLike<number>): Float64Array {
  const x = new Float64Array(triangle.length);
  for (let i = triangle.length - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let k = i + 1; k < triangle.length; k++) sum -= triangle[i]![k]! * x[k]!;
    x[i] = sum / triangle[i]![i]!;
  }
  return x;
}

/** Solves triangle' * x = right for an upper triangle. */
export function solveUpperTransposed(triangle: ReadonlyArray<Float64Array>, right: ArrayLike<number>): Float64Array {
  const x = new Float64Array(triangle.length);
  for (let i = 0; i < triangle.length; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= triangle[k]![i]! * x[k]!;
    x[i] = sum / triangle[i]![i]!;
  }
  return x;
}
