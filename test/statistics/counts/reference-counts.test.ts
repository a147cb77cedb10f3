import { expect, test } from "vitest";
import { fisherExactTest } from "../../../src/statistics/counts/fisher-exact-test.ts";
import {
  adjustedNormalInterval,
  exactInterval,
  midPInterval,
  wilsonInterval,
} from "../../../src/statistics/counts/proportion-interval.ts";
import { twoByTwoTest } from "../../../src/statistics/counts/two-by-two-test.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import intervals from "../../reference/binomial-intervals.json" with { type: "json" };
import tables from "../../reference/binomial-tables.json" with { type: "json" };

const source = "R 4.2.2";
const digitsOf = (tolerance: { relative: number }) => -Math.log10(tolerance.relative);

test("intervals of a proportion, small counts", () => {
  const forms = [
    ["wilson95", "score interval", (x: number, n: number) => wilsonInterval(x, n)],
    ["wilson90", "score interval, 90 %", (x: number, n: number) => wilsonInterval(x, n, 0.9)],
    ["clopperPearson95", "exact interval", (x: number, n: number) => exactInterval(x, n)],
    ["clopperPearson90", "exact interval, 90 %", (x: number, n: number) => exactInterval(x, n, 0.9)],
    ["agrestiCoull95", "adjusted normal interval", (x: number, n: number) => adjustedNormalInterval(x, n)],
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

/** Estimate, lower and upper 95 % limit, from a search that runs to full precision. */
const closerOddsRatios = {
  tea: [6.40831965819967, 0.211735595446579, 626.243530588814],
  small2x2: [0, 0, 0.915050853871097],
  sparse2x2: [29.2754607211069, 2.58845047847813, 1703.43969490735],
};

for (const [name, expected] of Object.entries(tables.expected)) {
  test(`exact tests, table ${name}`, () => {
    const { tolerance } = tables;
    const row = { dataset: `table ${name}`, source };
    const exact = fisherExactTest(expected.table);
    expectAgreement(
      { ...row, method: "Fisher's exact test", statistic: "p" },
      [[exact.p, expected.p]],
      digitsOf(tolerance),
      tolerance.absolute,
    );
    if (!("pGreater" in expected)) return;
    const ours = twoByTwoTest(expected.table);
    expectAgreement(
      { ...row, method: "exact two-by-two analysis", statistic: "one-sided p, odds ratio" },
      [
        [ours.p, expected.p],
        [ours.pGreater, expected.pGreater],
        [ours.pLess, expected.pLess],
        [ours.sampleOddsRatio, expected.oddsRatioSample],
      ],
      digitsOf(tolerance),
      tolerance.absolute,
    );
    // the source's root search stops within 1.3e-4 of the ratio or, above 1, of its reciprocal: 3 digits at best, fewer for large ratios
    const nearOne = (ratio: number) => Math.min(ratio, 1 / ratio);
    expectAgreement(
      { ...row, method: "conditional odds ratio", statistic: "estimate and limits", source: "R 4.2.2, within 1.3e-4" },
      [
        [nearOne(ours.oddsRatio), nearOne(expected.oddsRatioConditionalMLE)],
        [nearOne(ours.lower), nearOne(expected.oddsCI95[0]!)],
        [nearOne(ours.upper), nearOne(expected.oddsCI95[1]!)],
      ],
      -Math.log10(1e-3),
      1.3e-4,
    );
    const closer = closerOddsRatios[name as keyof typeof closerOddsRatios];
    expectAgreement(
      {
        ...row,
        method: "conditional odds ratio",
        statistic: "estimate and limits",
        source: "SciPy 1.17.1 and mpmath 1.3.0",
      },
      [ours.oddsRatio, ours.lower, ours.upper].map((value, index) => [value, closer[index]!] as const),
      11,
    );
  });
}

test("contamination counts: score interval of 3/40 and 0/20, exact upper limits of 0/20 (arithmetic, constructed)", () => {
  assertClose(wilsonInterval(3, 40).lower, 0.0258, 0.00005);
  assertClose(wilsonInterval(3, 40).upper, 0.1986, 0.00005);
  assertClose(wilsonInterval(0, 20).upper, 0.1611, 0.00005);
  assertClose(exactInterval(0, 20).upper, 0.1684, 0.00005);
  assertClose(exactInterval(0, 20, 0.9).upper, 0.1391, 0.00005);
  assertClose(
    fisherExactTest([
      [3, 17],
      [9, 11],
    ]).p,
    0.082,
    0.0005,
  );
});

test("mid-p interval: its limits solve the binomial tail equations written out (algebra)", () => {
  // 0 of n: half the chance of none is 0.025, so (1 - p)^n = 0.05
  assertClose(midPInterval(0, 10).upper, 1 - 0.05 ** 0.1, 1e-13);
  assertClose(midPInterval(10, 10).lower, 0.05 ** 0.1, 1e-13);
  // 1 of 2: p² + half of 2 p (1 - p) = p at the lower limit
  assertClose(midPInterval(1, 2).lower, 0.025, 1e-13);
  assertClose(midPInterval(1, 2).upper, 0.975, 1e-13);
});

test("edges and wrong calls", () => {
  expect(wilsonInterval(0, 7).lower).toBe(0);
  expect(wilsonInterval(7, 7).upper).toBe(1);
  assertClose(exactInterval(1, 1).lower, 0.025, 1e-15);
  expect(exactInterval(1, 1).upper).toBe(1);
  assertClose(wilsonInterval(2, 9).upper, 1 - wilsonInterval(7, 9).lower, 1e-15);
  assertClose(exactInterval(2, 9).upper, 1 - exactInterval(7, 9).lower, 1e-14);
  const table = [
    [1, 5, 2],
    [4, 0, 3],
  ];
  const transposed = [
    [1, 4],
    [5, 0],
    [2, 3],
  ];
  assertClose(fisherExactTest(table).p, fisherExactTest(transposed).p, 1e-14);
  assertClose(fisherExactTest([...table, [0, 0, 0]]).p, fisherExactTest(table).p, 0);
  assertClose(
    fisherExactTest([
      [2, 2],
      [2, 2],
    ]).p,
    1,
    1e-14,
  );
  expect(() => wilsonInterval(3, 2)).toThrow("successes must not exceed trials; received 3 of 2");
  expect(() => wilsonInterval(0, 0)).toThrow("trials must be a whole number of 1 or more; received 0");
  expect(() => exactInterval(0.5, 2)).toThrow("successes must be a whole number of 0 or more; received 0.5");
  expect(() => midPInterval(1, 2, 1)).toThrow("level must lie between 0 and 1");
  expect(() => fisherExactTest([[1, 2]])).toThrow(
    "at least two rows and two columns must hold counts; received 1 and 2",
  );
  expect(() => fisherExactTest([[1, 2], [3]])).toThrow("equally long");
  expect(() =>
    fisherExactTest([
      [1, -2],
      [3, 4],
    ]),
  ).toThrow("received -2");
  expect(() => fisherExactTest(Array.from({ length: 6 }, () => [90, 80, 70, 60, 50, 40]))).toThrow(
    "small enough to go through",
  );
  expect(() => twoByTwoTest(table)).toThrow("must be two by two; received 2 by 3");
});
