import { expect, test } from "vitest";
import { wilsonInterval } from "../../../src/statistics/counts/proportion-interval.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import intervals from "../../reference/binomial-intervals.json" with { type: "json" };

const source = "R 4.2.2";
const digitsOf = (tolerance: { relative: number }) => -Math.log10(tolerance.relative);

test("intervals of a proportion, small counts", () => {
  const forms = [
    ["wilson95", "score interval", (x: number, n: number) => wilsonInterval(x, n)],
    ["wilson90", "score interval, 90 %", (x: number, n: number) => wilsonInterval(x, n, 0.9)],
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
  assertClose(wilsonInterval(3, 40).lower, 0.0258, 0.00005);
  assertClose(wilsonInterval(3, 40).upper, 0.1986, 0.00005);
  assertClose(wilsonInterval(0, 20).upper, 0.1611, 0.00005);
});

test("edges and wrong calls", () => {
  expect(wilsonInterval(0, 7).lower).toBe(0);
  expect(wilsonInterval(7, 7).upper).toBe(1);
  assertClose(wilsonInterval(2, 9).upper, 1 - wilsonInterval(7, 9).lower, 1e-15);
  expect(() => wilsonInterval(3, 2)).toThrow("successes must not exceed trials; received 3 of 2");
  expect(() => wilsonInterval(0, 0)).toThrow("trials must be a whole number of 1 or more; received 0");
  expect(() => wilsonInterval(0.5, 2)).toThrow("successes must be a whole number of 0 or more; received 0.5");
  expect(() => wilsonInterval(1, 2, 1)).toThrow("level must lie between 0 and 1");
});
