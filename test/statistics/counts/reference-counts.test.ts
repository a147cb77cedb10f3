import { expect, test } from "vitest";
import { scoreLimits } from "../../../src/statistics/counts/proportion-interval.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import intervals from "../../reference/binomial-intervals.json" with { type: "json" };

const source = "R 4.2.2";
const digitsOf = (tolerance: { relative: number }) => -Math.log10(tolerance.relative);

test("intervals of a proportion, small counts", () => {
  const forms = [
    ["wilson95", "score interval", (x: number, n: number) => scoreLimits(x, n, 0.95)],
    ["wilson90", "score interval, 90 %", (x: number, n: number) => scoreLimits(x, n, 0.9)],
  ] as const;
  for (const [key, method, routine] of forms) {
    expectAgreement(
      { method, dataset: "invented small counts", statistic: "both limits", source },
      intervals.expected.flatMap((row) => {
        const ours = routine(row.x, row.n);
        return [
          [ours.lower, row[key][0]!],
          [ours.upper, row[key][1]!],
        ] as const;
      }),
      digitsOf(intervals.tolerance),
      intervals.tolerance.absolute,
    );
  }
  expect(intervals.expected.map((row) => [row.x, row.n])).toEqual(
    intervals.data.x.map((x, index) => [x, intervals.data.n[index]]),
  );
});

test("contamination counts: score interval of 3/40 and 0/20 (arithmetic, constructed)", () => {
  assertClose(scoreLimits(3, 40, 0.95).lower, 0.0258, 0.00005);
  assertClose(scoreLimits(3, 40, 0.95).upper, 0.1986, 0.00005);
  assertClose(scoreLimits(0, 20, 0.95).upper, 0.1611, 0.00005);
});

test("edges", () => {
  expect(scoreLimits(0, 7, 0.95).lower).toBe(0);
  expect(scoreLimits(7, 7, 0.95).upper).toBe(1);
  assertClose(scoreLimits(2, 9, 0.95).upper, 1 - scoreLimits(7, 9, 0.95).lower, 1e-15);
});
