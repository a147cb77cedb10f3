import { expect, test } from "vitest";
import { dunnett, dunnettOfMeans } from "../../../src/statistics/comparisons/dunnett.ts";
import { gamesHowell } from "../../../src/statistics/comparisons/games-howell.ts";
import { largestComparisonUpperTail } from "../../../src/statistics/comparisons/largest-comparison.ts";
import {
  benjaminiHochbergAdjustment,
  bonferroniAdjustment,
  holmAdjustment,
} from "../../../src/statistics/comparisons/p-value-adjustments.ts";
import { pairwiseWelch } from "../../../src/statistics/comparisons/pairwise-welch.ts";
import { tukeyKramer, tukeyKramerOfMeans } from "../../../src/statistics/comparisons/tukey-kramer.ts";
import { tukeyKramerOfModel } from "../../../src/statistics/comparisons/tukey-kramer-of-model.ts";
import { studentTTwoTailed, studentTUpperTail } from "../../../src/statistics/distributions/student-t.ts";
import { randomisedBlocks } from "../../../src/statistics/groups/randomised-blocks.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import goldenRain from "../../reference/rcbd-OatsGoldenRain.json" with { type: "json" };

test("Tukey on resistors: NIST/SEMATECH e-Handbook, section 7.4.7 (from memory)", () => {
  const pairs = tukeyKramer([
    [6.9, 5.4, 5.8, 4.6, 4.0],
    [8.3, 6.8, 7.8, 9.2, 6.5],
    [8.0, 10.5, 8.1, 6.9, 9.3],
    [5.8, 3.8, 6.1, 5.6, 6.2],
  ]);
  for (const pair of pairs) assertClose((pair.upper - pair.lower) / 2, 2.087, 0.0005);
  const apart = pairs
    .filter(({ lower, upper }) => lower > 0 || upper < 0)
    .map(({ first, second }) => [first + 1, second + 1]);
  expect(apart).toEqual([
    [1, 2],
    [1, 3],
    [2, 4],
    [3, 4],
  ]);
});

test("all pairs of treatment means of a trial in blocks", () => {
  const { data, expected } = goldenRain;
  const analysis = randomisedBlocks({ response: data.yield, treatment: data.nitroF, block: data.Block });
  const names = analysis.means.map((one) => one.factorLevel);
  const pairs = tukeyKramerOfMeans({
    means: analysis.means.map((one) => one.mean.estimate),
    counts: names.map(() => 6),
    errorVariance: analysis.residual.meanSquare,
    degreesOfFreedom: analysis.residual.degreesOfFreedom,
  });
  const { tukey } = expected;
  // the reference takes the first mean less the second
  expect(pairs.map(({ first, second }) => `${names[first]} - ${names[second]}`)).toEqual(tukey.contrast);
  const row = (statistic: string) => ({
    method: "Tukey after blocks",
    dataset: "Oats, Golden Rain",
    statistic,
    source: "R emmeans 1.8.4-1",
  });
  expectAgreement(
    row("differences, standard errors, t, df"),
    pairs.flatMap((one, i) => [
      [-one.difference, tukey.estimate[i]!] as const,
      [one.standardError, tukey.se[i]!] as const,
      [-one.difference / one.standardError, tukey.t[i]!] as const,
      [one.df, tukey.df[i]!] as const,
    ]),
    9,
  );
  expectAgreement(
    row("adjusted p"),
    pairs.map((one, i) => [one.p, tukey.pTukey[i]!] as const),
    7,
  );
  // the reference's quantile of the studentized range stops at 1e-4 of itself
  expectAgreement(
    row("simultaneous 95 % limits"),
    pairs.flatMap((one, i) => [[-one.upper, tukey.lower[i]!] as const, [-one.lower, tukey.upper[i]!] as const]),
    4,
    1e-4,
  );
});

