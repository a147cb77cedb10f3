import { sampleCorrelation } from "simple-statistics";
import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { permuteClustering } from "../../../src/statistics/resampling/permute-clustering.ts";
import { permuteSlope } from "../../../src/statistics/resampling/permute-slope.ts";
import { slopeByMoments } from "../../../src/statistics/resampling/slope-moments.ts";

test("clustering by permutation agrees with every way of dealing counted out", () => {
  // 5 rows, 2 of them with the event, both in the group of 3: events in that group are hypergeometric with mean 1.2
  const result = permuteClustering({
    event: [true, true, false, false, false],
    group: ["a", "a", "a", "b", "b"],
    seed: 1,
  })!;
  // two there in 3 of 10 deals, 0.8 from the mean; one in 6 of 10, 0.2 from it; none in 1 of 10, 1.2 from it: 4 of 10 as far,
  // by the sum and by the worst group alike, and p is twice the smaller
  expect(Math.abs(result.p - 0.8)).toBeLessThan(8 * Math.sqrt(0.24 / result.draws));
});

/** Chance that a group of half the rows has so many of all events, or as few: hypergeometric, counted out. */
function twoHalves(trays: number, lost: number, there: number): number {
  const logs = [0];
  for (let k = 1; k <= lost; k++) {
    logs.push(logs[k - 1]! + Math.log(((lost - k + 1) * (trays / 2 - k + 1)) / (k * (trays / 2 - lost + k))));
  }
  const chances = logs.map((log) => Math.exp(log - Math.max(...logs)));
  const total = chances.reduce((sum, one) => sum + one, 0);
  const away = Math.abs(there - lost / 2);
  return chances.reduce((sum, one, k) => sum + (Math.abs(k - lost / 2) >= away ? one : 0), 0) / total;
}

test("rows too many for every deal is dealt until p is clear, and to the last draw where it is small", () => {
  const [trays, lost] = [20_000, 1400];
  const halves = (there: number) =>
    permuteClustering({
      event: Array.from({ length: trays }, (_, i) => (i < trays / 2 ? i < there : i - trays / 2 < lost - there)),
      group: Array.from({ length: trays }, (_, i) => (i < trays / 2 ? "a" : "b")),
      seed: 4,
    })!;
  for (const there of [700, 710, 720]) {
    const { p, draws } = halves(there);
    const exact = twoHalves(trays, lost, there);
    expect(draws).toBeLessThan(1000);
    // p is twice the smaller of two that are one here; fifty draws as extreme leave an error of a seventh
    expect(Math.abs(p - Math.min(1, 2 * exact))).toBeLessThan((4 * 2 * exact) / Math.sqrt(50));
  }
  const { p, draws } = halves(770);
  expect(draws).toBe(Math.floor(4e6 / (lost + 2)));
  expect(p).toBeLessThan(0.01);
});

test("groups that are whole strata leave nothing to test", () => {
  const event = [true, false, true, false];
  expect(
    permuteClustering({ event, group: ["a", "a", "b", "b"], strata: ["a", "a", "b", "b"], seed: 1 }),
  ).toBeUndefined();
  expect(() => permuteClustering({ event, group: ["a"], seed: 1 })).toThrow(RangeError);
  const blocks = ["1", "1", "2", "2"];
  expect(() => permuteClustering({ event, group: ["a", "b", "b", "b"], blocks, seed: 1 })).toThrow(RangeError);
});

test("whole blocks: of the 20 ways to give three of six blocks to a group 2 are as far apart", () => {
  const block = Array.from({ length: 18 }, (_, row) => String(Math.floor(row / 3)));
  const group = block.map((one) => (Number(one) < 3 ? "a" : "b"));
  const event = block.map((one) => Number(one) < 3);
  const whole = permuteClustering({ event, group, blocks: block, seed: 1 })!;
  // twice the smaller of two chances that are both 2 in 20; 3,999 draws have a standard error of .01
  expect(whole.p).toBeGreaterThan(0.17);
  expect(whole.p).toBeLessThan(0.23);
  expect(permuteClustering({ event, group, seed: 1 })!.p).toBeLessThan(0.001);
  expect(whole.groups).toMatchObject([
    { level: "a", events: 9, rows: 9, expected: 4.5 },
    { level: "b", events: 0, rows: 9 },
  ]);
});

test("a slope's moments over all permutations are Pearson's r times the root of n - 1: Pitman 1937", () => {
  const random = seededRandom(3);
  const amount = Array.from({ length: 40 }, () => random.uniform() * 7);
  const response = amount.map((x) => 2 - 0.1 * x + random.normal());
  const found = slopeByMoments(response, amount);
  expect(found.z).toBeCloseTo(sampleCorrelation(amount, response) * Math.sqrt(39), 12);
  expect(found.observed).toBeCloseTo(permuteSlope({ response, amount }, { seed: 1, draws: 9 }).observed, 12);
});

test("of some hundred rows the moments give the p of the permutations themselves", () => {
  const random = seededRandom(8);
  const amount = Array.from({ length: 400 }, (_, order) => order);
  const response = amount.map((order) => (random.uniform() < 0.1 + order / 4000 ? 1 : 0));
  const { p } = permuteSlope({ response, amount }, { seed: 5, draws: 20_000 });
  expect(Math.abs(slopeByMoments(response, amount).p - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / 20_000) + 0.001);
});

test("a response that does not vary has no slope; wrong calls say which rule they break", () => {
  expect(slopeByMoments([2, 2, 2], [1, 2, 3])).toEqual({ observed: 0, z: 0, p: 1 });
  expect(() => slopeByMoments([1, 2], [1])).toThrow(/slopeByMoments: amount needs at least 2 values/);
  expect(() => slopeByMoments([1, 2, 3], [1, 2])).toThrow(/equally long/);
  expect(() => slopeByMoments([1, 2], [5, 5])).toThrow(/the amount must vary/);
  expect(() => slopeByMoments([1, Number.NaN], [5, 6])).toThrow(/finite/);
});

test("the worst group comes first, and its p is the share of deals in which some group is as bad", () => {
  // all four losses in one of three groups of four: 3 of the 495 ways to pick four of twelve rows have them in one group
  const group = [..."bbbbaaaacccc"];
  const found = permuteClustering({ event: group.map((level) => level === "a"), group, seed: 5 })!;
  expect(found.groups.map(({ level, events, rows }) => [level, events, rows])).toEqual([
    ["a", 4, 4],
    ["b", 0, 4],
    ["c", 0, 4],
  ]);
  const exact = 3 / 495;
  const [worst, ...others] = found.groups.map(({ p }) => p);
  expect(Math.abs(worst! - exact)).toBeLessThan(4 * Math.sqrt(exact / found.draws) + 1 / found.draws);
  // no more losses than expected: as bad in every deal
  expect(others).toEqual([1, 1]);
});
