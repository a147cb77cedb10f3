import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { exactRankSum } from "../../../src/statistics/resampling/exact-rank-sum.ts";
import { signFlipTest } from "../../../src/statistics/resampling/sign-flip-test.ts";
import {
  permuteBetweenGroups,
  permuteDifference,
  permuteSlope,
} from "../../../src/statistics/resampling/stratified-permutation.ts";
import { twoSamplePermutation } from "../../../src/statistics/resampling/two-sample-permutation.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import sleep from "../../reference/paired-sleep.json" with { type: "json" };
import exact from "../../reference/permutation-exact.json" with { type: "json" };
import goldenRain from "../../reference/rcbd-OatsGoldenRain.json" with { type: "json" };

const { data } = exact;
for (const [dataset, a, b, expected] of [
  ["PlantGrowth, 5 and 5", data.plantA, data.plantB, exact.expected.plant],
  ["InsectSprays, 5 and 6 with ties", data.sprayC, data.sprayD, exact.expected.spray],
] as const) {
  const source = "R 4.2.2, all arrangements";

  test(`exact two-sample permutation on ${dataset}`, () => {
    const own = twoSamplePermutation(a, b);
    expect([own.method, own.arrangements, own.asExtreme]).toEqual([
      "exact",
      expected.permutations,
      expected.countTwoSided,
    ]);
    expectAgreement(
      { method: "two-sample permutation", dataset, statistic: "difference, p", source },
      [
        [own.observed, expected.observedDiff],
        [own.p, expected.pTwoSided],
        [own.pGreater, expected.pGreater],
        [own.pLess, expected.pLess],
      ],
      12,
    );
    const sampled = twoSamplePermutation(a, b, { exactUpTo: 1, seed: 5, draws: 20_000 });
    expect([sampled.method, sampled.seed, sampled.arrangements]).toEqual(["sampled", 5, 20_000]);
    assertClose(sampled.p, expected.pTwoSided, 4 * Math.sqrt((expected.pTwoSided * (1 - expected.pTwoSided)) / 20_000));
    assertClose(sampled.p, (sampled.asExtreme + 1) / 20_001, 1e-15);
    const turned = twoSamplePermutation(b, a, { exactUpTo: 1, seed: 6, draws: 20_000 });
    assertClose(turned.pLess, expected.pGreater, 0.01);
  });

  test(`exact rank sum on ${dataset}`, () => {
    const own = exactRankSum(a, b);
    const reference = expected.exactRankSum;
    expectAgreement(
      { method: "exact rank sum", dataset, statistic: "rank sum, U, p", source },
      [
        [own.rankSum, reference.rankSumA],
        [own.u, reference.U],
        [own.p, reference.pTwoSidedByDeviation],
        [own.pGreater, reference.pGreater],
        [own.pLess, reference.pLess],
      ],
      12,
    );
  });
}

test("sign flips on sleep", () => {
  const { signFlipExact } = sleep.expected;
  const differences = sleep.data.extra.slice(0, 10).map((value, i) => {
    // tenths of an hour, as typed
    return Math.round((value - sleep.data.extra[10 + i]!) * 10) / 10;
  });
  expect(differences.length).toBe(signFlipExact.n);
  const own = signFlipTest(differences);
  expect([own.method, own.arrangements, own.asExtreme]).toEqual([
    "exact",
    signFlipExact.permutations,
    signFlipExact.countTwoSided,
  ]);
  expectAgreement(
    { method: "sign flips", dataset: "sleep", statistic: "mean difference, p", source: "R 4.2.2, all arrangements" },
    [
      [own.observed, sleep.expected.paired.meanDiff],
      [own.p, signFlipExact.pTwoSided],
      [own.pGreater, signFlipExact.pGreater],
    ],
    12,
  );
  const sampled = signFlipTest(differences, { exactUpTo: 1, seed: 11, draws: 50_000 });
  assertClose(sampled.p, signFlipExact.pTwoSided, 0.0012);
  // the differences as they come out of the machine, with their rounding, give the same counts
  const raw = signFlipTest(sleep.data.extra.slice(0, 10).map((value, i) => value - sleep.data.extra[10 + i]!));
  expect(raw.asExtreme).toBe(signFlipExact.countTwoSided);
  // two treatments in blocks of one pair each is the same test by another route
  const blocked = permuteDifference({ response: sleep.data.extra, group: sleep.data.group, strata: sleep.data.ID });
  expect([blocked.first, blocked.second, blocked.possible, blocked.asExtreme]).toEqual(["1", "2", 1024, 4]);
  assertClose(blocked.observed, 1.58, 1e-12);
  const slope = permuteSlope({
    response: sleep.data.extra,
    amount: sleep.data.group.map(Number),
    strata: sleep.data.ID,
  });
  expect(slope.asExtreme).toBe(4);
  expect(
    permuteBetweenGroups({ response: sleep.data.extra, group: sleep.data.group, strata: sleep.data.ID }).asExtreme,
  ).toBe(4);
});

