import { expect, test } from "vitest";
import { reportWideDiscovery } from "../../src/statistics/comparisons/report-wide-discovery.ts";

/** Benjamini and Hochberg 1995, section 4.1: 15 comparisons of two treatments of heart attacks (figures from memory). */
const published = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
];

test("the published example keeps the four smallest of fifteen at 5 %", () => {
  const tests = published.map((p, index) => ({ id: `q${index}`, label: "x", p }));
  const result = reportWideDiscovery([...tests].reverse(), 0.05);
  expect(result.tests).toBe(15);
  expect(result.standing.map(({ p }) => p)).toEqual([0.0001, 0.0004, 0.0019, 0.0095]);
  // by hand: 15 × 0.0095 / 4
  expect(result.standing[3]!.adjustedP).toBeCloseTo((15 * 0.0095) / 4, 12);
  expect(result.notStanding).toHaveLength(11);
});

test("nothing to test, one test, and wrong calls", () => {
  expect(reportWideDiscovery([], 0.05)).toEqual({ rate: 0.05, tests: 0, standing: [], notStanding: [] });
  expect(reportWideDiscovery([{ id: "a", label: "x", p: 0.04 }], 0.05).standing).toHaveLength(1);
  expect(() => reportWideDiscovery([], 0)).toThrow(RangeError);
  expect(() => reportWideDiscovery([{ id: "a", label: "x", p: 1.5 }], 0.05)).toThrow(RangeError);
});
