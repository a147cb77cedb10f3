import { expect, test } from "vitest";
import { chanceOfBest } from "../../../src/statistics/comparisons/chance-of-best.ts";
import { dunnett, dunnettOfMeans } from "../../../src/statistics/comparisons/dunnett.ts";
import { largestComparisonUpperTail } from "../../../src/statistics/comparisons/largest-comparison.ts";
import {
  benjaminiHochbergAdjustment,
  holmAdjustment,
} from "../../../src/statistics/comparisons/p-value-adjustments.ts";
import { assertClose } from "../../agreement.ts";

test("the largest comparison with a control: Dunnett's integral by mpmath 1.3.0, 20 digits", () => {
  const infinite = Number.POSITIVE_INFINITY;
  const rows = [
    [2.2, [0.7, 0.7, 0.7], "either", 0.07275087813019705],
    [2.2, [0.99, 0.3], "either", 0.05373694933849174],
    [1.5, [0.999, 0.999], "above", 0.07007360402359011],
    [3, [0.2, 0.2, 0.2, 0.2, 0.2, 0.2], "either", 0.01608143040690945],
    [-0.5, [0.5, 0.8], "above", 0.8516937242435247],
  ] as const;
  for (const [t, loadings, direction, value] of rows)
    assertClose(largestComparisonUpperTail(t, loadings, infinite, direction), value, 1e-12);
});

test("each argument of a comparison with a control is checked by name", () => {
  const good = { means: [5, 6, 8], counts: [4, 4, 4], errorVariance: 1, degreesOfFreedom: 6 };
  const refused: [Partial<typeof good>, string][] = [
    [{ means: [5], counts: [4] }, "2 means or more are needed, each with a count; received 1 and 1"],
    [{ counts: [4, 4] }, "received 3 and 2"],
    [{ means: [5, Number.NaN, 8] }, "means must be finite"],
    [{ counts: [4, 0, 4] }, "a count must be a whole number of 1 or more; received 0"],
    [{ errorVariance: 0 }, "errorVariance must be a number above 0; received 0"],
    [{ degreesOfFreedom: 0 }, "degreesOfFreedom must be a number above 0; received 0"],
  ];
  for (const [wrong, message] of refused)
    expect(() => dunnettOfMeans({ ...good, ...wrong })).toThrow(
      `dunnettOfMeans: ${message}`.replace(/^dunnettOfMeans: (received)/, "$1"),
    );
  for (const control of [-1, 3, 0.5, Number.NaN])
    expect(() => dunnettOfMeans(good, { control })).toThrow(`one of the 3 groups; received position ${control}`);
  expect(() => dunnettOfMeans(good, { level: 0 })).toThrow("level must lie between 0 and 1");
  expect(() => dunnett([[1], [2]])).toThrow("values must differ within a group");
  expect(() => dunnett([[1, 1], [2, 2]])).toThrow("values must differ within a group"); // biome-ignore format: groups
  // one group of one value each way leaves the other's degrees of freedom
  const least = dunnett([[1, 2], [5]]);
  expect([least.degreesOfFreedom, least.control, least.level, least.direction]).toEqual([1, 0, 0.95, "either"]);
});

test("limits on one side are tighter than on both, and both directions mirror one another", () => {
  const input = { means: [5, 6, 8, 5], counts: [4, 6, 3, 5], errorVariance: 2, degreesOfFreedom: 14 };
  const [either, above, below] = (["either", "above", "below"] as const).map((direction) => dunnettOfMeans(input, { direction })); // biome-ignore format: one list
  const mirrored = dunnettOfMeans({ ...input, means: input.means.map((one) => -one) }, { direction: "above" });
  below!.comparisons.forEach((one, i) => {
    const other = mirrored.comparisons[i]!;
    assertClose(one.p, other.p, 1e-12);
    assertClose(one.upper, -other.lower, 1e-9);
    // the same error for all: difference over its own
    assertClose(one.standardError, Math.sqrt(2 * (1 / 4 + 1 / input.counts[i + 1]!)), 1e-14);
    assertClose(one.t, one.difference / one.standardError, 1e-14);
    assertClose(either!.comparisons[i]!.upper - one.difference, either!.criticalT * one.standardError, 1e-12);
    assertClose(one.difference - either!.comparisons[i]!.lower, either!.criticalT * one.standardError, 1e-12);
  });
  expect(above!.criticalT).toBeLessThan(either!.criticalT);
  expect(below!.criticalT).toBe(above!.criticalT);
});

test("adjusted p-values keep order, never exceed 1, and leave what they were given alone", () => {
  const raw = [0.5, 0.001, 0.4, 0.04, 0.04, 0, 1];
  for (const adjust of [holmAdjustment, benjaminiHochbergAdjustment]) {
    const given = [...raw];
    const adjusted = adjust(given);
    expect(given).toEqual(raw);
    expect(adjusted).toHaveLength(7);
    raw.forEach((p, i) => {
      expect(adjusted[i]! >= p && adjusted[i]! <= 1).toBe(true);
      raw.forEach((other, j) => {
        if (p <= other) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[j]!);
      });
    });
    expect(() => adjust([-0.1])).toThrow("p-values must lie from 0 to 1; received -0.1");
  }
  // Holm 1979 and Benjamini and Hochberg 1995, by hand
  expect(holmAdjustment(raw).slice(0, 5)).toEqual([1, 0.006, 1, 0.2, 0.2]);
  benjaminiHochbergAdjustment(raw).forEach((p, i) => {
    assertClose(p, [7 / 12, 0.0035, 0.56, 0.07, 0.07, 0, 1][i]!, 1e-15);
  });
});

test("a mean that is known beside one that hardly is; a mean far below has no chance", () => {
  // normal with 1e6 degrees of freedom: Φ(1/3) = 0.6305586598 of any table
  const [known, vague] = chanceOfBest([5, 4], [0, 3], 1e6);
  assertClose(known!, 0.6305586598, 1e-3);
  assertClose(vague!, 1 - 0.6305586598, 1e-3);
  const [, lost] = chanceOfBest([100, 0], [1, 1], 50);
  expect(lost).toBeLessThan(1e-12);
  expect(chanceOfBest([3], [1], 4)).toEqual([1]);
  expect(() => chanceOfBest([Number.NaN], [1], 4)).toThrow("centres must be finite");
  expect(() => chanceOfBest([1], [Number.NaN], 4)).toThrow("spreads must be finite");
});
