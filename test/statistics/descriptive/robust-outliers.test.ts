import { expect, test } from "vitest";
import { robustOutliers } from "../../../src/statistics/descriptive/robust-outliers.ts";
import { assertClose } from "../../agreement.ts";

const values = (numbers: ReadonlyArray<number>, rows = 1, columns = 1) =>
  numbers.map((value, at) => ({
    tray: `T${at}`,
    value,
    row: `${at % rows}`,
    column: `${Math.floor(at / rows) % columns}`,
  }));
const found = (numbers: ReadonlyArray<number>, threshold = 3.5, rows = 1, columns = 1) =>
  robustOutliers(values(numbers, rows, columns), threshold).map(({ tray, z, expected }) => ({ tray, z, expected }));

test("one dose in one cook, by hand: the distance from the median in scaled median deviations, eight values over seven", () => {
  // median 4.5; distances from it .5 .5 1.5 1.5 2.5 2.5 3.5 95.5, median 2; NIST/SEMATECH e-Handbook, section 1.3.5.17
  const [one, ...rest] = found([1, 2, 3, 4, 5, 6, 7, 100]);
  expect(rest).toEqual([]);
  expect(one).toMatchObject({ tray: "T7", expected: 4.5 });
  assertClose(one!.z, 95.5 / (2 * 1.4826 * Math.sqrt(8 / 7)), 1e-12);
  // below as well as above; the farthest first; on the limit is within it
  expect(found([1, 2, 3, 4, 5, 6, 70, -200]).map(({ tray }) => tray)).toEqual(["T7", "T6"]);
  expect(found([1, 2, 3, 4, 5, 6, 7, 100], one!.z)).toEqual([]);
  expect(found([1, 2, 3, 4, 5, 6, 7, 100], one!.z * 0.999)).toHaveLength(1);
});

test("doses and cooks are allowed for: an additive table with one wild value", () => {
  // three cooks of four doses; the parts 0, 10, 20, 30 of doses and 0, 100, 200 of cooks fit all but one
  const noise = [0.1, -0.2, 0.1, 0.2, -0.1, 0.1, 0.2, -0.1, -0.2, 0.1, -0.1, 0.1];
  const numbers = noise.map((one, at) => 10 * (at % 4) + 100 * Math.floor(at / 4) + one + (at === 5 ? 40 : 0));
  const [one, ...rest] = found(numbers, 3.5, 4, 3);
  expect(rest).toEqual([]);
  expect(one!.tray).toBe("T5");
  assertClose(one!.expected, 110, 1);
});

test("fewer than eight values, or fewer than four left over after doses and cooks, point at nothing", () => {
  expect(found([1, 2, 3, 4, 5, 6, 100])).toEqual([]);
  // eight values: four doses in one cook leave 4, in two cooks 3
  const wild = [1, 2, 3, 4, 1.1, 2.1, 3.2, 400];
  expect(found(wild, 1, 4, 1)).not.toEqual([]);
  expect(found(wild, 1, 4, 2)).toEqual([]);
});

test("where most values are the same there is no spread to judge by", () => {
  expect(found([5, 5, 5, 5, 5, 5, 5, 100])).toEqual([]);
  expect(found([0, 0, 0, 0, 0, 0, 0, 0])).toEqual([]);
});
