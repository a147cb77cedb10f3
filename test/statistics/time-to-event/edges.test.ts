import { describe, expect, test } from "vitest";
import { kaplanMeier, survivalAt } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import { logRankTest } from "../../../src/statistics/time-to-event/log-rank-test.ts";
import { restrictedMean } from "../../../src/statistics/time-to-event/restricted-mean.ts";
import { turnbullCurve } from "../../../src/statistics/time-to-event/turnbull-curve.ts";
import { weibullRegression } from "../../../src/statistics/time-to-event/weibull-regression.ts";
import { weibullTime } from "../../../src/statistics/time-to-event/weibull-time.ts";
import { assertClose } from "../../agreement.ts";

const never = Number.POSITIVE_INFINITY;

describe("Kaplan-Meier", () => {
  test("one observation, an event: the share drops to 0 and has no limits there", () => {
    const curve = kaplanMeier({ times: [4], events: [true] });
    expect(curve.steps[0]!.survival).toBe(0);
    expect(curve.steps[0]!.limits.kind).toBe("none");
    expect(curve.median).toEqual({ estimate: 4, lower: never, upper: never });
  });
  test("all censored: the median is not reached", () => {
    const curve = kaplanMeier({ times: [3, 5], events: [false, false] });
    expect(curve.median.estimate).toBe(never);
    expect(curve.steps.every((step) => step.survival === 1)).toBe(true);
    expect(restrictedMean(curve)).toMatchObject({ estimate: 5, standardError: 0, lower: 5, upper: 5 });
  });
  test("a curve resting on one half: the middle of the flat piece", () => {
    expect(kaplanMeier({ times: [1, 3, 6, 8], events: [true, true, true, true] }).median.estimate).toBe(4.5);
  });
  test("without censoring the restricted mean is the mean, its error the population one over root n", () => {
    const times = [2, 3, 7, 8, 15];
    const mean = restrictedMean(kaplanMeier({ times, events: times.map(() => true) }));
    assertClose(mean.estimate, 7, 1e-12);
    const variance = times.reduce((sum, time) => sum + (time - 7) ** 2, 0) / 5;
    assertClose(mean.standardError, Math.sqrt(variance / 5), 1e-12);
  });
  test("bad calls throw", () => {
    expect(() => kaplanMeier({ times: [], events: [] })).toThrow(/at least 1/);
    expect(() => kaplanMeier({ times: [1, -1], events: [true, true] })).toThrow(/0 or more/);
    expect(() => kaplanMeier({ times: [Number.NaN], events: [true] })).toThrow(/finite/);
    expect(() => kaplanMeier({ times: [1], events: [true, false] })).toThrow(/equally long/);
    const curve = kaplanMeier({ times: [1, 2], events: [true, false] });
    expect(() => survivalAt(curve, 3)).toThrow(/last observation/);
    expect(() => restrictedMean(curve, 0)).toThrow(/above 0/);
  });
});

describe("log-rank", () => {
  const times = [2, 4, 4, 6, 7, 9, 11, 12];
  const events = [true, true, false, true, true, true, false, true];
  const groups = ["a", "b", "a", "b", "a", "b", "a", "b"];
  test("order of rows and names of groups do not matter; a monotone change of time does not", () => {
    const one = logRankTest({ times, events }, groups);
    const other = logRankTest(
      { times: times.map((t) => t ** 2).reverse(), events: [...events].reverse() },
      groups.map((g) => (g === "a" ? "z" : "y")).reverse(),
    );
    assertClose(other.chiSquare, one.chiSquare, 1e-12);
    assertClose(
      one.groups.reduce((sum, g) => sum + g.observed - g.expected, 0),
      0,
      1e-12,
    );
  });
  test("blocks: two copies as blocks give twice the chi-square", () => {
    const one = logRankTest({ times, events }, groups);
    const twice = logRankTest({ times: [...times, ...times], events: [...events, ...events] }, [...groups, ...groups], {
      blocks: [...times.map(() => "1"), ...times.map(() => "2")],
    });
    assertClose(twice.chiSquare, 2 * one.chiSquare, 1e-12);
  });
  test("a third group that leaves before the first event takes no degree of freedom", () => {
    const three = logRankTest({ times: [...times, 1], events: [...events, false] }, [...groups, "c"]);
    expect(three.df).toBe(1);
    assertClose(three.chiSquare, logRankTest({ times, events }, groups).chiSquare, 1e-12);
  });
  test("bad calls throw", () => {
    expect(() => logRankTest({ times: [1, 2], events: [true, true] }, ["a", "a"])).toThrow(/at least 2 different/);
    expect(() => logRankTest({ times: [1, 2], events: [false, false] }, ["a", "b"])).toThrow(/none does/);
  });
});

