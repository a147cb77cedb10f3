import { expect, test } from "vitest";
import { endsOf } from "../../src/records/ends.ts";

test("the ends of any number of numbers, and of none", () => {
  expect(endsOf([2, -1, 5, 3])).toEqual([-1, 5]);
  expect(endsOf([4])).toEqual([4, 4]);
  expect(endsOf(Array.from({ length: 500_000 }, (_, at) => Math.abs(at - 250_000)))).toEqual([0, 250_000]);
  expect(endsOf([])).toEqual([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]);
});
