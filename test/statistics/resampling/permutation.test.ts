import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import type { PermutationRows } from "../../../src/statistics/resampling/permutation-layout.ts";
import { permuteSlope } from "../../../src/statistics/resampling/permute-slope.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import sleep from "../../reference/paired-sleep.json" with { type: "json" };
import exact from "../../reference/permutation-exact.json" with { type: "json" };
import goldenRain from "../../reference/rcbd-OatsGoldenRain.json" with { type: "json" };

const { data } = exact;

/** Two groups: the slope over 0 and 1 is the second one's mean less the first's. */
const permuteDifference = ({ group, ...rows }: PermutationRows & { group: string[] }) => {
  const [, second] = [...new Set(group)].sort();
  return permuteSlope({ ...rows, amount: group.map((one) => Number(one === second)) });
};

test("sign flips on sleep", () => {
  const { signFlipExact } = sleep.expected;
  expect(signFlipExact.n).toBe(10);
  // two treatments in blocks of one pair each is the same test by another route
  const blocked = permuteDifference({ response: sleep.data.extra, group: sleep.data.group, strata: sleep.data.ID });
  assertClose(blocked.p, 4 / 1024, 1e-15);
  assertClose(blocked.observed, 1.58, 1e-12);
  const slope = permuteSlope({
    response: sleep.data.extra,
    amount: sleep.data.group.map(Number),
    strata: sleep.data.ID,
  });
  assertClose(slope.p, 4 / 1024, 1e-15);
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
  const slope = permuteSlope({ ...oats, amount: pick(goldenRain.data.nitro) });
  const two = permuteDifference({
    ...oats,
    group: pick(goldenRain.data.nitro).map((nitro) => (nitro < 0.3 ? "low" : "high")),
  });
  expectAgreement(
    row("observed, p"),
    [
      [slope.observed, 86.04166666666674],
      [slope.p, 18 / 3456],
      [two.observed, -30.062500000000025],
      [two.p, 6 / 108],
    ],
    12,
  );
});

test("without strata and clusters the stratified test is the two-sample test", () => {
  const response = [...data.sprayC, ...data.sprayD];
  const group = response.map((_, i) => (i < 5 ? "C" : "D"));
  const own = permuteDifference({ response, group });
  assertClose(own.p, 85 / 462, 1e-15);
  assertClose(own.observed, 2.9, 1e-12);
});

test("clusters are averaged and dealt whole", () => {
  const response = [1, 3, 2, 9, 11, 8, 10, 4, 4, 7, 7, 7];
  const clusters = ["j1", "j1", "j2", "j3", "j3", "j4", "j4", "j5", "j5", "j6", "j6", "j6"];
  const group = ["A", "A", "A", "B", "B", "B", "B", "A", "A", "B", "B", "B"];
  const own = permuteDifference({ response, group, clusters });
  // the jars' means 2, 2, 4 against 10, 9, 7 lie apart, so 2 of the 20 ways to deal them are as extreme
  // and three jars against three can never show p below 2 / 20, however many trays
  expect(own.p).toBe(0.1);
  assertClose(own.observed, 6, 1e-12);
  expect(() => permuteDifference({ response: [1, 2, 3], group: ["A", "B", "B"], clusters: ["j", "j", "k"] })).toThrow(
    /all rows of a cluster must share/,
  );
});

test("wrong calls", () => {
  expect(() => permuteSlope({ response: [1, 2], amount: [3, 3] })).toThrow(/amount must vary/);
  expect(() => permuteSlope({ response: [1, 2, 4], amount: [3, 5, Number.POSITIVE_INFINITY] })).toThrow(RangeError);
});

test("10,000 stratified arrangements of 60 trays repeat with the seed", () => {
  const random = seededRandom(1);
  const response = Array.from({ length: 60 }, () => 20 + 4 * random.normal());
  const amount = response.map((_, i) => i % 3);
  const strata = response.map((_, i) => `cook ${Math.floor(i / 12)}`);
  const first = permuteSlope({ response, amount, strata }, { seed: 4, draws: 10_000 });
  expect(permuteSlope({ response, amount, strata }, { seed: 4, draws: 10_000 })).toEqual(first);
  expect(permuteSlope({ response, amount, strata }, { seed: 5, draws: 10_000 }).p).not.toBe(first.p);
});
