import { describe, expect, test } from "vitest";
import { type LeastSquaresProblem, levenbergMarquardt } from "../../../src/statistics/curves/levenberg-marquardt.ts";
import { assertClose } from "../../agreement.ts";

/** Residuals minus f, for functions whose sum of squares is to be least. */
function problem(
  residualCount: number,
  parameterCount: number,
  functions: (p: ArrayLike<number>) => number[],
  slopesOf: (p: ArrayLike<number>) => number[][],
): LeastSquaresProblem {
  return {
    residualCount,
    parameterCount,
    evaluate(parameters, residuals, slopes) {
      functions(parameters).forEach((value, i) => {
        residuals[i] = -value;
      });
      if (slopes) {
        slopesOf(parameters).forEach((row, i) => {
          row.forEach((value, j) => {
            slopes[j]![i] = value;
          });
        });
      }
      return residuals.every(Number.isFinite);
    },
  };
}

describe("minima known exactly: More, Garbow and Hillstrom 1981, ACM Transactions on Mathematical Software 7:17-41 (from memory)", () => {
  test("Rosenbrock's valley from (-1.2, 1): (1, 1)", () => {
    const valley = problem(
      2,
      2,
      (p) => [10 * (p[1]! - p[0]! ** 2), 1 - p[0]!],
      (p) => [
        [-20 * p[0]!, 10],
        [-1, 0],
      ],
    );
    const found = levenbergMarquardt(valley, [-1.2, 1]);
    assertClose(found.parameters[0]!, 1, 1e-12);
    assertClose(found.parameters[1]!, 1, 1e-12);
  });
  test("Beale's function from (1, 1): (3, 0.5)", () => {
    const target = [1.5, 2.25, 2.625];
    const beale = problem(
      3,
      2,
      (p) => target.map((y, i) => y - p[0]! * (1 - p[1]! ** (i + 1))),
      (p) => target.map((_, i) => [-(1 - p[1]! ** (i + 1)), p[0]! * (i + 1) * p[1]! ** i]),
    );
    const found = levenbergMarquardt(beale, [1, 1]);
    assertClose(found.parameters[0]!, 3, 1e-12);
    assertClose(found.parameters[1]!, 0.5, 1e-12);
  });
  test("Freudenstein and Roth from (0.5, -2): the local minimum 48.9842... at (11.41..., -0.8968...)", () => {
    const roth = problem(
      2,
      2,
      (p) => [-13 + p[0]! + ((5 - p[1]!) * p[1]! - 2) * p[1]!, -29 + p[0]! + ((p[1]! + 1) * p[1]! - 14) * p[1]!],
      (p) => [
        [1, 10 * p[1]! - 3 * p[1]! ** 2 - 2],
        [1, 3 * p[1]! ** 2 + 2 * p[1]! - 14],
      ],
    );
    const found = levenbergMarquardt(roth, [0.5, -2]);
    assertClose(found.residualSumOfSquares, 48.9842, 0.0001);
    assertClose(found.parameters[0]!, 11.41, 0.01);
    assertClose(found.parameters[1]!, -0.8968, 0.0001);
    // from close by, the global zero
    const zero = levenbergMarquardt(roth, [6, 3.5]);
    assertClose(zero.parameters[0]!, 5, 1e-10);
    assertClose(zero.parameters[1]!, 4, 1e-10);
  });
  test("parameters that cannot be separated are not called converged", () => {
    const twins = problem(
      3,
      2,
      (p) => [p[0]! + p[1]! - 1, p[0]! + p[1]! - 2, p[0]! + p[1]! - 4],
      () => [
        [1, 1],
        [1, 1],
        [1, 1],
      ],
    );
    expect(levenbergMarquardt(twins, [0, 0]).converged).toBe(false);
  });
  test("wrong starts", () => {
    const line = problem(
      2,
      1,
      (p) => [Math.log(p[0]!), 1],
      (p) => [[1 / p[0]!], [0]],
    );
    expect(() => levenbergMarquardt(line, [1, 2])).toThrow(/1 starting values/);
    expect(() => levenbergMarquardt(line, [-1])).toThrow(/no value at the start/);
  });
});
