import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import {
  permuteBetweenGroups,
  permuteDifference,
  permuteSlope,
} from "../../../src/statistics/resampling/stratified-permutation.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import sleep from "../../reference/paired-sleep.json" with { type: "json" };
import exact from "../../reference/permutation-exact.json" with { type: "json" };
import goldenRain from "../../reference/rcbd-OatsGoldenRain.json" with { type: "json" };

const { data } = exact;

test("sign flips on sleep", () => {
  const { signFlipExact } = sleep.expected;
  const differences = sleep.data.extra.slice(0, 10).map((value, i) => {
    // tenths of an hour, as typed
    return Math.round((value - sleep.data.extra[10 + i]!) * 10) / 10;
  });
  expect(differences.length).toBe(signFlipExact.n);
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
  // the jars' means 2, 2, 4 against 10, 9, 7 lie apart, so 2 of the 20 ways to deal them are as extreme
  expect([own.units, own.possible, own.asExtreme]).toEqual([6, 20, 2]);
  assertClose(own.p, 0.1, 1e-15);
  assertClose(own.observed, 6, 1e-12);
  // three jars against three can never show p below 2 / 20, however many trays
  expect(own.p).toBe(0.1);
  expect(() => permuteDifference({ response: [1, 2, 3], group: ["A", "B", "B"], clusters: ["j", "j", "k"] })).toThrow(
    /all rows of a cluster must share/,
  );
});

test("wrong calls", () => {
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
