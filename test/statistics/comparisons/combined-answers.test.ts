import { describe, expect, test } from "vitest";
import { cauchyCombination } from "../../../src/statistics/comparisons/cauchy-combination.ts";
import { chanceOfBest } from "../../../src/statistics/comparisons/chance-of-best.ts";
import {
  benjaminiHochbergAdjustment,
  holmAdjustment,
} from "../../../src/statistics/comparisons/p-value-adjustments.ts";
import { studentTCdf } from "../../../src/statistics/distributions/student-t.ts";
import { assertClose } from "../../agreement.ts";

describe("Cauchy combination, Liu and Xie 2020", () => {
  test("weights .7 and .3 on .01 and .20; a single p; equal p", () => {
    expect(cauchyCombination([0.01, 0.2], [0.7, 0.3])).toBeCloseTo(0.01402125, 8);
    expect(cauchyCombination([0.037])).toBeCloseTo(0.037, 12);
    expect(cauchyCombination([0.2, 0.2, 0.2])).toBeCloseTo(0.2, 12);
    expect(cauchyCombination([0.9, 0.9])).toBeCloseTo(0.9, 12);
    expect(cauchyCombination([0.5, 0.5])).toBe(0.5);
  });

  test("tiny p keep their digits, 0 gives 0, a weight of 0 counts for nothing", () => {
    expect(cauchyCombination([1e-18, 0.2], [0.7, 0.3])).toBeCloseTo(1e-18 / 0.7, 24);
    expect(cauchyCombination([0, 0.9])).toBe(0);
    expect(cauchyCombination([0, 0.3], [0, 1])).toBeCloseTo(0.3, 12);
  });

  test("wrong calls", () => {
    expect(() => cauchyCombination([])).toThrow(/at least one/);
    expect(() => cauchyCombination([0.1, 1.2])).toThrow(/0 to 1/);
    expect(() => cauchyCombination([0.1, 0.2], [1])).toThrow(/equally long/);
    expect(() => cauchyCombination([0.1, 0.2], [0.9, 0.3])).toThrow(/sum 1/);
    expect(() => cauchyCombination([0.1, 0.2], [1.5, -0.5])).toThrow(/sum 1/);
    expect(() => cauchyCombination([Number.NaN])).toThrow(/finite/);
  });
});

describe("chance of being the highest", () => {
  test("two means: the t distribution of their difference", () => {
    for (const df of [1, 2, 3, 5, 10, 100]) {
      const [first, second] = chanceOfBest([1.3, 0], [1, 0.7], df);
      expect(first).toBeCloseTo(studentTCdf(1.3 / Math.hypot(1, 0.7), df), df < 2 ? 3 : 5);
      expect(first! + second!).toBeCloseTo(1, 12);
    }
  });

  test("equal means share it, order does not matter, unit does not matter", () => {
    for (const chance of chanceOfBest(Array(12).fill(3), Array(12).fill(2), 3)) expect(chance).toBeCloseTo(1 / 12, 12);
    const [a, b, c] = chanceOfBest([1, 2, 4], [1, 2, 1], 6);
    const turned = chanceOfBest([4, 1, 2], [1, 1, 2], 6);
    expect(turned[0]).toBeCloseTo(c!, 10);
    expect(turned[1]).toBeCloseTo(a!, 10);
    expect(chanceOfBest([1000, 2000, 4000], [1000, 2000, 1000], 6)[1]).toBeCloseTo(b!, 10);
  });

  test("nothing unknown: the highest, ties shared", () => {
    expect(chanceOfBest([5, 0], [0, 0], 3)).toEqual([1, 0]);
    expect(chanceOfBest([5, 5, 1], [0, 0, 0], 3)).toEqual([0.5, 0.5, 0]);
    expect(chanceOfBest([0, 0], [1, 1], 5)[0]).toBeCloseTo(0.5, 12);
  });

  test("wrong calls", () => {
    expect(() => chanceOfBest([], [], 3)).toThrow(/at least one/);
    expect(() => chanceOfBest([1, 2], [1, -1], 3)).toThrow(/below 0/);
    expect(() => chanceOfBest([1, 2], [1], 3)).toThrow(/equally long/);
    expect(() => chanceOfBest([1, 2], [1, 1], 0)).toThrow(RangeError);
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
    expect(() => adjust([Number.NaN])).toThrow(RangeError);
    expect(adjust([])).toEqual([]);
  }
  // Holm 1979 and Benjamini and Hochberg 1995, by hand
  expect(holmAdjustment(raw).slice(0, 5)).toEqual([1, 0.006, 1, 0.2, 0.2]);
  benjaminiHochbergAdjustment(raw).forEach((p, i) => {
    assertClose(p, [7 / 12, 0.0035, 0.56, 0.07, 0.07, 0, 1][i]!, 1e-15);
  });
});
