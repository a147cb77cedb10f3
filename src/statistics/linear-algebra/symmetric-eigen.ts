import { type Matrix, zeroMatrix } from "./dense-matrix.ts";

/**
 * Eigenvalues and eigenvectors of a small symmetric matrix by Jacobi rotations.
 * @param matrix symmetric; left as it was
 * @returns values in no particular order; vectors[k] is the unit vector that belongs to values[k]
 * @throws RangeError if the rotations do not settle in 100 sweeps
 * @source Golub and Van Loan 1996, Matrix Computations, 3rd edition, algorithm 8.4.3
 * @example symmetricEigen([Float64Array.of(2, 1), Float64Array.of(1, 2)]).values // [1, 3]
 */
export function symmetricEigen(matrix: Matrix): { values: number[]; vectors: Matrix } {
  const size = matrix.length;
  const a = matrix.map((row) => row.slice());
  const vectors = zeroMatrix(size, size);
  for (let i = 0; i < size; i++) vectors[i]![i] = 1;
  for (let sweep = 0; sweep < 100; sweep++) {
    let rotated = false;
    for (let p = 0; p < size; p++) {
      for (let q = p + 1; q < size; q++) {
        const off = a[p]![q]!;
        if (Math.abs(off) <= 1e-17 * Math.sqrt(Math.abs(a[p]![p]! * a[q]![q]!)) || off === 0) continue;
        rotated = true;
        const ratio = (a[q]![q]! - a[p]![p]!) / (2 * off);
        const tangent = Math.sign(ratio || 1) / (Math.abs(ratio) + Math.sqrt(1 + ratio * ratio));
        const cosine = 1 / Math.sqrt(1 + tangent * tangent);
        const sine = tangent * cosine;
        for (let k = 0; k < size; k++) {
          const [kp, kq] = [a[k]![p]!, a[k]![q]!];
          a[k]![p] = cosine * kp - sine * kq;
          a[k]![q] = sine * kp + cosine * kq;
        }
        for (let k = 0; k < size; k++) {
          const [pk, qk] = [a[p]![k]!, a[q]![k]!];
          a[p]![k] = cosine * pk - sine * qk;
          a[q]![k] = sine * pk + cosine * qk;
          const [vp, vq] = [vectors[p]![k]!, vectors[q]![k]!];
          vectors[p]![k] = cosine * vp - sine * vq;
          vectors[q]![k] = sine * vp + cosine * vq;
        }
        a[p]![q] = 0;
        a[q]![p] = 0;
      }
    }
    if (!rotated) return { values: a.map((row, i) => row[i]!), vectors };
  }
  throw new RangeError("symmetricEigen: the matrix must have finite entries; the rotations did not settle");
}