describe("Weibull regression", () => {
  test("the unit of time moves only the intercept", () => {
    const lower = [3, 5, 8, 9, 12, 20, 21];
    const upper = [3, 6, 8, 10, never, 20, never];
    const values = [1, 2, 3, 1, 2, 3, 3];
    const terms = [{ kind: "number" as const, name: "dose", values }];
    const days = weibullRegression({ lower, upper, terms });
    const hours = weibullRegression({ lower: lower.map((t) => 24 * t), upper: upper.map((t) => 24 * t), terms });
    assertClose(hours.coefficients[0]!.estimate - days.coefficients[0]!.estimate, Math.log(24), 1e-9);
    assertClose(hours.coefficients[1]!.estimate, days.coefficients[1]!.estimate, 1e-9);
    assertClose(hours.scale.estimate, days.scale.estimate, 1e-9);
    const median = weibullTime(days, 0.5, { at: { dose: 2 } });
    expect(median.lower).toBeLessThan(median.estimate);
    assertClose(weibullTime(hours, 0.5, { at: { dose: 2 } }).upper, 24 * median.upper, 1e-6);
    expect(() => weibullTime(days, 0.5, { levels: { strain: "x" } })).toThrow(/factor and level/);
  });
  test("collinear columns are left out and named", () => {
    const fit = weibullRegression({
      lower: [1, 2, 3, 4, 6],
      upper: [1, 2, 3, 4, 6],
      terms: [
        { kind: "number", name: "dose", values: [1, 2, 1, 2, 1] },
        { kind: "number", name: "half the dose", values: [0.5, 1, 0.5, 1, 0.5] },
      ],
    });
    expect(fit.collinear).toEqual([{ column: "half the dose", determinedBy: ["dose"] }]);
  });
  test.each([
    ["all still waiting", { lower: [1, 2], upper: [never, never], terms: [] }, /at least one event/],
    [
      "a group without an event",
      {
        lower: [1, 2, 3, 4, 5, 6],
        upper: [1, 2, 3, never, never, never],
        terms: [{ kind: "factor" as const, name: "strain", values: ["a", "a", "a", "b", "b", "b"] }],
      },
      /"strain: b"/,
    ],
    ["times all alike", { lower: [4, 4, 4], upper: [4, 4, 4], terms: [] }, /maximum/],
    ["one observation", { lower: [4], upper: [4], terms: [] }, /at least as many observations/],
    ["backwards", { lower: [4, 5], upper: [3, 6], terms: [] }, /lower <= upper/],
    ["a time of 0", { lower: [0, 5], upper: [0, 6], terms: [] }, /above 0/],
    ["not a number", { lower: [Number.NaN, 5], upper: [3, 6], terms: [] }, /finite/],
  ])("%s throws", (_, input, message) => {
    expect(() => weibullRegression(input)).toThrow(RangeError);
    expect(() => weibullRegression(input)).toThrow(message);
  });
});

describe("Turnbull's curve", () => {
  test("one interval takes all", () => {
    expect(turnbullCurve({ lower: [2], upper: [5] }).steps).toEqual([{ from: 2, to: 5, share: 1, survival: 0 }]);
  });
  test("looks on a common grid: shares are plain fractions", () => {
    const curve = turnbullCurve({ lower: [0, 1, 1, 2, 3], upper: [1, 2, 2, 3, never] });
    expect(curve.steps.map((step) => step.to)).toEqual([1, 2, 3, never]);
    [0.2, 0.4, 0.2, 0.2].forEach((share, k) => {
      assertClose(curve.steps[k]!.share, share, 1e-9);
    });
    expect(curve.median).toEqual({ from: 1, to: 2 });
  });
  test("all still waiting: one stretch from the last look on", () => {
    expect(turnbullCurve({ lower: [3, 5], upper: [never, never] }).median).toEqual({ from: 5, to: never });
  });
  test("bad calls throw", () => {
    expect(() => turnbullCurve({ lower: [2], upper: [1] })).toThrow(/lower <= upper/);
    expect(() => turnbullCurve({ lower: [], upper: [] })).toThrow(/at least 1/);
  });
});

test("documented examples", () => {
  assertClose(kaplanMeier({ times: [3, 5, 5], events: [true, true, false] }).steps[0]!.survival, 2 / 3, 1e-12);
  assertClose(survivalAt(kaplanMeier({ times: [3, 5], events: [true, true] }), 4), 0.5, 1e-12);
  assertClose(restrictedMean(kaplanMeier({ times: [2, 4], events: [true, true] })).estimate, 3, 1e-12);
  assertClose(turnbullCurve({ lower: [0, 1, 2], upper: [1, 2, never] }).steps[0]!.share, 1 / 3, 1e-10);
  // by hand: (2 - 0.8333)^2 over its variance 0.25 + 0.2222 at times 1 and 2
  const tested = logRankTest({ times: [1, 2, 3, 4], events: [true, true, true, true] }, ["a", "a", "b", "b"]);
  assertClose(tested.chiSquare, (2 - (1 / 2 + 1 / 3)) ** 2 / (1 / 4 + 2 / 9), 1e-12);
  expect(weibullRegression({ lower: [2, 5, 7, 9], upper: [2, 5, 7, never], terms: [] }).shape.estimate).toBeGreaterThan(
    1,
  );
});
