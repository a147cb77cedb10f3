import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { bootstrapInterval } from "../../../src/statistics/resampling/bootstrap-interval.ts";
import { drawRows, resamplingPlan } from "../../../src/statistics/resampling/resampling-plan.ts";
import { assertClose } from "../../agreement.ts";

const mean = (values: ReadonlyArray<number>) => values.reduce((sum, value) => sum + value, 0) / values.length;
const plugInVariance = (values: ReadonlyArray<number>) => mean(values.map((value) => (value - mean(values)) ** 2));

/** Spatial test, 26 children: Efron and Tibshirani 1993, An Introduction to the Bootstrap, table 14.1 (from memory) */
const spatial = [48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41];

test("variance of the spatial test: Efron and Tibshirani 1993, table 14.2 (from memory)", () => {
  const input = { rows: spatial, statistic: plugInVariance, seed: 1, draws: 20_000, level: 0.9 };
  const bca = bootstrapInterval(input);
  assertClose(bca.estimate, 171.5, 0.05);
  assertClose(bca.acceleration, 0.061, 0.0005);
  assertClose(bca.biasCorrection, 0.146, 0.04);
  // printed 115.8 to 259.6 from 2000 draws; scipy 1.17.1 from 200,000 draws 115.4 to 260.9
  assertClose(bca.lower, 115.4, 2);
  assertClose(bca.upper, 260.9, 3);
  const percentile = bootstrapInterval({ ...input, method: "percentile" });
  // printed 100.8 to 233.9; scipy 97.8 to 235.6, standard error 41.85
  assertClose(percentile.lower, 97.8, 2);
  assertClose(percentile.upper, 235.6, 2.5);
  assertClose(percentile.standardError, 41.85, 1);
});

test("with many rows they are left out by the group, and the acceleration stays what its formula gives", () => {
  const random = seededRandom(6);
  const rows = Array.from({ length: 3000 }, () => -Math.log(1 - random.uniform()));
  const { acceleration } = bootstrapInterval({ rows, statistic: mean, seed: 1, draws: 200 });
  // of a mean: skewness over 6 root n (Efron 1987, from memory)
  const m = mean(rows);
  const moment = (power: number) => mean(rows.map((value) => (value - m) ** power));
  const formula = moment(3) / moment(2) ** 1.5 / 6 / Math.sqrt(3000);
  assertClose(acceleration, formula, 0.15 * formula);
});

test("the seed fixes the interval", () => {
  const input = { rows: spatial, statistic: mean, seed: 8, draws: 500 };
  expect(bootstrapInterval(input)).toEqual(bootstrapInterval(input));
  expect(bootstrapInterval({ ...input, seed: 9 }).lower).not.toBe(bootstrapInterval(input).lower);
  expect(bootstrapInterval(input)).toMatchObject({ seed: 8, draws: 500, units: 26, undefinedDraws: 0 });
});

test("the standard error of a mean is the textbook's, by row and by cluster", () => {
  const byRow = bootstrapInterval({ rows: spatial, statistic: mean, seed: 2, draws: 20_000 });
  assertClose(byRow.standardError, Math.sqrt(plugInVariance(spatial) / 26), 0.05);
  // 13 pairs alike within: the pairs are what varies
  const doubled = spatial.slice(0, 13).flatMap((value) => [value, value]);
  const clusters = doubled.map((_, i) => `jar ${Math.floor(i / 2)}`);
  const byCluster = bootstrapInterval({ rows: doubled, statistic: mean, seed: 2, draws: 20_000, clusters });
  assertClose(byCluster.standardError, Math.sqrt(plugInVariance(spatial.slice(0, 13)) / 13), 0.1);
  expect(byCluster.units).toBe(13);
});

test("draws within strata never mix them, and clusters stay whole", () => {
  const strata = ["1", "1", "1", "1", "2", "2", "2"];
  const clusters = ["a", "a", "b", "c", "d", "e", "e"];
  const plan = resamplingPlan("test", 7, clusters, strata);
  expect(plan.units).toBe(5);
  const random = seededRandom(3);
  const rows: number[] = [];
  for (let draw = 0; draw < 200; draw++) {
    drawRows(plan, random, rows);
    const count = (row: number) => rows.filter((one) => one === row).length;
    expect(count(0)).toBe(count(1));
    expect(count(5)).toBe(count(6));
    expect(count(0) + count(2) + count(3)).toBe(3);
    expect(count(4) + count(5)).toBe(2);
  }
});

