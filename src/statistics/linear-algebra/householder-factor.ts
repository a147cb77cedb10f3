/** The triangular factor R of a tall matrix with the right-hand side rotated alongside, as least squares needs them. */
export interface HouseholderFactor {
  /** number of columns */
  columns: number;
  /** R by rows, columns x columns, zero below the diagonal */
  upper: Float64Array;
  /** the first `columns` entries of Q'r */
  rotated: Float64Array;
  /** smallest |diagonal of R| relative to the length of its column; 0 when columns depend on one another */
  independence: number;
}

/**
 * Reduces a tall matrix to its triangular factor by Householder reflections; the columns and the right-hand side are overwritten.
 * @param columns one array per column, equally long
 * @param rightHandSide as long as a column
 * @source Golub and Van Loan, Matrix Computations, section 5.2 (from memory)
 */
export function householderFactor(columns: Float64Array[], rightHandSide: Float64Array): HouseholderFactor {
  const count = columns.length;
  const rows = rightHandSide.length;
  const upper = new Float64Array(count * count);
  const rotated = new Float64Array(count);
  let independence = count === 0 ? 1 : Number.POSITIVE_INFINITY;
  const lengths = columns.map((column) => euclideanLength(column, 0));
  for (let k = 0; k < count; k++) {
    const pivot = columns[k]!;
    const length = k < rows ? euclideanLength(pivot, k) : 0;
    independence = Math.min(independence, lengths[k] === 0 ? 0 : length / lengths[k]!);
    const diagonal = length === 0 ? 0 : pivot[k]! > 0 ? -length : length;
    if (length > 0) {
      pivot[k] = pivot[k]! - diagonal;
      const scale = 1 / (-diagonal * pivot[k]!);
      for (let j = k + 1; j < count; j++) reflect(pivot, columns[j]!, k, rows, scale);
      reflect(pivot, rightHandSide, k, rows, scale);
    }
    upper[k * count + k] = diagonal;
    for (let j = k + 1; j < count; j++) upper[k * count + j] = k < rows ? columns[j]![k]! : 0;
    rotated[k] = k < rows ? rightHandSide[k]! : 0;
  }
  return { columns: count, upper, rotated, independence };
}

function euclideanLength(values: Float64Array, from: number): number {
  let largest = 0;
  for (let i = from; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i]!));
  if (largest === 0 || !Number.isFinite(largest)) return largest;
  let sum = 0;
  for (let i = from; i < values.length; i++) {
    const scaled = values[i]! / largest;
    sum += scaled * scaled;
  }
  return largest * Math.sqrt(sum);
}

function reflect(pivot: Float64Array, target: Float64Array, from: number, rows: number, scale: number): void {
  let product = 0;
  for (let i = from; i < rows; i++) product += pivot[i]! * target[i]!;
  const factor = product * scale;
  for (let i = from; i < rows; i++) target[i] = target[i]! - factor * pivot[i]!;
}

/** Solves R x = v for an upper triangular R; a zero on the diagonal gives 0 in that place. */
export function solveUpper(upper: Float64Array, count: number, rightHandSide: Float64Array): Float64Array {
  const solution = new Float64Array(count);
  for (let i = count - 1; i >= 0; i--) {
    let sum = rightHandSide[i]!;
    for (let j = i + 1; j < count; j++) sum -= upper[i * count + j]! * solution[j]!;
    solution[i] = upper[i * count + i] === 0 ? 0 : sum / upper[i * count + i]!;
  }
  return solution;
}

/** The inverse of R'R by rows: the covariance of least-squares estimates apart from the error variance. */
export function inverseOfCrossProduct(upper: Float64Array, count: number): Float64Array {
  const inverse: Float64Array[] = [];
  for (let j = 0; j < count; j++) {
    const unit = new Float64Array(count);
    unit[j] = 1;
    inverse.push(solveUpper(upper, count, unit));
  }
  const product = new Float64Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < count; b++) {
      let sum = 0;
      for (let j = Math.max(a, b); j < count; j++) sum += inverse[j]![a]! * inverse[j]![b]!;
      product[a * count + b] = sum;
    }
  }
  return product;
}