test("the same from the model, where any lost plot can be allowed for", () => {
  const { data, expected } = goldenRain;
  const { model, residual, means } = randomisedBlocks({
    response: data.yield,
    treatment: data.nitroF,
    block: data.Block,
  });
  const pairs = tukeyKramerOfModel(model, "treatment");
  const { tukey } = expected;
  expect(pairs.map(({ first, second }) => `${first} - ${second}`)).toEqual(tukey.contrast);
  const row = (statistic: string) => ({
    method: "Tukey on adjusted means",
    dataset: "Oats, Golden Rain",
    statistic,
    source: "R emmeans 1.8.4-1",
  });
  expectAgreement(
    row("differences, standard errors, df"),
    pairs.flatMap((one, i) => [
      [-one.difference, tukey.estimate[i]!] as const,
      [one.standardError, tukey.se[i]!] as const,
      [one.df, tukey.df[i]!] as const,
      [one.q / Math.SQRT2, Math.abs(tukey.t[i]!)] as const,
    ]),
    9,
  );
  expectAgreement(
    row("adjusted p"),
    pairs.map((one, i) => [one.p, tukey.pTukey[i]!] as const),
    7,
  );
  expectAgreement(
    row("simultaneous 95 % limits"),
    pairs.flatMap((one, i) => [[-one.upper, tukey.lower[i]!] as const, [-one.lower, tukey.upper[i]!] as const]),
    4,
    1e-4,
  );
  // two plots lost: wider where they stood, and the difference is that of the adjusted means
  const keep = [...data.yield.keys()].filter((i) => i !== 5 && i !== 14);
  const lost = randomisedBlocks({
    response: keep.map((i) => data.yield[i]!),
    treatment: keep.map((i) => data.nitroF[i]!),
    block: keep.map((i) => data.Block[i]!),
  });
  const [pair] = tukeyKramerOfModel(lost.model, "treatment");
  assertClose(pair!.difference, lost.means[1]!.mean.estimate - lost.means[0]!.mean.estimate, 1e-10);
  expect(pair!.standardError / lost.model.residualStandardDeviation).toBeGreaterThan(
    pairs[0]!.standardError / model.residualStandardDeviation,
  );
  // against the control after blocks: the t of each difference is emmeans' own
  const control = dunnettOfMeans({
    means: means.map((one) => one.mean.estimate),
    counts: means.map(() => 6),
    errorVariance: residual.meanSquare,
    degreesOfFreedom: residual.degreesOfFreedom,
  });
  control.comparisons.forEach((one, i) => {
    assertClose(one.t, -tukey.t[i]!, 1e-9);
    // three comparisons are fewer than six pairs, so p is smaller
    expect(one.p).toBeLessThan(pairs[i]!.p);
  });
  expect(() => tukeyKramerOfModel(model, "dose")).toThrow(/must have the factor asked for/);
});

test("Dunnett's published two-sided 5 % points: Dunnett 1964, table II (from memory), equal counts", () => {
  // df, means besides the control, printed value
  for (const [df, means, printed] of [
    [5, 2, 3.03],
    [10, 3, 2.76],
    [20, 4, 2.65],
    [60, 4, 2.51],
    [Number.POSITIVE_INFINITY, 2, 2.21],
  ] as const) {
    const loadings = new Array<number>(means).fill(Math.SQRT1_2);
    assertClose(largestComparisonUpperTail(printed, loadings, df, "either"), 0.05, 0.0007);
  }
});

test("one group against the control is a t test, in each direction", () => {
  const groups = [
    [5, 6, 7.5],
    [7, 8, 10, 11],
  ];
  const either = dunnett(groups).comparisons[0]!;
  const above = dunnett(groups, { direction: "above" }).comparisons[0]!;
  const below = dunnett(groups, { direction: "below" }).comparisons[0]!;
  assertClose(either.p, studentTTwoTailed(either.t, 5), 1e-12);
  assertClose(above.p, studentTUpperTail(either.t, 5), 1e-12);
  assertClose(below.p, 1 - studentTUpperTail(either.t, 5), 1e-12);
  expect([above.upper, below.lower]).toEqual([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]);
});

