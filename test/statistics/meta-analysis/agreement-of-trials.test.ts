import { expect, test } from "vitest";
import { agreementOfTrials } from "../../../src/statistics/meta-analysis/agreement-of-trials.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { expectAgreement } from "../../agreement.ts";
import ozone from "../../reference/oneway-airqualityOzone.json" with { type: "json" };
import insects from "../../reference/oneway-InsectSprays.json" with { type: "json" };
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import teeth from "../../reference/oneway-ToothGrowthDose.json" with { type: "json" };
import warp from "../../reference/twoway-warpbreaks.json" with { type: "json" };

const ofGroups = (groups: number[][]) => {
  const means = groups.map((group) => group.reduce((sum, value) => sum + value, 0) / group.length);
  const errors = groups.map((group, k) =>
    Math.sqrt(group.reduce((sum, value) => sum + (value - means[k]!) ** 2, 0) / (group.length - 1) / group.length),
  );
  return agreementOfTrials(
    means,
    errors,
    groups.map(({ length }) => length - 1),
  );
};

test.each([
  ["PlantGrowth", plants.expected, plants.data.weight, plants.data.group],
  ["InsectSprays", insects.expected, insects.data.count, insects.data.spray],
  ["ToothGrowth by dose", teeth.expected, teeth.data.len, teeth.data.dose],
  ["airquality, ozone by month", ozone.expected, ozone.data.Ozone, ozone.data.Month],
  ["warpbreaks by tension", warp.expected.oneWayTension, warp.data.breaks, warp.data.tension],
] as const)("means of groups with their errors, %s: R's Welch test", (dataset, expected, values, labels) => {
  const groups = expected.levels.map((level) => values.filter((_, row) => labels[row] === level));
  const { f, denominatorDf, p } = ofGroups(groups);
  const row = { method: "agreement of trials", dataset, source: "R 4.2.2 oneway.test" };
  expectAgreement(
    { ...row, statistic: "F, df" },
    [
      [f, expected.welch.F],
      [denominatorDf, expected.welch.df2],
    ],
    9,
  );
  expectAgreement({ ...row, statistic: "p" }, [[p, expected.welch.p]], 7);
});

test("the common effect weighs trials by size, with the degrees of freedom of all where errors and sizes are alike", () => {
  const { common } = agreementOfTrials([1, 3], [1, 1], [4, 4]);
  expect(common.estimate).toBeCloseTo(2, 12);
  expect(common.standardError).toBeCloseTo(Math.SQRT1_2, 12);
  expect(common.df).toBeCloseTo(8, 12);
  // two means of 4 and 12 values as trials of those sizes: the error of their pooled mean, Satterthwaite's degrees of freedom
  const sized = agreementOfTrials([1, 3], [0.5, 0.25], [3, 11], 0.95, [4, 12]).common;
  expect(sized.weights).toEqual([0.25, 0.75]);
  expect(sized.estimate).toBeCloseTo(2.5, 12);
  expect(sized.standardError).toBeCloseTo(Math.hypot(0.125, 0.1875), 12);
  expect(sized.df).toBeCloseTo((0.125 ** 2 + 0.1875 ** 2) ** 2 / (0.125 ** 4 / 3 + 0.1875 ** 4 / 11), 10);
});

test("the interval of the common effect holds it 95 times in 100 where trials are small", () => {
  const random = seededRandom(4);
  let held = 0;
  const books = 4000;
  for (let book = 0; book < books; book++) {
    const drawn = Array.from({ length: 4 }, () => Array.from({ length: 4 }, () => random.normal()));
    const { lower, upper } = ofGroups(drawn).common;
    if (lower <= 0 && upper >= 0) held++;
  }
  // weights by the trials' own errors: 80 %
  expect(held / books).toBeGreaterThan(0.94);
  expect(held / books).toBeLessThan(0.98);
});

test("what cannot be worked out is refused", () => {
  expect(() => agreementOfTrials([1], [1], [1])).toThrow("2 trials or more are needed");
  expect(() => agreementOfTrials([1, 2], [1, 1, 1], [1, 1])).toThrow("received 2, 3, 2, 2");
  expect(() => agreementOfTrials([1, 2], [1, 1], [1, 1, 1])).toThrow("received 2, 2, 3, 2");
  expect(() => agreementOfTrials([1, 2], [1, 0], [1, 1])).toThrow("a standard error must be");
  expect(() => agreementOfTrials([1, 2], [1, 1], [1, 0])).toThrow("degrees of freedom must be");
  expect(() => agreementOfTrials([1, Number.NaN], [1, 1], [1, 1])).toThrow("finite");
  expect(() => agreementOfTrials([1, 2], [1, 1], [1, 1], 1)).toThrow("level");
});
