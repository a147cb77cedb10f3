import { expect, test } from "vitest";
import { cholesky } from "../../../src/statistics/linear-algebra/cholesky.ts";
import {
  addOuter,
  addOuterFlat,
  bilinear,
  flatMatrix,
  leadingBlock,
  type Matrix,
  multiply,
  multiplyVector,
  rowsOfFlat,
  traceOfProduct,
  weightedSum,
  zeroMatrix,
} from "../../../src/statistics/linear-algebra/dense-matrix.ts";
import { negate, squareRoot, sumOfSquares } from "../../../src/statistics/linear-algebra/double-double.ts";
import {
  columnLength,
  columnOf,
  copyColumn,
  dotProduct,
  emptyColumn,
  entry,
  setEntry,
  subtractMultiple,
} from "../../../src/statistics/linear-algebra/double-double-column.ts";
import { dot, euclideanLength, ordinary } from "../../../src/statistics/linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../../../src/statistics/linear-algebra/orthogonal-factor.ts";
import { orthonormalColumns, removeParts } from "../../../src/statistics/linear-algebra/orthonormal-columns.ts";
import { pivotedCholesky } from "../../../src/statistics/linear-algebra/pivoted-cholesky.ts";
import { solveGeneral } from "../../../src/statistics/linear-algebra/solve-general.ts";
import {
  inverseCrossProduct,
  solveUpper,
  solveUpperTransposed,
} from "../../../src/statistics/linear-algebra/triangle.ts";
import { decimalRemainder, typedDecimal } from "../../../src/statistics/linear-algebra/typed-decimal.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";
import { transpose } from "./transpose.ts";

const rowsOf = (...rows: number[][]): Matrix => rows.map((row) => Float64Array.from(row));
const plain = (matrix: Matrix): number[][] => matrix.map((row) => [...row]);
const random = seededRandom(9);
const square = (size: number): Matrix =>
  Array.from({ length: size }, () => Float64Array.from({ length: size }, () => random.normal()));
const identity = (size: number): Matrix =>
  Array.from({ length: size }, (_, i) => Float64Array.from({ length: size }, (__, j) => (i === j ? 1 : 0)));
const near = (a: Matrix, b: Matrix, within = 1e-10): void => {
  expect([a.length, a[0]?.length]).toEqual([b.length, b[0]?.length]);
  a.forEach((row, i) => {
    row.forEach((value, j) => {
      assertClose(value, b[i]![j]!, within);
    });
  });
};

test("the rules of matrices, by hand", () => {
  const a = rowsOf([1, 2, 3], [4, 5, 6]);
  const b = rowsOf([1, 0], [2, 1], [0, 3]);
  expect(plain(multiply(a, b))).toEqual([[5, 11], [14, 23]]); // biome-ignore format: rows
  expect(plain(leadingBlock(a, 1))).toEqual([[1]]);
  expect(plain(leadingBlock(rowsOf([1, 2, 3], [4, 5, 6], [7, 8, 9]), 2))).toEqual([[1, 2], [4, 5]]); // biome-ignore format: rows
  expect(plain(weightedSum([[2, a], [-1, rowsOf([1, 1, 1], [0, 0, 1])]]))).toEqual([[1, 3, 5], [8, 10, 11]]); // biome-ignore format: rows
  expect(traceOfProduct(a, b)).toBe(28);
  expect(bilinear([1, 2], a, [1, 0, -1])).toBe(-6);
  expect([...multiplyVector(a, [1, 0, 2])]).toEqual([7, 16]);
  const sum = zeroMatrix(2, 3);
  addOuter(sum, 2, [1, -1], [1, 2, 3]);
  addOuter(sum, 1, [0, 1], [1, 1, 1]);
  expect(plain(sum)).toEqual([[2, 4, 6], [-1, -3, -5]]); // biome-ignore format: rows
  const flat = flatMatrix(2);
  addOuterFlat(flat, 3, Float64Array.of(1, 2), Float64Array.of(4, 5));
  addOuterFlat(flat, -1, Float64Array.of(1, 0), Float64Array.of(1, 1));
  expect(plain(rowsOfFlat(flat))).toEqual([[11, 14], [24, 30]]); // biome-ignore format: rows
  // nothing of nothing is nothing
  expect([multiply([], []), weightedSum([[1, []]]), rowsOfFlat(flatMatrix(0))]).toEqual([[], [], []]);
});