// Blocks II, III and IV of the oat trial, the first plot lost, so that blocks are unequal
const rows = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];
const pick = <T>(column: T[]): T[] => rows.map((i) => column[i]!);
const oats = { response: pick(goldenRain.data.yield), strata: pick(goldenRain.data.Block) };

test("stratified tests against every arrangement fitted by least squares in numpy 2", () => {
  const row = (statistic: string) => ({
    method: "stratified permutation",
    dataset: "Oats, Golden Rain, 11 plots",
    statistic,
    source: "all arrangements, numpy lstsq",
  });
  const between = permuteBetweenGroups({ ...oats, group: pick(goldenRain.data.nitroF) });
  const slope = permuteSlope({ ...oats, amount: pick(goldenRain.data.nitro) });
  const two = permuteDifference({
    ...oats,
    group: pick(goldenRain.data.nitro).map((nitro) => (nitro < 0.3 ? "low" : "high")),
  });
  expect([between.arrangements, between.asExtreme]).toEqual([3456, 198]);
  expect([slope.arrangements, slope.asExtreme]).toEqual([3456, 18]);
  expect([two.arrangements, two.asExtreme, two.first]).toEqual([108, 6, "high"]);
  expectAgreement(
    row("observed, one-sided p"),
    [
      [between.observed, 4041.7083333333335],
      [between.p, 198 / 3456],
      [slope.observed, 86.04166666666674],
      [slope.pGreater, 9 / 3456],
      [slope.pLess, 3449 / 3456],
      [two.observed, -30.062500000000025],
      [two.pGreater, 106 / 108],
      [two.pLess, 3 / 108],
    ],
    12,
  );
  const groups = [0, 1, 2, 3, 10, 11, 12, 13, 20, 21, 22];
  const three = permuteBetweenGroups({
    response: groups.map((i) => plants.data.weight[i]!),
    group: groups.map((i) => plants.data.group[i]!),
  });
  expect([three.arrangements, three.asExtreme]).toEqual([11_550, 776]);
  assertClose(three.observed, 3.8441242424242437, 1e-12);
  // sampling the same question lands near the exact answer
  const sampled = permuteBetweenGroups(
    { ...oats, group: pick(goldenRain.data.nitroF) },
    { exactUpTo: 1, seed: 3, draws: 20_000 },
  );
  assertClose(sampled.p, 198 / 3456, 0.007);
});

test("without strata and clusters the stratified test is the two-sample test", () => {
  const response = [...data.sprayC, ...data.sprayD];
  const group = response.map((_, i) => (i < 5 ? "C" : "D"));
  const own = permuteDifference({ response, group });
  expect([own.asExtreme, own.arrangements]).toEqual([85, 462]);
  assertClose(own.observed, 2.9, 1e-12);
});

test("clusters are averaged and dealt whole", () => {
  const response = [1, 3, 2, 9, 11, 8, 10, 4, 4, 7, 7, 7];
  const clusters = ["j1", "j1", "j2", "j3", "j3", "j4", "j4", "j5", "j5", "j6", "j6", "j6"];
  const group = ["A", "A", "A", "B", "B", "B", "B", "A", "A", "B", "B", "B"];
  const own = permuteDifference({ response, group, clusters });
  const means = twoSamplePermutation([2, 2, 4], [10, 9, 7]);
  expect([own.units, own.possible, own.asExtreme]).toEqual([6, 20, means.asExtreme]);
  assertClose(own.p, means.p, 1e-15);
  assertClose(own.observed, -means.observed, 1e-12);
  // three jars against three can never show p below 2 / 20, however many trays
  expect(own.p).toBe(0.1);
  expect(() => permuteDifference({ response: [1, 2, 3], group: ["A", "B", "B"], clusters: ["j", "j", "k"] })).toThrow(
    /all rows of a cluster must share/,
  );
});

test("ties in decimals are ties: 0.1 + 0.2 against 0.3", () => {
  const own = twoSamplePermutation([0.1, 0.2, 0.3], [0.3, 0.1, 0.2]);
  expect([own.observed, own.p, own.pGreater]).toEqual([0, 1, own.pLess]);
  // as whole numbers there is no rounding to blur the ties
  const tenths = twoSamplePermutation([1, 2, 7], [3, 1, 2, 9]);
  const decimals = twoSamplePermutation([0.1, 0.2, 0.7], [0.3, 0.1, 0.2, 0.9]);
  expect([decimals.asExtreme, decimals.pLess]).toEqual([tenths.asExtreme, tenths.pLess]);
  const thirds = twoSamplePermutation([1 / 3, 2 / 3, 7 / 3], [3 / 3, 1 / 3, 2 / 3, 9 / 3]);
  expect(thirds.asExtreme).toBe(tenths.asExtreme);
});

