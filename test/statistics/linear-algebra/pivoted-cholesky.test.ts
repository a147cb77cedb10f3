import { expect, test } from "vitest";
import { pivotedCholesky } from "../../../src/statistics/linear-algebra/pivoted-cholesky.ts";

const smooth = (i: number, j: number): number => Math.exp(-(((i - j) / 20) ** 2) / 2);

test("a smooth covariance of 41 places needs few columns, and they give it back", () => {
  const { rank, columns, leftOut } = pivotedCholesky(41, smooth, 41, 1e-13);
  expect(rank).toBeLessThan(16);
  expect(leftOut).toBeLessThanOrEqual(1e-13);
  for (let i = 0; i < 41; i++) {
    for (let j = 0; j < 41; j++) {
      let sum = 0;
      for (let k = 0; k < rank; k++) sum += columns[i * rank + k]! * columns[j * rank + k]!;
      expect(Math.abs(sum - smooth(i, j))).toBeLessThan(1e-12);
    }
  }
});

test("cut short, it says the variance it leaves out", () => {
  const { rank, columns, leftOut } = pivotedCholesky(41, smooth, 4, 1e-13);
  expect(rank).toBe(4);
  let worst = 0;
  for (let i = 0; i < 41; i++) {
    let sum = 0;
    for (let k = 0; k < rank; k++) sum += columns[i * rank + k]! ** 2;
    worst = Math.max(worst, 1 - sum);
  }
  expect(leftOut).toBeCloseTo(worst, 12);
});

test("places that move together are one column; none is needed where nothing varies", () => {
  expect(pivotedCholesky(3, () => 4, 3, 1e-12)).toMatchObject({ rank: 1, columns: Float64Array.of(2, 2, 2) });
  expect(pivotedCholesky(2, () => 0, 2, 1e-12).rank).toBe(0);
  expect(() => pivotedCholesky(0, () => 1, 1, 0)).toThrow(/size/);
  expect(() => pivotedCholesky(2, () => 1, 0, 0)).toThrow(/mostColumns/);
});