test("positive definite systems of any size: inverse, solution, determinant; none else", () => {
  for (let size = 1; size <= 6; size++) {
    const half = square(size);
    // columns in units a million times apart change nothing
    const units = Array.from({ length: size }, (_, i) => (i % 2 === 0 ? 1 : 1e6));
    const matrix = multiply(half, transpose(half)).map((row, i) =>
      row.map((value, j) => value * units[i]! * units[j]!),
    );
    const factor = cholesky(matrix)!;
    near(multiply(matrix, factor.inverse()), identity(size), 1e-6);
    expect(plain(factor.inverse())).toEqual(plain(transpose(factor.inverse())));
    const right = Float64Array.from(units, (unit) => unit * random.normal());
    const back = multiplyVector(matrix, factor.solve(right));
    for (let i = 0; i < size; i++) assertClose(back[i]! / right[i]!, 1, 1e-6);
    const logs = units.reduce((all, unit) => all + 2 * Math.log(unit), 0);
    assertClose(factor.logDeterminant, 2 * solveGeneral(half.map((row) => row.slice()), identity(size)) + logs, 1e-8); // biome-ignore format: one call
  }
  const refused = [
    [[0]],
    [[-1]],
    [[Number.NaN]],
    [[Number.POSITIVE_INFINITY]],
    [[1, 1], [1, 1]],
    [[1, 2], [2, 1]],
    [[1, 0], [0, 0]],
    [[2, 1, 1], [1, 2, -1], [1, -1, 2]],
  ]; // biome-ignore format: matrices
  for (const rows of refused) expect(cholesky(rowsOf(...rows)), JSON.stringify(rows)).toBeUndefined();
  near(cholesky(rowsOf([4, 2], [2, 3]))!.inverse(), rowsOf([0.375, -0.25], [-0.25, 0.5]), 1e-14);
});

test("elimination with row exchanges: any order of rows, zeros on the way, determinant by hand", () => {
  for (let size = 1; size <= 6; size++) {
    const matrix = square(size);
    if (size > 2) matrix[0]![0] = 0;
    if (size > 3) matrix[2] = matrix[1]!.map((value, j) => (j < 2 ? value : random.normal()));
    const solution = identity(size);
    solveGeneral(matrix.map((row) => row.slice()), solution); // biome-ignore format: one call
    near(multiply(matrix, solution), identity(size), 1e-9);
  }
  // determinant 2 × 3 × -4, rows exchanged
  const right = rowsOf([3], [2], [-8]);
  assertClose(solveGeneral(rowsOf([0, 3, 0], [2, 0, 0], [0, 0, -4]), right), Math.log(24), 1e-14);
  expect(plain(right)).toEqual([[1], [1], [2]]);
  // the larger pivot is taken, or 1e-17 would swamp what it is added to
  const tiny = rowsOf([1], [2]);
  solveGeneral(rowsOf([1e-17, 1], [1, 1]), tiny);
  near(tiny, rowsOf([1], [1]), 1e-12);
  expect(() => solveGeneral(rowsOf([1, 2], [2, 4]), rowsOf([1], [1]))).toThrow("must be invertible; pivot 2 is 0");
  expect(() => solveGeneral(rowsOf([Number.NaN]), rowsOf([1]))).toThrow("must be invertible; pivot 1 is NaN");
});

test("triangles: both ways of solving and the inverse of the cross-product", () => {
  for (let size = 1; size <= 5; size++) {
    const upper = square(size).map((row, i) =>
      row.map((value, j) => (j < i ? 0 : i === j ? 2 + Math.abs(value) : value)),
    );
    const right = Float64Array.from({ length: size }, () => random.normal());
    near([multiplyVector(upper, solveUpper(ordinary, upper, right))], [right], 1e-12);
    near([multiplyVector(transpose(upper), solveUpperTransposed(ordinary, upper, right))], [right], 1e-12);
    const inverse = inverseCrossProduct(upper).map((row) => Float64Array.from(row));
    near(multiply(multiply(transpose(upper), upper), inverse), identity(size), 1e-10);
  }
});

