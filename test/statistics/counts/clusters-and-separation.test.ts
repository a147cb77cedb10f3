import { expect, test } from "vitest";
import { clusteredErrors } from "../../../src/statistics/counts/clustered-errors.ts";
import { logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { stratifiedAssociation, stratifiedTrend } from "../../../src/statistics/counts/stratified-association.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

type Point = readonly [x: number, y: number, lost: number];

/** Every line through two of the points, either way round, that has no lost point behind it and no good one before it. */
function separatingLines(points: ReadonlyArray<Point>): [number, number, number][] {
  return points.flatMap(([x1, y1], i) =>
    points.slice(i + 1).flatMap(([x2, y2]): [number, number, number][] => {
      const [a, b] = [y2 - y1, x1 - x2];
      if (a === 0 && b === 0) return [];
      return [1, -1].flatMap((side): [number, number, number][] => {
        const line: [number, number, number] = [side * -(a * x1 + b * y1), side * a, side * b];
        const forwards = points.map((point) => reach(line, point));
        return forwards.every((one) => one >= 0) && forwards.some((one) => one > 0) ? [line] : [];
      });
    }),
  );
}
const reach = ([c, a, b]: [number, number, number], [x, y, lost]: Point): number =>
  (lost === 1 ? 1 : -1) * (c + a * x + b * y);

// Albert and Anderson 1984, Biometrika 71(1):1-10: a cone of directions is spanned by its edges, and each edge is a line
// through two of the points
test("separation by two doses is what all lines through two points say", () => {
  const random = seededRandom(3);
  const seen = { none: 0, some: 0 };
  for (let made = 0; made < 250; made++) {
    const points = Array.from({ length: 4 + random.integer(5) }, () => {
      const [x, y] = [random.integer(4), random.integer(4)];
      return [x, y, random.integer(3) === 0 ? random.integer(2) : Number(x + y > 3)] as const;
    });
    const span = points.some(([x1, y1], i) =>
      points.some(([x2, y2], j) =>
        points.slice(j).some(([x3, y3]) => i < j && (x2 - x1) * (y3 - y1) !== (x3 - x1) * (y2 - y1)),
      ),
    );
    if (!span) continue;
    const kind = separatingLines(points).length === 0 ? "none" : "some";
    seen[kind]++;
    const { separated } = logisticRegression({
      successes: points.map(([, , lost]) => lost),
      columns: [
        { name: "bran", values: points.map(([x]) => x) },
        { name: "gypsum", values: points.map(([, y]) => y) },
      ],
      profiles: false,
    });
    expect(separated, JSON.stringify(points)).toBe(kind === "some");
  }
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(20);
});

test("a fit of the mean alone; one without profiles", () => {
  const mean = logisticRegression({ successes: [1, 4], trials: [10, 10], columns: [], level: 0.9 });
  assertClose(mean.coefficients[0]!.estimate, Math.log(5 / 15), 1e-12);
  assertClose(Math.sqrt(mean.covariance[0]![0]!), Math.sqrt(1 / 5 + 1 / 15), 1e-10);
  expect([mean.level, mean.separated]).toEqual([0.9, false]);
  const columns = [{ name: "dose", values: [1, 2, 3] }];
  const counts = { successes: [2, 3, 6], trials: [10, 9, 10], columns };
  const quick = logisticRegression({ ...counts, profiles: false });
  const whole = logisticRegression({ ...counts, profiles: true });
  for (const [at, one] of quick.coefficients.entries()) {
    // 1.959964: the normal's 0.975 quantile of any textbook
    assertClose(one.upper - one.estimate, 1.959963984540054 * Math.sqrt(quick.covariance[at]![at]!), 1e-12);
    expect(whole.coefficients[at]!.estimate).toBe(one.estimate);
    expect(whole.coefficients[at]!.lower).not.toBe(one.lower);
  }
});

test("errors by cluster of the mean alone: the textbook's sandwich", () => {
  const [successes, trials, clusters] = [[1, 3, 2, 5], [6, 6, 6, 6], ["a", "a", "b", "c"]] as const; // biome-ignore format: columns
  const fit = logisticRegression({ successes, trials, columns: [] });
  const [found] = clusteredErrors(fit, clusters);
  const share = 11 / 24;
  // score of a cluster: its losses less those expected; information 24 p (1 - p); factor 3 / 2
  const meat = (4 - 12 * share) ** 2 + (2 - 6 * share) ** 2 + (5 - 6 * share) ** 2;
  const variance = (1.5 * meat) / (24 * share * (1 - share)) ** 2;
  // Student's t of 2 degrees of freedom at 0.975: 4.30265273 of any textbook's table
  assertClose(found!.upper - found!.estimate, 4.30265273 * Math.sqrt(variance), 1e-8);
  expect(() => clusteredErrors(fit, ["a", "b", "c"])).toThrow("equally long");
  expect(() => clusteredErrors(fit, ["a", "a", "a", "a"])).toThrow("more clusters than coefficients (1); received 1");
});

test("scores that are alike tell nothing, whatever their size; counts that cannot be are refused", () => {
  for (const score of [0.1, 1 / 3, 1e6 / 7, 1e-9 / 3, 0])
    for (const trials of [[3, 5, 7], [11, 2, 6]]) // biome-ignore format: pairs
      expect(
        stratifiedTrend([{ events: [1, 2, 3 - (trials[1] === 2 ? 1 : 0)], trials, scores: [score, score, score] }]),
      ).toBeUndefined();
  // but however near one another, different scores do
  expect(stratifiedTrend([{ events: [0, 3], trials: [4, 4], scores: [1e6, 1e6 + 1] }])!.z).toBeGreaterThan(1);
  expect(() => stratifiedTrend([{ events: [1], trials: [2], scores: [Number.NaN] }])).toThrow(
    "stratifiedTrend: scores must be finite",
  );
  expect(() => stratifiedTrend([{ events: [1, 1], trials: [2], scores: [1] }])).toThrow(
    "events and trials must be equally long",
  );
  expect(() => stratifiedAssociation([{ events: [1.5, 1], trials: [2, 2] }])).toThrow(
    "whole number of 0 or more; received 1.5",
  );
  expect(() => stratifiedAssociation([{ events: [1, 1], trials: [2, 2] }, { events: [1], trials: [2] }])).toThrow("trials and levels must be equally long"); // biome-ignore format: two strata
  // strata that never compare the first two levels with the last two say nothing of all four together
  const apart = [
    { events: [1, 3, 0, 0], trials: [5, 5, 0, 0] },
    { events: [0, 0, 2, 4], trials: [0, 0, 6, 6] },
  ];
  expect(stratifiedAssociation(apart)).toBeUndefined();
});
