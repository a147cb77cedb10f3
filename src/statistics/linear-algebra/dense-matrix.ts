/** A matrix as an array of rows. */
export type Matrix = Float64Array[];

/**
 * A matrix of zeros.
 * @example zeroMatrix(1, 2) // [[0, 0]]
 */
export function zeroMatrix(rows: number, columns: number): Matrix {
  return Array.from({ length: rows }, () => new Float64Array(columns));
}

/**
 * Copies the leading rows and columns of a matrix.
 * @example leadingBlock([Float64Array.of(1, 2), Float64Array.of(3, 4)], 1) // [[1]]
 */
export function leadingBlock(matrix: Matrix, size: number): Matrix {
  return Array.from({ length: size }, (_, row) => matrix[row]!.slice(0, size));
}

/**
 * The sum of `factor` times each matrix; all are equally large.
 * @example weightedSum([[2, [Float64Array.of(1, 2)]], [3, [Float64Array.of(1, 0)]]]) // [[5, 4]]
 */
export function weightedSum(terms: ReadonlyArray<readonly [factor: number, matrix: Matrix]>): Matrix {
  const [, first] = terms[0]!;
  const sum = zeroMatrix(first.length, first[0]?.length ?? 0);
  for (const [factor, matrix] of terms) {
    for (let i = 0; i < sum.length; i++) {
      const row = matrix[i]!;
      const target = sum[i]!;
      for (let j = 0; j < row.length; j++) target[j]! += factor * row[j]!;
    }
  }
  return sum;
}

/**
 * Matrix product.
 * @example multiply([Float64Array.of(1, 2)], [Float64Array.of(3), Float64Array.of(4)]) // [[11]]
 */
export function multiply(left: Matrix, right: Matrix): Matrix {
  const columns = right[0]?.length ?? 0;
  return left.map((row) => {
    const product = new Float64Array(columns);
    for (let k = 0; k < row.length; k++) {
      const factor = row[k]!;
      const other = right[k]!;
      for (let j = 0; j < columns; j++) product[j]! += factor * other[j]!;
    }
    return product;
  });
}

/**
 * The trace of a product, without forming the product.
 * @example traceOfProduct([Float64Array.of(1, 2)], [Float64Array.of(3), Float64Array.of(4)]) // 11
 */
export function traceOfProduct(left: Matrix, right: Matrix): number {
  let sum = 0;
  for (let i = 0; i < left.length; i++) {
    for (let j = 0; j < right.length; j++) sum += left[i]![j]! * right[j]![i]!;
  }
  return sum;
}

/**
 * left' matrix right
 * @example bilinear([1, 2], [Float64Array.of(1, 0), Float64Array.of(0, 3)], [1, 1]) // 7
 */
export function bilinear(left: ArrayLike<number>, matrix: Matrix, right: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < left.length; i++) {
    let inner = 0;
    for (let j = 0; j < right.length; j++) inner += matrix[i]![j]! * right[j]!;
    sum += left[i]! * inner;
  }
  return sum;
}

/**
 * Matrix times a column.
 * @example multiplyVector([Float64Array.of(1, 2)], [3, 4]) // [11]
 */
export function multiplyVector(matrix: Matrix, vector: ArrayLike<number>): Float64Array {
  return Float64Array.from(matrix, (row) => {
    let sum = 0;
    for (let j = 0; j < row.length; j++) sum += row[j]! * vector[j]!;
    return sum;
  });
}

/**
 * Adds factor * a b' to a matrix in place.
 * @example
 * const sum = zeroMatrix(1, 2);
 * addOuter(sum, 2, [1], [3, 4]);
 * sum // [[6, 8]]
 */
export function addOuter(target: Matrix, factor: number, a: ArrayLike<number>, b: ArrayLike<number>): void {
  for (let i = 0; i < target.length; i++) {
    const scaled = factor * a[i]!;
    const row = target[i]!;
    for (let j = 0; j < row.length; j++) row[j]! += scaled * b[j]!;
  }
}

/**
 * A square matrix held row after row, for sums over very many groups.
 * @example flatMatrix(2) // [0, 0, 0, 0]
 */
export function flatMatrix(size: number): Float64Array {
  return new Float64Array(size * size);
}

/**
 * Adds factor * a b' to a square matrix held row after row.
 * @example
 * const sum = flatMatrix(2);
 * addOuterFlat(sum, 1, Float64Array.of(1, 2), Float64Array.of(3, 4));
 * sum // [3, 4, 6, 8]
 */
export function addOuterFlat(target: Float64Array, factor: number, a: Float64Array, b: Float64Array): void {
  const size = a.length;
  for (let i = 0, place = 0; i < size; i++) {
    const scaled = factor * a[i]!;
    for (let j = 0; j < size; j++, place++) target[place]! += scaled * b[j]!;
  }
}

/**
 * The rows of a square matrix held row after row.
 * @example rowsOfFlat(Float64Array.of(1, 2, 3, 4)) // [[1, 2], [3, 4]]
 */
export function rowsOfFlat(flat: Float64Array): Matrix {
  const size = Math.round(Math.sqrt(flat.length));
  return Array.from({ length: size }, (_, row) => flat.slice(row * size, (row + 1) * size));
}