test("sums from a row on, and lengths of columns too large or too small to square", () => {
  const column = Float64Array.of(5, 3, 4);
  expect([dot(column, column), dot(column, column, 1), dot(column, column, 3)]).toEqual([50, 25, 0]);
  expect([euclideanLength(column, 1), euclideanLength(column, 2), euclideanLength(column, 3)]).toEqual([5, 4, 0]);
  assertClose(euclideanLength(Float64Array.of(-3e200, 4e200)) / 5e200, 1, 1e-15);
  assertClose(euclideanLength(Float64Array.of(3e-200, -4e-200)) / 5e-200, 1, 1e-15);
  expect(euclideanLength(Float64Array.of(0, 0))).toBe(0);
  expect(euclideanLength(Float64Array.of(1, Number.NEGATIVE_INFINITY))).toBe(Number.POSITIVE_INFINITY);
  const target = Float64Array.of(9, 9, 9);
  ordinary.subtractMultiple(target, 2, column, 1);
  expect([...target]).toEqual([9, 3, 1]);
});

test("columns of 32 digits: rows before the first asked for are left alone", () => {
  const a = columnOf([5, 3, 4]);
  expect(dotProduct(a, a, 1)).toEqual({ high: 25, low: 0 });
  expect(columnLength(a, 1)).toEqual({ high: 5, low: 0 });
  const target = copyColumn(a);
  subtractMultiple(target, { high: 2, low: 0 }, a, 1);
  expect([[...target.high], [...a.high]]).toEqual([[5, -3, -4], [5, 3, 4]]); // biome-ignore format: pairs
  setEntry(target, 0, { high: 1, low: 1e-20 });
  expect(entry(target, 0)).toEqual({ high: 1, low: 1e-20 });
  // 0.1 as typed, ten times, is 1
  const tenth = columnOf(new Array(10).fill(0.1));
  const ones = columnOf(new Array(10).fill(1));
  expect(dotProduct(tenth, ones).high).toBe(1);
  assertClose(dotProduct(tenth, ones).low, 0, 1e-30);
  // a low part of the factor counts as much as one of the column
  const left = columnOf([1]);
  subtractMultiple(left, { high: 1, low: 1e-20 }, columnOf([1]));
  expect(entry(left, 0).high).toBe(-1e-20);
  expect(emptyColumn(2)).toEqual({ high: Float64Array.of(0, 0), low: Float64Array.of(0, 0) });
  expect(negate({ high: 2, low: -1e-20 })).toEqual({ high: -2, low: 1e-20 });
  expect(sumOfSquares([{ high: 3, low: 0 }, { high: 4, low: 1e-20 }])).toEqual({ high: 25, low: 8e-20 }); // biome-ignore format: pair
  expect(sumOfSquares([])).toEqual({ high: 0, low: 0 });
  expect([squareRoot({ high: -1, low: 0 }), squareRoot({ high: 9, low: 0 })]).toEqual([{ high: 0, low: 0 }, { high: 3, low: 0 }]); // biome-ignore format: pair
});

test("which numbers were typed: up to 15 digits, up to 22 places", () => {
  const typed = [0.1, -0.1, 1.23, 1e-7, -2.5e-10, 123456.789012345, 0.000123456789012345, 1e-22, 3.3e-21];
  const miss = (value: number): bigint => {
    // the double as a whole number of 2^-1074, and the decimal on the same scale, by whole-number arithmetic of any length
    const view = new DataView(new ArrayBuffer(8));
    view.setFloat64(0, Math.abs(value));
    const bits = view.getBigUint64(0);
    const stored = ((bits & 0xfffffffffffffn) | 0x10000000000000n) << ((bits >> 52n) - 1n);
    const [mantissa, exponent = "0"] = String(Math.abs(value)).split("e");
    const [whole, fraction = ""] = mantissa!.split(".");
    const places = BigInt(fraction.length - Number(exponent));
    return (BigInt(whole! + fraction) << 1074n) / 10n ** places - stored;
  };
  for (const value of typed) {
    const remainder = Math.sign(value) * decimalRemainder(value);
    // back to the same scale in two steps, as 2^1074 is no number
    const scaled = Number(miss(value) >> 500n) / 2 ** 574;
    assertClose(remainder / scaled, 1, 1e-9);
    expect(typedDecimal(value)).toEqual({ high: value, low: decimalRemainder(value) });
  }
  for (const value of [
    0,
    7,
    -3,
    1e21,
    0.5,
    0.1234567890123456,
    1e-23,
    1.5e-22,
    2 / 3,
    Number.NaN,
    Number.POSITIVE_INFINITY,
  ])
    expect(Math.abs(decimalRemainder(value)), String(value)).toBe(0);
});

