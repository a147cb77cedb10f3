import { describe, expect, test } from "vitest";
import { shareOverClusters, supposedTogether } from "../../../src/statistics/counts/share-over-clusters.ts";
import { chiSquareDraw } from "../../../src/statistics/random/chi-square-draw.ts";
import { type SeededRandom, seededRandom } from "../../../src/statistics/random/seeded-random.ts";

const ones = (count: number, of: number) =>
  shareOverClusters(
    Array.from({ length: of }, (_, i) => Number(i < count)),
    Array(of).fill(1),
  );

describe("a share over clusters", () => {
  // Brown, Cai and DasGupta 2001, Statistical Science 16(2):101-133, table of Jeffreys' limits for n = 10 (from memory)
  test.each([
    [0, 10, 0, 0.217],
    [1, 10, 0.011, 0.381],
    [5, 10, 0.224, 0.776],
  ])("%i of %i clusters of one unit: Jeffreys' limits, and nothing is told of clumps", (count, of, low, high) => {
    const { limits, together } = ones(count, of);
    expect(limits(0.95).lower).toBeCloseTo(low, 3);
    expect(limits(0.95).upper).toBeCloseTo(high, 3);
    expect(together).toBeCloseTo(supposedTogether, 9);
  });

  test("the others are the mirror image; units of clumps tell less; more units tell more", () => {
    const [successes, units] = [
      [6, 0, 0, 1, 0, 0],
      [6, 6, 6, 6, 6, 6],
    ];
    const clumped = shareOverClusters(successes!, units!);
    const others = shareOverClusters(
      successes!.map((count) => 6 - count),
      units!,
    );
    expect(others.limits(0.9).lower).toBeCloseTo(1 - clumped.limits(0.9).upper, 9);
    const even = shareOverClusters([1, 1, 1, 1, 1, 2], units!);
    const width = (one: typeof even) => one.limits(0.95).upper - one.limits(0.95).lower;
    expect(width(clumped)).toBeGreaterThan(1.3 * width(even));
    expect(clumped.together).toBeGreaterThan(0.95);
    expect(even.together).toBeLessThan(supposedTogether);
    // 1 in 6 of 60,000 trays: as narrow as trays one by one but for what cooks differ, and nothing overflows
    const many = shareOverClusters(
      Array.from({ length: 10_000 }, (_, i) => (i % 2 === 0 ? 2 : 0)),
      Array(10_000).fill(6),
    ).limits(0.95);
    expect(Math.abs(many.lower - 1 / 6)).toBeLessThan(0.01);
    expect(Math.abs(many.upper - 1 / 6)).toBeLessThan(0.01);
    const pool = shareOverClusters([5000], [100_000]).limits(0.95);
    expect(pool.lower).toBeLessThan(0.05);
    expect(pool.upper).toBeGreaterThan(0.05);
  });

  test("draws lie as the limits say", () => {
    const random = seededRandom(4);
    const known = shareOverClusters([4, 0, 1, 0], [6, 6, 6, 6]);
    const { lower, upper } = known.limits(0.8);
    const drawn = Array.from({ length: 4000 }, () => known.draw(random));
    const below = drawn.filter(({ share }) => share < lower).length / drawn.length;
    const above = drawn.filter(({ share }) => share > upper).length / drawn.length;
    // three standard errors of a tenth of 4000
    expect(Math.abs(below - 0.1)).toBeLessThan(0.0143);
    expect(Math.abs(above - 0.1)).toBeLessThan(0.0143);
    const apart = drawn.filter(({ likeness }) => likeness === 0).length / drawn.length;
    expect(Math.abs(apart - (1 - known.together))).toBeLessThan(0.0237);
  });

  test("six cooks whose losses come in clumps: the limits hold the share in more than 9 of 10 books", () => {
    const random = seededRandom(6);
    const beta = (a: number, b: number, from: SeededRandom): number => {
      const [x, y] = [chiSquareDraw(2 * a, from), chiSquareDraw(2 * b, from)];
      return x / (x + y);
    };
    const books = 300;
    let held = 0;
    for (let book = 0; book < books; book++) {
      // correlation .3 of two trays of a cook: shapes that add up to 1 / .3 - 1
      const successes = Array.from({ length: 6 }, () => {
        const own = beta(0.15 * (7 / 3), 0.85 * (7 / 3), random);
        return [1, 2, 3, 4, 5, 6].filter(() => random.uniform() < own).length;
      });
      const { lower, upper } = shareOverClusters(successes, Array(6).fill(6)).limits(0.95);
      if (lower <= 0.15 && 0.15 <= upper) held++;
    }
    // 92 of 100 of 1,500 books; an effective number of trays by Rao and Scott held it in 85 of 100
    expect(held / books).toBeGreaterThan(0.92 - 2 * Math.sqrt((0.92 * 0.08) / books));
  });

  test("none, all, and what cannot be", () => {
    expect(shareOverClusters([0, 0], [5, 5]).limits(0.95).lower).toBe(0);
    expect(shareOverClusters([5, 5], [5, 5]).limits(0.95).upper).toBe(1);
    expect(() => shareOverClusters([3, 1], [2, 4])).toThrow("successes must not exceed trials; received 3 of 2");
    expect(() => shareOverClusters([0, 1], [0, 4])).toThrow("trials must be a whole number of 1 or more");
    expect(() => shareOverClusters([0, 1], [4])).toThrow("equally long");
    expect(() => shareOverClusters([], [])).toThrow("needs a cluster; received none");
    expect(() => shareOverClusters([0, 1], [4, 4]).limits(0)).toThrow("level must lie between 0 and 1");
  });
});
