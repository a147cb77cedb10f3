import { expect, test } from "vitest";
import { rateDifference } from "../../../src/statistics/groups/rate-difference.ts";

const cluster = (firstGives: number, firstDays: number, secondGives: number, secondDays: number) => ({
  firstGives,
  firstDays,
  secondGives,
  secondDays,
});

test("difference of rates by hand", () => {
  const result = rateDifference([cluster(2, 1, 1, 1), cluster(4, 1, 1, 1)], 0.95);
  // pulls -1/2 and 1/2, so the standard error is 1; Student's t with 1 degree of freedom 12.706, where t = 2 has p = 0.2952
  expect(result).toMatchObject({ first: 3, second: 1, difference: 2, degreesOfFreedom: 1 });
  expect(result.low).toBeCloseTo(2 - 12.706, 3);
  expect(result.high).toBeCloseTo(2 + 12.706, 3);
  expect(result.p).toBeCloseTo(0.2952, 4);
});

test("a cluster without days of the first rate counts for the second, and gives no degree of freedom", () => {
  const result = rateDifference([cluster(2, 1, 4, 2), cluster(4, 1, 3, 1), cluster(0, 0, 5, 3)], 0.95);
  expect(result).toMatchObject({ first: 3, second: 2, difference: 1, degreesOfFreedom: 1 });
  // pulls: -1/2 - 0, 1/2 - 1/6, 0 + 1/6; half as much again for three clusters
  const error = Math.sqrt(1.5 * (1 / 4 + 1 / 9 + 1 / 36));
  expect(result.high - result.low).toBeCloseTo(2 * 12.7062 * error, 3);
});

test("rates without any scatter differ for certain or not at all", () => {
  expect(rateDifference([cluster(2, 1, 1, 1), cluster(2, 1, 1, 1)], 0.95)).toMatchObject({ low: 1, high: 1, p: 0 });
  expect(rateDifference([cluster(1, 1, 1, 1), cluster(1, 1, 1, 1)], 0.95)).toMatchObject({ low: 0, high: 0, p: 1 });
});

test("too little to compare is refused", () => {
  const refused = "two clusters with days of the first rate, and days of both, are needed";
  expect(() => rateDifference([], 0.95)).toThrow(refused);
  expect(() => rateDifference([cluster(2, 1, 1, 1)], 0.95)).toThrow(refused);
  expect(() => rateDifference([cluster(2, 1, 1, 1), cluster(0, 0, 1, 1)], 0.95)).toThrow(refused);
  expect(() => rateDifference([cluster(2, 1, 0, 0), cluster(2, 1, 0, 0)], 0.95)).toThrow(refused);
});
