import { expect, test } from "vitest";
import { individualsChart, meanRangeOfTwo } from "../../../src/statistics/control/individuals-chart.ts";
import { weightedAverageChart } from "../../../src/statistics/control/weighted-average-chart.ts";
import { assertClose } from "../../agreement.ts";

const handbook = "NIST/SEMATECH e-Handbook, section 6.3 (from memory)";

test(`individuals and moving range, ${handbook}`, () => {
  const chart = individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
  assertClose(chart.centre, 50.81, 1e-12);
  assertClose(chart.meanMovingRange, 1.8778, 0.00005);
  assertClose(chart.upper, 55.8041, 0.00005);
  assertClose(chart.lower, 45.8159, 0.00005);
  assertClose(chart.movingRangeUpper, 6.135, 0.0005);
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
  const points = weightedAverageChart(flow, settings);
  points.forEach((point, index) => {
    assertClose(point.average, printed[index]!, 0.0051);
    expect(point.outside).toBe(false);
  });
  // the printed limits are those of a long run, which twenty values have reached
  assertClose(points.at(-1)!.upper, 52.5884, 0.0001);
  assertClose(points.at(-1)!.lower, 47.4115, 0.0001);
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

test("constants of two values: printed to three decimals, the integrals of their range (algebra)", () => {
  // the range of two normal values is a half-normal one: mean 2 / √π, variance 2 - 4 / π
  const mean = 2 / Math.sqrt(Math.PI);
  assertClose(meanRangeOfTwo, mean, 0.0005);
  const { meanMovingRange, movingRangeUpper } = individualsChart([10, 12, 11]);
  assertClose(movingRangeUpper / meanMovingRange, 1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / mean, 0.0005);
});

test("values that are all alike have limits of no width", () => {
  expect(individualsChart([5, 5, 5])).toMatchObject({ lower: 5, upper: 5 });
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
  expect(() => weightedAverageChart([], settings)).toThrow("needs at least 1 values");
  expect(() => weightedAverageChart([1], { ...settings, weight: 0 })).toThrow(
    "weight must be above 0 and at most 1; received 0",
  );
  expect(() => weightedAverageChart([1], { ...settings, weight: 1.1 })).toThrow("received 1.1");
  expect(() => weightedAverageChart([1], { ...settings, standardDeviation: -1 })).toThrow("standardDeviation");
  expect(() => weightedAverageChart([Number.NaN], settings)).toThrow("value 1 is NaN");
});
