import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "../../../src/statistics/distributions/normal.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { type BootstrapInput, bootstrapInterval } from "../../../src/statistics/resampling/bootstrap-interval.ts";
import { assertClose } from "../../agreement.ts";

const mean = (values: ReadonlyArray<number>) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);
const plugInVariance = (values: ReadonlyArray<number>) => mean(values.map((value) => (value - mean(values)) ** 2));

/** Spatial test, 26 children: Efron and Tibshirani 1993, An Introduction to the Bootstrap, table 14.1 (from memory) */
const spatial = [48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41];

test("variance of the spatial test: Efron and Tibshirani 1993, table 14.2 (from memory)", () => {
  const input = { rows: spatial, statistic: plugInVariance, seed: 1, draws: 20_000, level: 0.9 };
  const bca = bootstrapInterval(input);
  // printed 115.8 to 259.6 from 2000 draws; scipy 1.17.1 from 200,000 draws 115.4 to 260.9
  assertClose(bca.lower, 115.4, 2);
  assertClose(bca.upper, 260.9, 3);
  const percentile = bootstrapInterval({ ...input, method: "percentile" });
  // printed 100.8 to 233.9; scipy 97.8 to 235.6
  assertClose(percentile.lower, 97.8, 2);
  assertClose(percentile.upper, 235.6, 2.5);
});

test("the seed fixes the interval", () => {
  const input = { rows: spatial, statistic: mean, seed: 8, draws: 500 };
  expect(bootstrapInterval(input)).toEqual(bootstrapInterval(input));
  expect(bootstrapInterval({ ...input, seed: 9 }).lower).not.toBe(bootstrapInterval(input).lower);
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
  expect(bootstrapInterval({ rows: [4, 4, 4], statistic: mean, seed: 1, draws: 200 })).toEqual({
    lower: 4,
    upper: 4,
  });
  expect(bootstrapInterval({ rows: [1, 2], statistic: mean, seed: 1, draws: 200 }).upper).toBe(2);
  expect(() => bootstrapInterval({ rows: [4], statistic: mean, seed: 1 })).toThrow(
    /at least 2 rows are needed; received 1/,
  );
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

/** What the textbook makes of the same draws: Efron 1987, Journal of the American Statistical Association 82(397):171-185. */
function byHand(draws: number[], estimate: number, leftOut: number[], level: number) {
  const ordered = [...draws].sort((a, b) => a - b);
  const below = ordered.filter((one) => one < estimate).length + ordered.filter((one) => one === estimate).length / 2;
  const bias = normalQuantile(below / ordered.length);
  // how far the left-out values lie from their mean, times (n - 1) / n
  const influences = leftOut.map((one) => ((leftOut.length - 1) * (mean(leftOut) - one)) / leftOut.length);
  const acceleration = sum(influences.map((one) => one ** 3)) / 6 / sum(influences.map((one) => one ** 2)) ** 1.5;
  const at = (p: number): number => {
    const place = Math.min(Math.max(p * (ordered.length + 1) - 1, 0), ordered.length - 1);
    const low = Math.floor(place);
    return ordered[low]! + (place - low) * ((ordered[low + 1] ?? ordered[low]!) - ordered[low]!);
  };
  const shifted = (p: number): number => {
    const z = bias + normalQuantile(p);
    return at(normalCdf(bias + z / (1 - acceleration * z)));
  };
  const tail = (1 - level) / 2;
  return { acceleration, bca: [shifted(tail), shifted(1 - tail)], percentile: [at(tail), at(1 - tail)] };
}

describe("bootstrap intervals are what their formulas make of the draws", () => {
  const rows = [3, 9, 4, 8, 6, 21, 7, 5, 12, 2];
  const jackknife = (values: number[]) => values.map((_, i) => mean(values.filter((__, j) => j !== i)));
  /** An interval, and the samples its statistic was asked about. */
  const watched = (more: Partial<BootstrapInput<number>>) => {
    const asked: number[][] = [];
    const statistic = (sample: ReadonlyArray<number>): number => {
      asked.push([...sample]);
      return mean(sample);
    };
    return { interval: bootstrapInterval({ rows, statistic, seed: 3, draws: 150, ...more }), asked };
  };

  test.each([0.95, 0.8])("rows on their own, level %s", (level) => {
    const { interval, asked } = watched({ level });
    const draws = asked.slice(1, 151);
    for (const draw of draws) expect([draw.length, draw.every((one) => rows.includes(one))]).toEqual([10, true]);
    const expected = byHand(draws.map(mean), mean(rows), jackknife(rows), level);
    // of a mean it is the skewness over 6 root n (Efron 1987)
    const moment = (power: number) => mean(rows.map((one) => (one - mean(rows)) ** power));
    assertClose(expected.acceleration, moment(3) / moment(2) ** 1.5 / 6 / Math.sqrt(10), 1e-12);
    assertClose(interval.lower, expected.bca[0]!, 1e-10);
    assertClose(interval.upper, expected.bca[1]!, 1e-10);
    const percentile = watched({ level, method: "percentile" });
    assertClose(percentile.interval.lower, expected.percentile[0]!, 1e-12);
    assertClose(percentile.interval.upper, expected.percentile[1]!, 1e-12);
    expect(percentile.asked).toHaveLength(151);
  });

  test("hundreds of rows are left out by the group", () => {
    const random = seededRandom(6);
    const many = Array.from({ length: 700 }, () => -Math.log(1 - random.uniform()));
    const { interval, asked } = watched({ rows: many, draws: 100 });
    // the data, the draws, and 500 groups of one or two rows
    expect(asked).toHaveLength(601);
    expect(new Set(asked.slice(101).map((one) => one.length))).toEqual(new Set([698, 699]));
    const { bca } = byHand(asked.slice(1, 101).map(mean), mean(many), asked.slice(101).map(mean), 0.95);
    assertClose(interval.upper, bca[1]!, 1e-10);
  });

  test("draws without a figure are counted, and refused where they are more than one in twenty", () => {
    const failing = (every: number) => {
      let calls = 0;
      return (sample: ReadonlyArray<number>) => (calls++ % every === 1 ? Number.NaN : mean(sample));
    };
    // 150 draws, of which every twentieth fails: 8 of them would be more than 5 %
    const input = { rows, seed: 3, draws: 160, method: "percentile" as const };
    expect(bootstrapInterval({ ...input, statistic: failing(20) }).upper).toBeLessThan(21);
    expect(() => bootstrapInterval({ ...input, statistic: failing(19) })).toThrow("no finite value in 9 of 160");
    // all but one row alike: left out, nothing is left to average
    const odd = (sample: ReadonlyArray<number>) => (sample.length < 10 ? Number.NaN : mean(sample));
    expect(() => bootstrapInterval({ rows, statistic: odd, seed: 3, draws: 100 })).toThrow(
      'any one row left out for "bca"; received NaN',
    );
    const up = (sample: ReadonlyArray<number>) => -new Set(sample).size;
    expect(() => bootstrapInterval({ rows, statistic: up, seed: 3, draws: 100 })).toThrow("all on one side of -10");
  });
});
