import { expect, test } from "vitest";
import { weibullLaw } from "../../../src/statistics/time-to-event/weibull-law.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import intervals from "../../reference/interval-censored-weibull.json" with { type: "json" };
import aml from "../../reference/survival-aml.json" with { type: "json" };
import { treated } from "./remission-weeks.ts";

const never = Number.POSITIVE_INFINITY;
const { time, status } = aml.data;
const seen = { lower: time, upper: time.map((one, i) => (status[i] === 1 ? one : never)) };

function agree(
  dataset: string,
  source: string,
  sample: Parameters<typeof weibullLaw>[0],
  shape: number,
  scale: number,
) {
  const ours = weibullLaw(sample);
  expectAgreement({ method: "Weibull law", dataset, statistic: "shape, scale", source }, [[ours.shape, shape], [ours.scale, scale]], 10); // biome-ignore format: pairs
}

test("exact and right-censored: leukaemia maintenance, Miller 1997", () => {
  const { intercept, scale } = aml.expected.weibullInterceptOnly;
  const source = `${aml.originallyPublished}; reference values ${aml.madeWith}`;
  agree("leukaemia maintenance (Miller)", source, seen, 1 / scale, Math.exp(intercept));
});

test("interval-censored: months to breast retraction between visits, and daily looks", () => {
  const { data, expected, source } = intervals;
  const upper = data.upper.map(Number);
  for (const group of ["all", "radiotherapy", "with chemotherapy"] as const) {
    const rows = data.group.map((_, i) => i).filter((i) => group === "all" || data.group[i] === group);
    const sample = { lower: rows.map((i) => data.lower[i]!), upper: rows.map((i) => upper[i]!) };
    const { shape, scale } = expected[group];
    agree(
      `breast retraction, ${group}`,
      `${source.split(",")[0]}; values by 40-digit arithmetic`,
      sample,
      shape,
      scale,
    );
  }
  const daily = { lower: time.map((one, i) => one - status[i]!), upper: seen.upper };
  const { shape, scale } = expected.amlLookedAtDaily;
  agree("leukaemia, looked at once a unit", "times of Miller 1997; values by 40-digit arithmetic", daily, shape, scale);
});

test("its two score equations hold (Kalbfleisch and Prentice 2002, section 3.3, from memory; by algebra)", () => {
  const lower = treated.times;
  const { shape, scale } = weibullLaw({ lower, upper: lower.map((one, i) => (treated.events[i] ? one : never)) });
  const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);
  const powers = lower.map((one) => one ** shape);
  const events = lower.filter((_, i) => treated.events[i]);
  assertClose(scale ** shape, sum(powers) / events.length, 1e-6);
  const weighted = sum(lower.map((one, i) => powers[i]! * Math.log(one))) / sum(powers);
  assertClose(1 / shape + sum(events.map(Math.log)) / events.length, weighted, 1e-9);
});

test("the unit of time changes the scale alone; ever narrower intervals tend to the fit of exact times", () => {
  const days = weibullLaw(seen);
  for (const unit of [1 / 365, 24, 86_400]) {
    const other = weibullLaw({ lower: seen.lower.map((t) => unit * t), upper: seen.upper.map((t) => unit * t) });
    assertClose(other.shape, days.shape, 1e-9);
    assertClose(other.scale / unit / days.scale, 1, 1e-9);
  }
  const narrow = weibullLaw({
    lower: time.map((one, i) => one * (1 - 1e-7 * status[i]!)),
    upper: seen.upper.map((one) => one * (1 + 1e-7)),
  });
  assertClose(narrow.shape, days.shape, 1e-7);
  assertClose(narrow.scale, days.scale, 1e-6);
  // times that hardly differ, far from 0
  const late = weibullLaw({ lower: [3650, 3651, 3652, 3654], upper: [3650, 3651, 3652, 3654] });
  expect(late.shape).toBeGreaterThan(1000);
  expect(Math.abs(late.scale - 3653)).toBeLessThan(1);
});

test.each([
  ["all still waiting", [1, 2], [never, never], /at least one event/],
  ["times all alike", [4, 4, 4], [4, 4, 4], /maximum/],
  ["one observation", [4], [4], /at least 2/],
  ["backwards", [4, 5], [3, 6], /lower <= upper/],
  ["a time of 0", [0, 5], [0, 6], /above 0/],
  ["not a number", [Number.NaN, 5], [3, 6], /finite/],
] as const)("%s throws", (_, lower, upper, message) => {
  expect(() => weibullLaw({ lower, upper })).toThrow(RangeError);
  expect(() => weibullLaw({ lower, upper })).toThrow(message);
});
