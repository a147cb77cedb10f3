import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "../../../src/statistics/distributions/normal.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { type BootstrapInput, bootstrapInterval } from "../../../src/statistics/resampling/bootstrap-interval.ts";
import { choose, orderings } from "../../../src/statistics/resampling/count-arrangements.ts";
import { permuteSlope } from "../../../src/statistics/resampling/stratified-permutation.ts";
import { assertClose } from "../../agreement.ts";

const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);
const mean = (values: ReadonlyArray<number>): number => sum(values) / values.length;

/** Every different order of some labels. */
function ordersOf<Label>(labels: ReadonlyArray<Label>): Label[][] {
  if (labels.length < 2) return [[...labels]];
  return [...new Set(labels)].flatMap((label) => {
    const rest = [...labels];
    rest.splice(labels.indexOf(label), 1);
    return ordersOf(rest).map((order) => [label, ...order]);
  });
}

/** Every deal of the labels within strata; rows of a stratum stand together. */
function dealsOf<Label>(labels: ReadonlyArray<Label>, strata: ReadonlyArray<string>): Label[][] {
  return [...new Set(strata)]
    .map((name) => ordersOf(labels.filter((_, i) => strata[i] === name)))
    .reduce<Label[][]>((all, own) => all.flatMap((before) => own.map((order) => [...before, ...order])), [[]]);
}

const centred = (values: ReadonlyArray<number>, strata: ReadonlyArray<string>): number[] =>
  values.map((value, i) => value - mean(values.filter((_, j) => strata[j] === strata[i])));

/** Slope within strata: of the responses and amounts less their stratum's mean. */
function slopeOf(
  response: ReadonlyArray<number>,
  amount: ReadonlyArray<number>,
  strata: ReadonlyArray<string>,
): number {
  const x = centred(amount, strata);
  return sum(x.map((one, i) => one * response[i]!)) / sum(x.map((one) => one * one));
}

describe("permutation tests are counts over every deal", () => {
  const response = [3, 5, 4, 8, 7, 2, 2, 6, 9];
  const strata = ["a", "a", "a", "a", "b", "b", "b", "b", "b"];
  const amount = [0, 0, 5, 10, 5, 0, 5, 10, 10];

  const shares = (observed: number, all: number[]) => ({
    asExtreme: all.filter((one) => Math.abs(one) >= Math.abs(observed) - 1e-9).length,
    pGreater: all.filter((one) => one >= observed - 1e-9).length / all.length,
    pLess: all.filter((one) => one <= observed + 1e-9).length / all.length,
    arrangements: all.length,
    method: "exact",
  });

  test.each([
    ["whole numbers", 1],
    ["tenths, whose ties hide in the last digit", 0.1],
    ["thousands", 1000],
  ])("%s", (_, unit) => {
    // biome-ignore format: a table
    const values = response.map((one) => one * unit);
    const slopes = dealsOf(amount, strata).map((deal) => slopeOf(response, deal, strata));
    const slope = permuteSlope({ response: values, amount, strata });
    const ownSlope = slopeOf(response, amount, strata);
    assertClose(slope.observed / unit, ownSlope, 1e-12);
    expect(slope).toMatchObject({ ...shares(ownSlope, slopes), units: 9, possible: slopes.length });
    assertClose(slope.p, slope.asExtreme / slopes.length, 1e-15);
    expect(slope.seed).toBeUndefined();
    const far = permuteSlope({ response: values, amount: amount.map((one) => 1e6 + one / 1000), strata });
    expect([far.asExtreme, far.pGreater, far.pLess]).toEqual([slope.asExtreme, slope.pGreater, slope.pLess]);
  });

  test("sampled: the observed deal counts as one, the seed repeats, strata are kept", () => {
    const options = { exactUpTo: 0, draws: 400, seed: 11 };
    const exact = permuteSlope({ response, amount, strata });
    const found = permuteSlope({ response, amount, strata }, options);
    expect(found).toMatchObject({ method: "sampled", arrangements: 400, seed: 11, possible: exact.possible, units: 9 });
    // Phipson and Smyth 2010: (b + 1) / (m + 1)
    assertClose(found.p, (found.asExtreme + 1) / 401, 1e-15);
    // three standard errors of a share of 400
    const within = (share: number) => 3 * Math.sqrt((share * (1 - share)) / 400) + 1 / 400;
    assertClose(found.p, exact.p, within(exact.p));
    assertClose(found.pGreater, exact.pGreater, within(exact.pGreater));
    assertClose(found.pLess, exact.pLess, within(exact.pLess));
    expect(permuteSlope({ response, amount, strata }, options)).toEqual(found);
    // dealt across strata, whose means are far apart, most deals would look extreme or none
    const apart = response.map((one, i) => one + (strata[i] === "a" ? 1000 : 0));
    expect(permuteSlope({ response: apart, amount, strata }, options).asExtreme).toBe(found.asExtreme);
    expect(() => permuteSlope({ response, amount, strata }, { exactUpTo: 10 })).toThrow(
      "a seed is needed to sample from 360",
    );
    expect(() => permuteSlope({ response, amount, strata }, { draws: 0 })).toThrow(
      "draws must be a whole number of 1 or more",
    );
    expect(permuteSlope({ response, amount, strata }, { exactUpTo: exact.possible }).method).toBe("exact");
  });

  test("an amount that varies in no stratum, or rounds to nothing, is refused", () => {
    const alike = ["a", "a", "b", "b", "b"];
    for (const [low, high] of [[0.1, 0.7], [1, 3]] as const) // biome-ignore format: pairs
      expect(() =>
        permuteSlope({ response: [1, 2, 3, 4, 9], amount: [low, low, high, high, high], strata: alike }),
      ).toThrow("received 2 amounts that do not");
    expect(() => permuteSlope({ response: [1], amount: [1] })).toThrow("at least 2 units are needed; received 1");
    expect(() => permuteSlope({ response: [1, 2], amount: [1] })).toThrow("equally long");
    expect(() => permuteSlope({ response: [1, 2], amount: [1, Number.NaN] })).toThrow("amount must be finite");
    expect(() => permuteSlope({ response: [1, Number.NaN], amount: [1, 2] })).toThrow("response must be finite");
    expect(() => permuteSlope({ response: [1, 2], amount: [1, 2], strata: ["a"] })).toThrow("response and strata");
    expect(() => permuteSlope({ response: [1, 2], amount: [1, 2], clusters: ["a"] })).toThrow("response and clusters");
    const split = { response: [1, 2, 4], amount: [0, 0, 1], clusters: ["k", "k", "l"], strata: ["s", "t", "s"] };
    expect(() => permuteSlope(split)).toThrow('received cluster "k" with two');
  });
});

