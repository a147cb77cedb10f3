/** A design taken apart as Q R. */
export interface OrthogonalDesign {
  /** orthonormal columns */
  q: Float64Array[];
  /** upper triangle, row by row */
  r: Float64Array[];
  /** the first column that follows from earlier ones, at which the split stopped; absent when there is none */
  dependent?: number;
}

/**
 * Splits a design into orthonormal columns and a triangle, by Gram-Schmidt with every column gone over twice.
 * @param columns of the design, equally long
 * @source Giraud, Langou and Rozloznik 2005, Computers and Mathematics with Applications 50:1069-1075: "twice is enough" (from memory)
 */
export function orthogonalDesign(columns: ReadonlyArray<Float64Array>): OrthogonalDesign {
  const width = columns.length;
  const q = columns.map((column) => Float64Array.from(column));
  const r = Array.from({ length: width }, () => new Float64Array(width));
  for (let column = 0; column < width; column++) {
    const current = q[column]!;
    const before = lengthOf(current);
    for (let pass = 0; pass < 2; pass++) {
      for (let earlier = 0; earlier < column; earlier++) {
        const other = q[earlier]!;
        const product = dot(other, current);
        for (let row = 0; row < current.length; row++) current[row]! -= product * other[row]!;
        r[earlier]![column]! += product;
      }
    }
    const after = lengthOf(current);
    if (!(after > 1e-11 * before)) return { q, r, dependent: column };
    for (let row = 0; row < current.length; row++) current[row]! /= after;
    r[column]![column] = after;
  }
  return { q, r };
}

/**
 * Fails if a column of a design is a combination of earlier ones.
 * @throws RangeError naming the column
 */
export function requireIndependent(routine: string, design: OrthogonalDesign, names: ReadonlyArray<string>): void {
  if (design.dependent === undefined) return;
  throw new RangeError(
    `${routine}: the column "${names[design.dependent]}" must not follow from the others; received one that does`,
  );
}

/** The columns of row-major rows. */
export function columnsOf(rows: ReadonlyArray<Float64Array>, width: number): Float64Array[] {
  return Array.from({ length: width }, (_, column) => Float64Array.from(rows, (row) => row[column]!));
}

/** Sum of products. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index++) sum += a[index]! * b[index]!;
  return sum;
}

function lengthOf(column: Float64Array): number {
  let largest = 0;
  for (const value of column) largest = Math.max(largest, Math.abs(value));
  if (largest === 0) return 0;
  let sum = 0;
  for (let row = 0; row < column.length; row++) sum += (column[row]! / largest) ** 2;
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
