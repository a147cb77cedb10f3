import { describe, expect, test } from "vitest";
import { chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { chiSquareDraw } from "../../../src/statistics/random/chi-square-draw.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { systematicCounts } from "../../../src/statistics/random/systematic-counts.ts";

describe("chi-square draws", () => {
  // critical value of the largest distance at 1 in 1,000: 1.95 / root n (Kolmogorov's limit; from memory)
  test.each([0.5, 1, 3, 11, 95])("%d degrees of freedom: the distribution is the tabled one", (degreesOfFreedom) => {
    const random = seededRandom(11);
    const drawn = Float64Array.from({ length: 20_000 }, () => chiSquareDraw(degreesOfFreedom, random)).sort();
    let distance = 0;
    drawn.forEach((value, i) => {
      const expected = 1 - chiSquareUpperTail(value, degreesOfFreedom);
      distance = Math.max(distance, Math.abs(expected - i / drawn.length), Math.abs(expected - (i + 1) / drawn.length));
    });
    expect(distance).toBeLessThan(1.95 / Math.sqrt(drawn.length));
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("%d degrees of freedom is refused", (degreesOfFreedom) => {
    expect(() => chiSquareDraw(degreesOfFreedom, seededRandom(1))).toThrow(/chiSquareDraw: degreesOfFreedom/);
  });
});

describe("systematic counts", () => {
  test("each part gets its expected number to within one, together all draws", () => {
    const weights = Array.from({ length: 50 }, (_, i) => (i % 7) ** 2);
    const total = weights.reduce((a, b) => a + b, 0);
    for (let seed = 0; seed < 200; seed++) {
      const counts = systematicCounts(weights, 333, seededRandom(seed));
      expect(counts.reduce((a, b) => a + b, 0)).toBe(333);
      counts.forEach((count, i) => {
        expect(Math.abs(count - (333 * weights[i]!) / total)).toBeLessThan(1);
        if (weights[i] === 0) expect(count).toBe(0);
      });
    }
  });

  test("on average exactly the expected number", () => {
    let sum = 0;
    for (let seed = 0; seed < 4000; seed++) sum += systematicCounts([0.3, 0.7], 1, seededRandom(seed))[0]!;
    // 0.3 of 4,000 with a standard error of 29
    expect(Math.abs(sum - 1200)).toBeLessThan(100);
  });

  test("refusals", () => {
    const random = seededRandom(1);
    expect(() => systematicCounts([0, 0], 3, random)).toThrow(/at least one weight/);
    expect(() => systematicCounts([1, -1], 3, random)).toThrow(/0 or more; received -1/);
    expect(() => systematicCounts([1], 0, random)).toThrow(/draws/);
    expect(() => systematicCounts([], 3, random)).toThrow(/weights needs at least 1/);
    expect(() => systematicCounts([Number.NaN], 3, random)).toThrow(/finite/);
  });
});