test("ways to choose and to order, by Pascal's triangle and by hand", () => {
  for (let n = 0; n <= 30; n++)
    for (let k = 0; k <= n; k++)
      expect(choose(n, k)).toBe(k === 0 || k === n ? 1 : choose(n - 1, k - 1) + choose(n - 1, k));
  expect([orderings([]), orderings([4]), orderings([2, 1]), orderings([2, 2, 1]), orderings([0, 3])]).toEqual([
    1, 1, 3, 30, 1,
  ]);
});

/** What the textbook makes of the same draws: Efron 1987, Journal of the American Statistical Association 82(397):171-185. */
function byHand(draws: number[], estimate: number, leftOut: number[][], level: number) {
  const ordered = [...draws].sort((a, b) => a - b);
  const below = ordered.filter((one) => one < estimate).length + ordered.filter((one) => one === estimate).length / 2;
  const bias = normalQuantile(below / ordered.length);
  // of each stratum: how far its left-out values lie from their mean, times (n - 1) / n
  const influences = leftOut.flatMap((own) => own.map((one) => ((own.length - 1) * (mean(own) - one)) / own.length));
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
  return { bias, acceleration, bca: [shifted(tail), shifted(1 - tail)], percentile: [at(tail), at(1 - tail)] };
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
    const expected = byHand(draws.map(mean), mean(rows), [jackknife(rows)], level);
    assertClose(interval.biasCorrection, expected.bias, 1e-12);
    assertClose(interval.acceleration, expected.acceleration, 1e-12);
    // of a mean it is the skewness over 6 root n (Efron 1987)
    const moment = (power: number) => mean(rows.map((one) => (one - mean(rows)) ** power));
    assertClose(interval.acceleration, moment(3) / moment(2) ** 1.5 / 6 / Math.sqrt(10), 1e-12);
    assertClose(interval.lower, expected.bca[0]!, 1e-10);
    assertClose(interval.upper, expected.bca[1]!, 1e-10);
    const values = draws.map(mean);
    assertClose(interval.standardError, Math.sqrt(sum(values.map((one) => (one - mean(values)) ** 2)) / 149), 1e-12);
    expect(interval).toMatchObject({
      estimate: mean(rows),
      level,
      method: "bca",
      draws: 150,
      undefinedDraws: 0,
      units: 10,
    });
    const percentile = watched({ level, method: "percentile" });
    assertClose(percentile.interval.lower, expected.percentile[0]!, 1e-12);
    assertClose(percentile.interval.upper, expected.percentile[1]!, 1e-12);
    expect(percentile.interval).toMatchObject({ method: "percentile", biasCorrection: 0, acceleration: 0 });
    expect(percentile.asked).toHaveLength(151);
  });

  test("whole clusters of unequal size, each within its stratum", () => {
    const clusters = ["k", "k", "k", "l", "m", "m", "n", "n", "o", "p"];
    const strata = ["s", "s", "s", "s", "t", "t", "t", "t", "t", "lone"];
    const { interval, asked } = watched({ clusters, strata });
    expect(interval.units).toBe(6);
    const sizes = new Set<number>();
    for (const draw of asked.slice(1, 151)) {
      sizes.add(draw.length);
      const times = rows.map((row) => draw.filter((one) => one === row).length);
      clusters.forEach((name, i) => {
        expect(times[i]).toBe(times[clusters.indexOf(name)]);
      });
      expect([times[0]! + times[3]!, times[4]! + times[6]! + times[8]!, times[9]]).toEqual([2, 3, 1]);
    }
    expect(sizes.size).toBeGreaterThan(3);
    // a stratum of one unit cannot do without it
    const without = (name: string) => mean(rows.filter((_, i) => clusters[i] !== name));
    const { acceleration } = byHand([1, 2, 3], 2, [[without("k"), without("l")], ["m", "n", "o"].map(without)], 0.95);
    assertClose(interval.acceleration, acceleration, 1e-12);
  });

  test("hundreds of rows are left out by the group, and the acceleration stays near its formula", () => {
    const random = seededRandom(6);
    const many = Array.from({ length: 700 }, () => -Math.log(1 - random.uniform()));
    const { interval, asked } = watched({ rows: many, draws: 100 });
    // the data, the draws, and 500 groups of one or two rows
    expect(asked).toHaveLength(601);
    expect(new Set(asked.slice(101).map((one) => one.length))).toEqual(new Set([698, 699]));
    const moment = (power: number) => mean(many.map((one) => (one - mean(many)) ** power));
    const formula = moment(3) / moment(2) ** 1.5 / 6 / Math.sqrt(700);
    assertClose(interval.acceleration, formula, 0.3 * formula);
  });

  test("draws without a figure are counted, and refused where they are more than one in twenty", () => {
    const failing = (every: number) => {
      let calls = 0;
      return (sample: ReadonlyArray<number>) => (calls++ % every === 1 ? Number.NaN : mean(sample));
    };
    // 150 draws, of which every twentieth fails: 8 of them would be more than 5 %
    const input = { rows, seed: 3, draws: 160, method: "percentile" as const };
    expect(bootstrapInterval({ ...input, statistic: failing(20) })).toMatchObject({ undefinedDraws: 8, draws: 160 });
    expect(() => bootstrapInterval({ ...input, statistic: failing(19) })).toThrow("no finite value in 9 of 160");
    // all but one row alike: left out, nothing is left to average
    const odd = (sample: ReadonlyArray<number>) => (sample.length < 10 ? Number.NaN : mean(sample));
    expect(() => bootstrapInterval({ rows, statistic: odd, seed: 3, draws: 100 })).toThrow(
      'any one unit left out for "bca"; received NaN',
    );
    const up = (sample: ReadonlyArray<number>) => -new Set(sample).size;
    expect(() => bootstrapInterval({ rows, statistic: up, seed: 3, draws: 100 })).toThrow("all on one side of -10");
    expect(() => bootstrapInterval({ rows, statistic: mean, seed: 3, clusters: ["k"] })).toThrow(
      "rows and clusters must be equally long",
    );
    expect(() => bootstrapInterval({ rows, statistic: mean, seed: 3, strata: ["k"] })).toThrow(
      "rows and strata must be equally long",
    );
  });
});
