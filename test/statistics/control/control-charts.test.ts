import { expect, test } from "vitest";
import { controlConstants } from "../../../src/statistics/control/control-constants.ts";
import { individualsChart } from "../../../src/statistics/control/individuals-chart.ts";
import { weightedAverageChart } from "../../../src/statistics/control/weighted-average-chart.ts";
import { normalRange } from "../../../src/statistics/distributions/normal-range.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

const handbook = "NIST/SEMATECH e-Handbook, section 6.3 (from memory)";

test(`individuals and moving range, ${handbook}`, () => {
  const chart = individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
  assertClose(chart.centre, 50.81, 1e-12);
  assertClose(chart.meanMovingRange, 1.8778, 0.00005);
  assertClose(chart.upper, 55.8041, 0.00005);
  assertClose(chart.lower, 45.8159, 0.00005);
  assertClose(chart.movingRangeUpper, 6.135, 0.0005);
  expect(chart.outside).toEqual([]);
  expect(chart.movingRangesOutside).toEqual([]);
});

const flow = [
  52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
];
const settings = { weight: 0.3, target: 50, standardDeviation: 2.0539 };

test(`exponentially weighted moving average, ${handbook}`, () => {
  const printed = [
    50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
    50.73, 51.23, 51.94, 51.99,
  ];
  const points = weightedAverageChart(flow, { ...settings, limits: "asymptotic" });
  points.forEach((point, index) => {
    assertClose(point.average, printed[index]!, 0.0051);
    assertClose(point.upper, 52.5884, 0.0001);
    assertClose(point.lower, 47.4115, 0.0001);
    expect(point.outside).toBe(false);
  });
});

test("limits from the first value on: the variance of a weighted average of k values, summed term by term", () => {
  const points = weightedAverageChart(flow, settings);
  points.forEach((point, index) => {
    let variance = 0;
    for (let age = 0; age <= index; age++) variance += (0.3 * 0.7 ** age) ** 2;
    assertClose(point.upper - 50, 3 * 2.0539 * Math.sqrt(variance), 1e-12);
    assertClose(point.upper + point.lower, 100, 1e-12);
  });
});

test(`constants of the charts: printed table, ${handbook}; each again by integrating the normal range`, () => {
  const printed = {
    2: [1.128, 0, 3.267, 1.88],
    3: [1.693, 0, 2.574, 1.023],
    4: [2.059, 0, 2.282, 0.729],
    5: [2.326, 0, 2.114, 0.577],
  };
  for (const [n, [d2, D3, D4, A2]] of Object.entries(printed)) {
    expect(controlConstants(Number(n))).toMatchObject({ d2, D3, D4, A2 });
  }
  const pairs: [number, number][] = [];
  for (let n = 2; n <= 10; n++) {
    const { upper } = normalRange(n);
    let first = 0;
    let second = 0;
    // Simpson's rule; the integrand is 0 beyond 12
    for (let index = 0; index <= 1200; index++) {
      const factor = ((index === 0 || index === 1200 ? 1 : index % 2 === 1 ? 4 : 2) * 0.01) / 3;
      const tail = upper(index * 0.01);
      first += factor * tail;
      second += factor * 2 * index * 0.01 * tail;
    }
    const spread = Math.sqrt(second - first * first);
    const ours = controlConstants(n);
    pairs.push(
      [ours.d2, first],
      [ours.d3, spread],
      [ours.D3, Math.max(0, 1 - (3 * spread) / first)],
      [ours.D4, 1 + (3 * spread) / first],
      [ours.A2, 3 / (first * Math.sqrt(n))],
    );
  }
  expectAgreement(
    {
      method: "control-chart constants",
      dataset: "n = 2 to 10",
      statistic: "all five",
      source: "integrals of the normal range",
    },
    pairs,
    3,
    0.00101,
  );
});

test("a baseline keeps a later change out of the limits", () => {
  expect(individualsChart([5, 5, 5])).toMatchObject({ lower: 5, upper: 5, outside: [] });
});

test("a weight of 1 is the chart of single values; a value on a limit is within it", () => {
  const points = weightedAverageChart([3, 3.001, -3, -3.001], { weight: 1, target: 0, standardDeviation: 1 });
  expect(points.map(({ average, outside }) => [average, outside])).toEqual([
    [3, false],
    [3.001, true],
    [-3, false],
    [-3.001, true],
  ]);
  expect(points[1]).toMatchObject({ lower: -3, upper: 3 });
});

test("wrong calls", () => {
  expect(() => individualsChart([1])).toThrow("needs at least 2 values; received 1");
  expect(() => individualsChart([1, 2, 3], 1)).toThrow("baseline must be a whole number from 2 to 3; received 1");
  expect(() => weightedAverageChart([], settings)).toThrow("needs at least 1 values");
  expect(() => weightedAverageChart([1], { ...settings, weight: 0 })).toThrow(
    "weight must be above 0 and at most 1; received 0",
  );
  expect(() => weightedAverageChart([1], { ...settings, weight: 1.1 })).toThrow("received 1.1");
  expect(() => weightedAverageChart([1], { ...settings, standardDeviation: -1 })).toThrow("standardDeviation");
  expect(() => weightedAverageChart([Number.NaN], settings)).toThrow("value 1 is NaN");
  expect(() => controlConstants(11)).toThrow("n must be 10 or less; received 11");
  expect(() => controlConstants(1)).toThrow("n must be a whole number of 2 or more; received 1");
});