test("a factor of no columns, of zeros, of one row; the least share a column keeps", () => {
  const none = orthogonalFactor(ordinary, [], 1e-9);
  expect([none.kept, none.dependent, none.upper, none.independence]).toEqual([[], [], [], 1]);
  const zeros = orthogonalFactor(ordinary, [new Float64Array(3), Float64Array.of(0, 2, 0)], 1e-9);
  expect([zeros.kept, zeros.independence]).toEqual([[1], 0]);
  expect(zeros.dependent).toEqual([{ column: 0, multiples: [0] }]);
  // 45 degrees between two columns: the second keeps the sine
  const angled = orthogonalFactor(ordinary, [Float64Array.of(1, 0), Float64Array.of(1, 1)], 1e-9);
  assertClose(angled.independence, Math.SQRT1_2, 1e-15);
  // set aside at the share itself, kept above it
  const at = (share: number) => orthogonalFactor(ordinary, [Float64Array.of(1, 0), Float64Array.of(3, 4)], share).kept;
  expect([at(0.8), at(0.79)]).toEqual([[0], [0, 1]]);
  for (const unit of angled.basis()) assertClose(euclideanLength(unit), 1, 1e-15);
  expect(angled.basis()).toBe(angled.basis());
  const back = angled.rotateBack(angled.rotate(Float64Array.of(0, 7)));
  near([back], [Float64Array.of(0, 7)], 1e-14);
  near([angled.rotateBack(Float64Array.of(0, 0))], [Float64Array.of(0, 0)], 0);
});

test("perpendicular columns: positive diagonal, multiples of what is set aside, parts of a column", () => {
  const design = [
    Float64Array.of(-1, -1, -1),
    Float64Array.of(1, 2, 4),
    Float64Array.of(3, 5, 9),
    Float64Array.of(0, 0, 0),
  ];
  const { basis, triangle, kept, collinear } = orthonormalColumns(design);
  expect(kept).toEqual([0, 1]);
  for (const [i, row] of triangle.entries())
    expect([row[i]! > 0, [...row.slice(0, i)].every((value) => value === 0)]).toEqual([true, true]);
  expect(collinear.map(({ column }) => column)).toEqual([2, 3]);
  near([collinear[0]!.multiples, collinear[1]!.multiples], rowsOf([-1, 2], [0, 0]), 1e-12);
  // what does not belong to it counts as none at all
  const second = orthonormalColumns([Float64Array.of(1, 1, 1), Float64Array.of(1, 2, 4), Float64Array.of(2, 4, 8)]);
  expect(second.collinear[0]!.multiples[0]).toBe(0);
  assertClose(second.collinear[0]!.multiples[1]!, 2, 1e-12);
  const column = Float64Array.of(5, -2, 8);
  const parts = removeParts(column, basis);
  for (const [k, unit] of basis.entries()) {
    assertClose(dot(unit, Float64Array.of(5, -2, 8)), parts[k]!, 1e-14);
    assertClose(dot(unit, column), 0, 1e-14);
  }
});

test("columns for a covariance: the largest variance first, no more than asked for, nothing where it is enough", () => {
  const variances = [1, 9, 4];
  const apart = (i: number, j: number): number => (i === j ? variances[i]! : 0);
  const two = pivotedCholesky(3, apart, 2, 0);
  expect([two.rank, [...two.columns], two.leftOut]).toEqual([2, [0, 0, 3, 0, 0, 2], 1]);
  expect(pivotedCholesky(3, apart, 9, 0)).toMatchObject({ rank: 3, leftOut: 0 });
  // exactly enough is enough
  expect(pivotedCholesky(3, apart, 9, 4)).toMatchObject({ rank: 1, leftOut: 4 });
  expect(pivotedCholesky(3, apart, 9, 3.9).rank).toBe(2);
});