test("strata that differ widely leave only the spread within them", () => {
  const rows = [1, 2, 3, 101, 102, 103];
  const strata = ["a", "a", "a", "b", "b", "b"];
  const within = bootstrapInterval({ rows, statistic: mean, seed: 4, draws: 4000, strata });
  expect(within.upper - within.lower).toBeLessThan(2.1);
  expect(bootstrapInterval({ rows, statistic: mean, seed: 4, draws: 4000 }).standardError).toBeGreaterThan(15);
});

test("a statistic of records: the slope of weight on dose", () => {
  const rows = [0, 0, 5, 5, 10, 10, 15, 15].map((dose, i) => ({ dose, grams: 20 + 0.8 * dose + (i % 2 ? 1 : -1) }));
  const slope = (sample: ReadonlyArray<{ dose: number; grams: number }>) => {
    const x = mean(sample.map(({ dose }) => dose));
    const y = mean(sample.map(({ grams }) => grams));
    return (
      sample.reduce((sum, { dose, grams }) => sum + (dose - x) * (grams - y), 0) /
      sample.reduce((sum, { dose }) => sum + (dose - x) ** 2, 0)
    );
  };
  const interval = bootstrapInterval({ rows, statistic: slope, seed: 5, draws: 2000 });
  assertClose(interval.estimate, 0.8, 1e-12);
  expect(interval.lower).toBeLessThan(0.8);
  expect(interval.upper).toBeGreaterThan(0.8);
  // with three rows every ninth sample has a single dose and no slope
  expect(() =>
    bootstrapInterval({
      rows: [rows[0]!, rows[2]!, rows[4]!],
      statistic: slope,
      seed: 5,
      draws: 500,
      method: "percentile",
    }),
  ).toThrow(/no finite value in \d+ of 500/);
});

test("no spread gives an interval without width; thin or wrong input is refused", () => {
  expect(bootstrapInterval({ rows: [4, 4, 4], statistic: mean, seed: 1, draws: 200 })).toMatchObject({
    estimate: 4,
    lower: 4,
    upper: 4,
    standardError: 0,
  });
  expect(bootstrapInterval({ rows: [1, 2], statistic: mean, seed: 1, draws: 200 }).upper).toBe(2);
  expect(() => bootstrapInterval({ rows: [4], statistic: mean, seed: 1 })).toThrow(/at most 1 in each/);
  expect(() => bootstrapInterval({ rows: [1, 2], strata: ["a", "b"], statistic: mean, seed: 1 })).toThrow(
    /at most 1 in each/,
  );
  expect(() =>
    bootstrapInterval({
      rows: [1, 2, 3],
      clusters: ["a", "a", "b"],
      strata: ["x", "y", "y"],
      statistic: mean,
      seed: 1,
    }),
  ).toThrow(/must lie in one stratum/);
  expect(() => bootstrapInterval({ rows: [1, 2], statistic: () => Number.NaN, seed: 1 })).toThrow(
    /must be a finite number; received NaN/,
  );
  expect(() => bootstrapInterval({ rows: [1, 2], statistic: mean, seed: 1, draws: 20 })).toThrow(
    /draws must be a whole number of 100/,
  );
  expect(() => bootstrapInterval({ rows: [1, 2], statistic: mean, seed: -1 })).toThrow(RangeError);
  expect(() => bootstrapInterval({ rows: [1, 2], statistic: mean, seed: 1, level: 1 })).toThrow(RangeError);
  // a sample of 12 rows hardly ever holds 12 different ones: every draw falls below the estimate
  const different = (sample: ReadonlyArray<number>) => new Set(sample).size;
  const twelve = Array.from({ length: 12 }, (_, i) => i);
  expect(() => bootstrapInterval({ rows: twelve, statistic: different, seed: 1, draws: 500 })).toThrow(
    /all on one side of 12/,
  );
  expect(
    bootstrapInterval({ rows: twelve, statistic: different, seed: 1, draws: 500, method: "percentile" }).upper,
  ).toBeLessThan(12);
});
