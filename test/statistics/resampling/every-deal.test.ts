import { describe, expect, test } from "vitest";
import { choose, orderings } from "../../../src/statistics/resampling/count-arrangements.ts";
import { permuteSlope } from "../../../src/statistics/resampling/permute-slope.ts";
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

  test.each([
    ["whole numbers", 1],
    ["tenths, whose ties hide in the last digit", 0.1],
    ["thousands", 1000],
  ])("%s", (_, unit) => {
    const values = response.map((one) => one * unit);
    const slopes = dealsOf(amount, strata).map((deal) => slopeOf(response, deal, strata));
    const slope = permuteSlope({ response: values, amount, strata });
    const ownSlope = slopeOf(response, amount, strata);
    assertClose(slope.observed / unit, ownSlope, 1e-12);
    const asExtreme = slopes.filter((one) => Math.abs(one) >= Math.abs(ownSlope) - 1e-9).length;
    expect(slope.p).toBe(asExtreme / slopes.length);
    const far = permuteSlope({ response: values, amount: amount.map((one) => 1e6 + one / 1000), strata });
    expect(far.p).toBe(slope.p);
  });

  test("sampled: the observed deal counts as one, the seed repeats, strata are kept", () => {
    const options = { exactUpTo: 0, draws: 400, seed: 11 };
    const exact = permuteSlope({ response, amount, strata });
    const found = permuteSlope({ response, amount, strata }, options);
    // Phipson and Smyth 2010: (b + 1) / (m + 1)
    expect(Math.abs(found.p * 401 - Math.round(found.p * 401))).toBeLessThan(1e-9);
    // three standard errors of a share of 400
    assertClose(found.p, exact.p, 3 * Math.sqrt((exact.p * (1 - exact.p)) / 400) + 1 / 400);
    expect(permuteSlope({ response, amount, strata }, options)).toEqual(found);
    // dealt across strata, whose means are far apart, most deals would look extreme or none
    const apart = response.map((one, i) => one + (strata[i] === "a" ? 1000 : 0));
    expect(permuteSlope({ response: apart, amount, strata }, options).p).toBe(found.p);
    expect(() => permuteSlope({ response, amount, strata }, { exactUpTo: 10 })).toThrow(
      "a seed is needed to sample from 360",
    );
    expect(() => permuteSlope({ response, amount, strata }, { draws: 0 })).toThrow(
      "draws must be a whole number of 1 or more",
    );
    expect(permuteSlope({ response, amount, strata }, { exactUpTo: 360 })).toEqual(exact);
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