test("smallest samples and no spread", () => {
  expect(twoSamplePermutation([1], [2]).p).toBe(1);
  expect(twoSamplePermutation([1], [2]).arrangements).toBe(2);
  expect(twoSamplePermutation([1], [2, 3]).p).toBe(1 / 3 + 1 / 3);
  expect(twoSamplePermutation([5, 5], [5, 5, 5]).p).toBe(1);
  expect(signFlipTest([4]).p).toBe(1);
  expect(signFlipTest([0, 0]).p).toBe(1);
  expect(exactRankSum([1], [2])).toMatchObject({ rankSum: 1, u: 0, p: 1, pLess: 0.5 });
  expect(exactRankSum([3, 3], [3]).p).toBe(1);
});

test("rank sums of larger samples: critical values of Mann and Whitney's table (from memory)", () => {
  // two-sided 5 %, U at most 23 for 10 and 10, 127 for 20 and 20
  const firstWith = (n: number, u: number) => {
    // a lies below b except for u inversions
    const b = Array.from({ length: n }, (_, i) => n + 1 + i);
    const a = Array.from({ length: n }, (_, i) => i + 1);
    let left = u;
    for (let i = n - 1; i >= 0 && left > 0; i--) {
      const over = Math.min(left, n);
      a[i] = n + over + 0.5 + i / 1000;
      left -= over;
    }
    return exactRankSum(a, b);
  };
  for (const [n, u] of [
    [10, 23],
    [20, 127],
  ] as const) {
    expect(firstWith(n, u).u).toBe(u);
    expect(firstWith(n, u).p).toBeLessThanOrEqual(0.05);
    expect(firstWith(n, u + 1).p).toBeGreaterThan(0.05);
  }
});

test("wrong calls", () => {
  expect(() => twoSamplePermutation([], [1])).toThrow(/a needs at least 1 values/);
  expect(() => twoSamplePermutation([1, Number.NaN], [1])).toThrow(RangeError);
  expect(() => twoSamplePermutation([1, 2, 3], [4, 5, 6], { exactUpTo: 3 })).toThrow(
    /a seed is needed to sample from 20/,
  );
  expect(() => signFlipTest([])).toThrow(RangeError);
  expect(() => signFlipTest([1, 2, 3], { exactUpTo: 2 })).toThrow(/a seed is needed/);
  expect(() => signFlipTest([1, 2], { draws: 0 })).toThrow(/draws must be a whole number/);
  expect(() => exactRankSum(new Array(150).fill(1), new Array(51).fill(2))).toThrow(/at most 200 values/);
  expect(() => permuteDifference({ response: [1, 2], group: ["A", "A"] })).toThrow(
    /exactly 2 groups are needed; received 1/,
  );
  expect(() => permuteDifference({ response: [1, 2], group: ["A", "B"], strata: ["1", "2"] })).toThrow(
    /a stratum must hold both groups/,
  );
  expect(() => permuteSlope({ response: [1, 2], amount: [3, 3] })).toThrow(/amount must vary/);
  expect(() => permuteSlope({ response: [1, 2, 4], amount: [3, 5, Number.POSITIVE_INFINITY] })).toThrow(RangeError);
  expect(() =>
    permuteBetweenGroups({ response: [1, 2, 3, 4], group: ["A", "A", "B", "B"], strata: ["1", "1", "2", "2"] }),
  ).toThrow(/strata must connect all treatments/);
  expect(() => permuteBetweenGroups({ response: [1, 2], group: ["A"] })).toThrow(/equally long/);
  expect(() => permuteBetweenGroups({ response: [1], group: ["A"] })).toThrow(RangeError);
});

test("10,000 stratified arrangements of 60 trays repeat with the seed", () => {
  const random = seededRandom(1);
  const response = Array.from({ length: 60 }, () => 20 + 4 * random.normal());
  const group = response.map((_, i) => ["A", "B", "C"][i % 3]!);
  const strata = response.map((_, i) => `cook ${Math.floor(i / 12)}`);
  const first = permuteBetweenGroups({ response, group, strata }, { seed: 4, draws: 10_000 });
  expect(first.method).toBe("sampled");
  expect(permuteBetweenGroups({ response, group, strata }, { seed: 4, draws: 10_000 })).toEqual(first);
  expect(permuteBetweenGroups({ response, group, strata }, { seed: 5, draws: 10_000 }).asExtreme).not.toBe(
    first.asExtreme,
  );
});

test("under no effect p is spread evenly", () => {
  const random = seededRandom(2);
  let rejected = 0;
  for (let trial = 0; trial < 400; trial++) {
    const values = Array.from({ length: 9 }, () => random.normal());
    if (twoSamplePermutation(values.slice(0, 4), values.slice(4)).p <= 0.1) rejected++;
  }
  assertClose(rejected / 400, 0.1, 0.05);
});
