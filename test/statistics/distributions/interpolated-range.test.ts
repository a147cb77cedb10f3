import { describe, expect, test } from "vitest";
import { interpolatedRangeUpper } from "../../../src/statistics/distributions/interpolated-range.ts";
import { normalUpperTail } from "../../../src/statistics/distributions/normal.ts";
import { normalRangeUpperTail } from "../../../src/statistics/distributions/normal-range.ts";

describe("interpolated tail of the normal range", () => {
  test("of two values: twice the normal tail beyond w over the square root of 2", () => {
    const upper = interpolatedRangeUpper(2);
    for (let w = 0; w < 45; w += 0.173) {
      const exact = 2 * normalUpperTail(w / Math.SQRT2);
      expect(Math.abs(upper(w) - exact), `at ${w}`).toBeLessThanOrEqual(1e-12 * exact);
    }
  });

  test.each([3, 7, 40, 500])(
    "of %i values: within 1e-12 of the integral, also between pieces and beyond the last",
    (count) => {
      const upper = interpolatedRangeUpper(count);
      const integral = normalRangeUpperTail(count);
      for (const w of [0, 1e-9, 0.4, 1, 1.0001, 2.5, 3.9999999, 6, 11.3, 25.5, 39.99, 40, 41.7]) {
        expect(Math.abs(upper(w) - integral(w)), `at ${w}`).toBeLessThanOrEqual(1e-12 * integral(w));
      }
    },
  );
});