test("Dunnett: limits touch 0 exactly where the adjusted p is 1 - level, with unequal counts", () => {
  const groups = [
    [5, 6, 7, 5.5],
    [7, 8, 10],
    [6, 7, 7, 9, 12],
  ];
  const { p } = dunnett(groups).comparisons[1]!;
  const { lower, upper } = dunnett(groups, { level: 1 - p }).comparisons[1]!;
  assertClose(Math.min(Math.abs(lower), Math.abs(upper)), 0, 1e-9);
});

test("Dunnett: control by position, and order of the other groups", () => {
  const [a, b, c] = [
    [5, 6, 7],
    [7, 8, 10],
    [6, 7, 7],
  ] as const;
  const first = dunnett([a, b, c]).comparisons;
  const last = dunnett([c, b, a], { control: 2 }).comparisons;
  assertClose(first[0]!.p, last[1]!.p, 1e-14);
  assertClose(first[1]!.lower, last[0]!.lower, 1e-9);
  expect(last.map(({ group }) => group)).toEqual([0, 1]);
});

test("equal means have p 1 and an interval around 0", () => {
  const one = dunnett([
    [5, 6, 7],
    [5, 6, 7],
    [4, 6, 8],
  ]).comparisons[0]!;
  expect([one.t, one.p]).toEqual([0, 1]);
  expect(
    tukeyKramer([
      [5, 6, 7],
      [5, 6, 7],
    ])[0]!.p,
  ).toBe(1);
});

test("adjusted p-values: worked by hand", () => {
  const raw = [0.04, 0.01, 0.02, 0.9];
  expectAgreement(
    { method: "p-value adjustment", dataset: "four tests", statistic: "all", source: "by hand" },
    [
      ...bonferroniAdjustment(raw).map((p, i) => [p, [0.16, 0.04, 0.08, 1][i]!] as const),
      ...holmAdjustment(raw).map((p, i) => [p, [0.08, 0.04, 0.06, 0.9][i]!] as const),
      ...benjaminiHochbergAdjustment(raw).map((p, i) => [p, [0.16 / 3, 0.04, 0.04, 0.9][i]!] as const),
    ],
    14,
  );
  expect(holmAdjustment([])).toEqual([]);
  for (const adjust of [bonferroniAdjustment, holmAdjustment, benjaminiHochbergAdjustment]) {
    expect(() => adjust([0.5, 1.2])).toThrow(/from 0 to 1; received 1.2/);
    expect(() => adjust([Number.NaN])).toThrow(RangeError);
  }
});

test("wrong calls name the routine and what was received", () => {
  for (const compare of [tukeyKramer, gamesHowell, pairwiseWelch, dunnett]) {
    expect(() => compare([[1, 2, 3]])).toThrow(/at least 2 groups are needed; received 1/);
    expect(() =>
      compare([
        [1, 2, Number.NaN],
        [1, 2],
      ]),
    ).toThrow(RangeError);
    expect(() =>
      compare([
        [1, 1],
        [2, 2],
      ]),
    ).toThrow(RangeError);
    expect(() => compare([[], [2, 2]])).toThrow(RangeError);
  }
  expect(() => gamesHowell([[1], [2, 3]])).toThrow(/at least 2 values; received 1/);
  expect(() =>
    dunnett(
      [
        [1, 2],
        [2, 3],
      ],
      { control: 2 },
    ),
  ).toThrow(/received position 2/);
  expect(() => tukeyKramerOfMeans({ means: [1, 2], counts: [3], errorVariance: 1, degreesOfFreedom: 4 })).toThrow(
    RangeError,
  );
  expect(() =>
    tukeyKramer(
      [
        [1, 2],
        [2, 3],
      ],
      1,
    ),
  ).toThrow(RangeError);
});

test("a group of one value borrows the others' variance; Welch pairs need one that varies", () => {
  expect(tukeyKramer([[1], [2, 4]])[0]!.df).toBe(1);
  expect(dunnett([[1, 3], [2]]).degreesOfFreedom).toBe(1);
  expect(
    pairwiseWelch([
      [1, 1],
      [2, 4],
    ])[0]!.df,
  ).toBe(1);
});
