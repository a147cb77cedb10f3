import { describe, expect, test } from "vitest";
import { kaplanMeier } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import { weibullRegression } from "../../../src/statistics/time-to-event/weibull-regression.ts";
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
  });
  test("a curve resting on one half: the middle of the flat piece", () => {
    expect(kaplanMeier({ times: [1, 3, 6, 8], events: [true, true, true, true] }).median.estimate).toBe(4.5);
  });
  test("bad calls throw", () => {
    expect(() => kaplanMeier({ times: [], events: [] })).toThrow(/at least 1/);
    expect(() => kaplanMeier({ times: [1, -1], events: [true, true] })).toThrow(/0 or more/);
    expect(() => kaplanMeier({ times: [Number.NaN], events: [true] })).toThrow(/finite/);
    expect(() => kaplanMeier({ times: [1], events: [true, false] })).toThrow(/equally long/);
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

test("documented examples", () => {
  assertClose(kaplanMeier({ times: [3, 5, 5], events: [true, true, false] }).steps[0]!.survival, 2 / 3, 1e-12);
  expect(weibullRegression({ lower: [2, 5, 7, 9], upper: [2, 5, 7, never], terms: [] }).shape.estimate).toBeGreaterThan(
    1,
  );
});
