/** A design taken apart as Q R, with its columns scaled to length 1 first. */
export interface OrthogonalDesign {
  /** row-major, orthonormal columns */
  q: Float64Array[];
  /** upper triangle, of the unscaled design */
  r: Float64Array[];
}

/**
 * Splits a design into orthonormal columns and a triangle, by Gram-Schmidt with every column gone over twice.
 * @param routine named in the error
 * @param rows row-major design
 * @param names of its columns, for the error
 * @throws RangeError if a column is a combination of earlier ones
 * @source Giraud, Langou and Rozloznik 2005, Computers and Mathematics with Applications 50:1069-1075: "twice is enough" (from memory)
 */
export function orthogonalDesign(
  routine: string,
  rows: ReadonlyArray<Float64Array>,
  names: ReadonlyArray<string>,
): OrthogonalDesign {
  const split = splitColumns(rows, names.length);
  if (split.dependent === undefined) return split;
  throw new RangeError(
    `${routine}: the column "${names[split.dependent]}" must not follow from the others; received one that does`,
  );
}

/** The same, which names the first dependent column instead of failing; the split stops before it. */
export function splitColumns(
  rows: ReadonlyArray<Float64Array>,
  width: number,
): OrthogonalDesign & { dependent?: number } {
  const q = rows.map((row) => Float64Array.from(row));
  const r = Array.from({ length: width }, () => new Float64Array(width));
  for (let column = 0; column < width; column++) {
    const before = columnLength(q, column);
    for (let pass = 0; pass < 2; pass++) {
      for (let earlier = 0; earlier < column; earlier++) {
        let product = 0;
        for (const row of q) product += row[earlier]! * row[column]!;
        for (const row of q) row[column]! -= product * row[earlier]!;
        r[earlier]![column]! += product;
      }
    }
    const after = columnLength(q, column);
    if (!(after > 1e-11 * before)) return { q, r, dependent: column };
    for (const row of q) row[column]! /= after;
    r[column]![column] = after;
  }
  return { q, r };
}

function columnLength(rows: ReadonlyArray<Float64Array>, column: number): number {
  let largest = 0;
  for (const row of rows) largest = Math.max(largest, Math.abs(row[column]!));
  if (largest === 0) return 0;
  let sum = 0;
  for (const row of rows) sum += (row[column]! / largest) ** 2;
  return largest * Math.sqrt(sum);
}

/** x with R x = b. */
export function backSolve(r: ReadonlyArray<Float64Array>, b: ArrayLike<number>): Float64Array {
  const x = new Float64Array(r.length);
  for (let row = r.length - 1; row >= 0; row--) {
    let rest = b[row]!;
    for (let column = row + 1; column < r.length; column++) rest -= r[row]![column]! * x[column]!;
    x[row] = rest / r[row]![row]!;
  }
  return x;
}

/** The inverse of R'R, symmetric. */
export function inverseCrossProduct(r: ReadonlyArray<Float64Array>): Float64Array[] {
  const width = r.length;
  const columns = Array.from({ length: width }, (_, column) =>
    backSolve(
      r,
      Float64Array.from({ length: width }, (_, row) => (row === column ? 1 : 0)),
    ),
  );
  return Array.from({ length: width }, (_, i) =>
    Float64Array.from({ length: width }, (_, j) => columns.reduce((sum, column) => sum + column[i]! * column[j]!, 0)),
  );
}
