import { describe, expect, test } from "vitest";
import { type ComparedTray, decideComparison, decideStartedTrays } from "../../src/decisions/verdict/index.ts";
import { startedDifference } from "../../src/decisions/verdict/started-trays/started-difference.ts";
import { scoreLimits } from "../../src/statistics/counts/proportion-interval.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

const counts = (...cooks: [number, number, number, number][]) =>
  cooks.map(([lowGood, low, highGood, high]) => ({
    low: { good: lowGood, started: low },
    high: { good: highGood, started: high },
  }));

describe("difference per started tray", () => {
  test("Wilson 1927, JASA 22:209: 81 of 263 is .2553 to .3662 (printed in Newcombe 1998, Stat Med 17:857-872)", () => {
    const { lower, upper } = scoreLimits(81, 263, 0.95);
    expect(lower).toBeCloseTo(0.2553, 4);
    expect(upper).toBeCloseTo(0.3662, 4);
  });

  test("good trays known exactly and alike: Newcombe 1998, Stat Med 17:873, 56/70 less 48/80 is .0524 to .3339", () => {
    const found = startedDifference({
      counts: counts([48, 80, 56, 70]),
      means: { low: 10, high: 10 },
      good: { standardError: 0, degreesOfFreedom: 10 },
      estimate: 0,
    });
    expect(found.estimate).toBeCloseTo(10 * (56 / 70 - 48 / 80), 12);
    expect(found.boundsAt(0.05).lower / 10).toBeCloseTo(0.0524, 4);
    expect(found.boundsAt(0.05).upper / 10).toBeCloseTo(0.3339, 4);
    expect(found.boundsAt(found.p).lower).toBeCloseTo(0, 6);
  });

  test("the two parts add up exactly: share times mean of either level, one less the other", () => {
    const found = startedDifference({
      counts: counts([9, 10, 6, 10]),
      means: { low: 30, high: 36 },
      good: { standardError: 2, degreesOfFreedom: 6 },
      estimate: 6,
    });
    expect(found.estimate).toBeCloseTo(0.6 * 36 - 0.9 * 30, 12);
  });

  test("losses that come cook by cook widen it; two cooks cannot show that", () => {
    const even = counts([4, 5, 4, 5], [4, 5, 4, 5], [4, 5, 4, 5]);
    const clustered = counts([5, 5, 2, 5], [2, 5, 5, 5], [5, 5, 5, 5]);
    const interval = (cooks: ReturnType<typeof counts>) =>
      startedDifference({
        counts: cooks,
        means: { low: 30, high: 30 },
        good: { standardError: 1, degreesOfFreedom: 6 },
        estimate: 0,
      }).boundsAt(0.05);
    const width = (cooks: ReturnType<typeof counts>): number => interval(cooks).upper - interval(cooks).lower;
    const uneven = counts([5, 5, 2, 5], [2, 4, 6, 6], [5, 6, 5, 5]);
    const turned = uneven.map(({ low, high }) => ({ low: high, high: low }));
    expect(interval(turned).lower).toBeCloseTo(-interval(uneven).upper, 10);
    expect(width(clustered)).toBeGreaterThan(1.2 * width(even));
    expect(width(clustered.slice(0, 2))).toBeLessThan(width(clustered) * 1.2);
  });
});

const random = seededRandom(21);
const book = (cooks: number, each: number, lostAt: (level: number, i: number) => boolean, gain = 0): ComparedTray[] =>
  Array.from({ length: cooks }, (_, cook) =>
    [3, 9].flatMap((level) =>
      Array.from(
        { length: each },
        (_tray, i): ComparedTray => ({
          level,
          cook: `C${cook}`,
          day: cook * 14,
          row: cook * 100 + level * 10 + i,
          value: lostAt(level, i) ? "lost" : 30 + cook + (level === 9 ? gain : 0) + random.normal(),
        }),
      ),
    ),
  ).flat();

describe("decisions on started trays", () => {
  test("more per good tray, less per started one: the losses decide", () => {
    const trays = book(6, 6, (level, i) => level === 9 && i < 3, 3);
    expect(decideComparison(trays).difference!.estimate).toBeGreaterThan(2);
    const started = decideStartedTrays(trays);
    expect(started.difference!.estimate).toBeLessThan(-10);
    expect(started.verdict).toBe("settled");
    expect(started.caps).toEqual([]);
    expect(started.losses!.p).toBeLessThan(0.005);
  });

  test("nothing lost: the difference of good trays, with room for losses not seen", () => {
    const trays = book(5, 3, () => false, 5);
    const [good, started] = [decideComparison(trays), decideStartedTrays(trays)];
    expect(started.difference!.estimate).toBeCloseTo(good.difference!.estimate, 10);
    expect(started.difference!.interval!.lower).toBeLessThan(good.difference!.interval!.lower);
  });

  test("no good tray of one dose: losses alone, and never more than a tray can give", () => {
    const trays = book(4, 3, (level) => level === 9);
    expect(decideComparison(trays).verdict).toBe("cannot-tell");
    const started = decideStartedTrays(trays);
    const largest = Math.max(...trays.map(({ value }) => (value === "lost" ? 0 : value)));
    expect(started.difference!.estimate).toBeLessThan(-25);
    expect(started.verdict).toBe("settled");
    expect(started.difference!.interval!.lower).toBeGreaterThanOrEqual(-1.25 * largest);
  });

  test("no good tray of one dose: the other's mean is known no better than its cooks tell", () => {
    const book = [30, 34, 29, 35].flatMap((mean, cook) =>
      [mean - 1, mean + 1, "lost" as const, "lost" as const].map((value, i): ComparedTray => {
        return { level: i < 2 ? 3 : 9, cook: `C${cook}`, row: 4 * cook + i, value };
      }),
    );
    const { difference } = decideStartedTrays(book);
    // all good against none: no share can lie further out, so this end is the mean's own; t of 3 degrees of freedom at .975
    // 3.182446 (Fisher and Yates' table)
    const sd = Math.sqrt((4 + 4 + 9 + 9) / 3);
    expect(difference!.estimate).toBeCloseTo(-32, 10);
    expect(difference!.interval!.lower).toBeCloseTo(-32 - (3.182446 * sd) / 2, 5);
  });

  test("one cook leans at most; whole cooks are compared with lost trays as 0", () => {
    expect(decideStartedTrays(book(1, 6, (level, i) => level === 9 && i < 5)).verdict).toBe("leaning");
    const order = [9, 3, 3, 9, 3, 9, 9, 3];
    const whole = order.flatMap((level, cook) =>
      Array.from(
        { length: 6 },
        (_, i): ComparedTray => ({
          level,
          cook: `C${cook}`,
          day: cook * 14,
          row: cook * 10 + i,
          value: level === 9 && i < 3 ? "lost" : 30 + random.normal(),
        }),
      ),
    );
    const started = decideStartedTrays(whole);
    expect(started.method).toBe("whole-cooks");
    expect(started.difference!.estimate).toBeLessThan(-12);
    expect(started.verdict).toBe("settled");
  });
});
