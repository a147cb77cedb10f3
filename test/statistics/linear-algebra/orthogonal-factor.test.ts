import { expect, test } from "vitest";
import { toNumber } from "../../../src/statistics/linear-algebra/double-double.ts";
import { columnOf, doubleDouble } from "../../../src/statistics/linear-algebra/double-double-column.ts";
import { dot, ordinary } from "../../../src/statistics/linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../../../src/statistics/linear-algebra/orthogonal-factor.ts";
import { orthonormalColumns, removeParts } from "../../../src/statistics/linear-algebra/orthonormal-columns.ts";
import { inverseCrossProduct } from "../../../src/statistics/linear-algebra/triangle.ts";
import { assertClose } from "../../agreement.ts";

/** The factor of copies: the columns themselves are overwritten. */
const factorOf = (design: Float64Array[], dependentBelow: number) =>
  orthogonalFactor(
    ordinary,
    design.map((column) => column.slice()),
    dependentBelow,
  );

const columns = [Float64Array.of(1, 1, 1, 1), Float64Array.of(1, 2, 3, 5), Float64Array.of(2, 0, 1, -1)];

test("R'R is A'A, the inverse inverts it, and the solution satisfies the normal equations", () => {
  const gram = columns.map((a) => columns.map((b) => dot(a, b)));
  const factor = factorOf(columns, 0);
  const inverse = inverseCrossProduct(factor.upper);
  for (let a = 0; a < 3; a++) {
    for (let b = 0; b < 3; b++) {
      let product = 0;
      let identity = 0;
      for (let k = 0; k < 3; k++) {
        product += factor.upper[k]![a]! * factor.upper[k]![b]!;
        identity += inverse[a]![k]! * gram[k]![b]!;
      }
      assertClose(product, gram[a]![b]!, 1e-12);
      assertClose(identity, a === b ? 1 : 0, 1e-12);
    }
  }
  const solution = factor.solve(factor.rotate(Float64Array.of(1, 2, 3, 4)));
  for (const column of columns) {
    const miss = [1, 2, 3, 4].map((y, i) => y - columns.reduce((sum, other, j) => sum + solution[j]! * other[i]!, 0));
    assertClose(dot(Float64Array.from(miss), column), 0, 1e-12);
  }
});

test("rotating back undoes rotating", () => {
  const factor = factorOf(columns, 0);
  const back = factor.rotateBack(factor.rotate(Float64Array.of(3, -1, 4, 1)));
  [3, -1, 4, 1].forEach((value, i) => {
    assertClose(back[i]!, value, 1e-14);
  });
});

test("a column that follows from earlier ones is set aside, with its multiples and a coefficient of 0", () => {
  const twice = Float64Array.from(columns[0]!, (value, i) => 2 * value - columns[1]![i]!);
  const design = [columns[0]!, columns[1]!, twice, columns[2]!];
  for (const factor of [factorOf(design, 1e-12), orthogonalFactor(doubleDouble, design.map(columnOf), 1e-13)]) {
    expect(factor.kept).toEqual([0, 1, 3]);
    expect(factor.dependent.map(({ column }) => column)).toEqual([2]);
    expect(factor.independence).toBeLessThan(1e-12);
    const multiples = factor.dependent[0]!.multiples.map((value) =>
      typeof value === "number" ? value : toNumber(value),
    );
    [2, -1, 0].forEach((multiple, k) => {
      assertClose(multiples[k]!, multiple, 1e-12);
    });
  }
  const factor = factorOf(design, 1e-12);
  expect(factor.solve(factor.rotate(columns[2]!))[2]).toBe(0);
});

test("more columns than rows: the last follow from the first", () => {
  const factor = orthogonalFactor(
    ordinary,
    [Float64Array.of(1, 0), Float64Array.of(1, 1), Float64Array.of(0, 3)],
    1e-12,
  );
  expect(factor.kept).toEqual([0, 1]);
  [-3, 3].forEach((multiple, k) => {
    assertClose(factor.dependent[0]!.multiples[k]!, multiple, 1e-14);
  });
});

test("perpendicular columns stay perpendicular where the design is nearly collinear: Hilbert's matrix of order 8", () => {
  const hilbert = Array.from({ length: 8 }, (_, j) => Float64Array.from({ length: 8 }, (__, i) => 1 / (i + j + 1)));
  const { basis, triangle, collinear } = orthonormalColumns(hilbert, 1e-13);
  expect(collinear).toEqual([]);
  basis.forEach((a, i) => {
    basis.forEach((b, j) => {
      assertClose(dot(a, b), i === j ? 1 : 0, 1e-14);
    });
    expect(triangle[i]![i]).toBeGreaterThan(0);
  });
  hilbert.forEach((column, k) => {
    column.forEach((value, row) => {
      assertClose(
        basis.reduce((sum, unit, i) => sum + unit[row]! * triangle[i]![k]!, 0),
        value,
        1e-15,
      );
    });
  });
});

test("parts along a basis, and what is left", () => {
  const { basis } = orthonormalColumns(columns.slice(0, 2));
  const column = Float64Array.of(4, 1, 1, 2);
  const parts = removeParts(column, basis);
  basis.forEach((unit, k) => {
    assertClose(dot(unit, column), 0, 1e-15);
    assertClose(dot(unit, Float64Array.of(4, 1, 1, 2)), parts[k]!, 1e-14);
  });
});
