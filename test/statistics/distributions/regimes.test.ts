import { expect, test } from "vitest";
import { betaQuantilePair } from "../../../src/statistics/distributions/beta-quantile-pair.ts";
import { betaTails } from "../../../src/statistics/distributions/beta-tails.ts";
import { chiSquareQuantile, chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { fUpperTail } from "../../../src/statistics/distributions/f.ts";
import { findRoot } from "../../../src/statistics/distributions/find-root.ts";
import { gammaQuantile } from "../../../src/statistics/distributions/gamma-quantile.ts";
import { gammaTails } from "../../../src/statistics/distributions/gamma-tails.ts";
import { noncentralTUpperTail } from "../../../src/statistics/distributions/noncentral-t.ts";
import {
  normalCdf,
  normalDensity,
  normalQuantile,
  normalUpperTail,
} from "../../../src/statistics/distributions/normal.ts";
import { normalRangeUpperTail } from "../../../src/statistics/distributions/normal-range.ts";
import {
  studentTCdf,
  studentTQuantile,
  studentTTwoTailed,
  studentTUpperTail,
} from "../../../src/statistics/distributions/student-t.ts";
import { studentizedRangeUpperTail } from "../../../src/statistics/distributions/studentized-range.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import reference from "../../reference/distribution-regimes.json" with { type: "json" };

type Routine = (...values: number[]) => number;
const beta = (x: number, a: number, b: number) => betaTails(x, 1 - x, a, b);
const gamma = (a: number, x: number) => gammaTails("gamma", a, x);
const routines: Record<keyof typeof reference.values, [Routine, digits: number]> = {
  betaLower: [(x, a, b) => beta(x!, a!, b!).lower, 12],
  betaUpper: [(x, a, b) => beta(x!, a!, b!).upper, 12],
  gammaLower: [(a, x) => gamma(a!, x!).lower, 12],
  gammaUpper: [(a, x) => gamma(a!, x!).upper, 12],
  normalCdf: [normalCdf as Routine, 14],
  noncentralTUpper: [noncentralTUpperTail as Routine, 11],
  noncentralTLower: [(t, df, away) => noncentralTUpperTail(-t!, df!, -away!), 11],
  rangeUpper: [(w, count) => normalRangeUpperTail(count!)(w!), 11],
};

test.each(Object.entries(routines))(
  "%s over all its regimes: near and far tails, small and large shapes",
  (name, [routine, digits]) => {
    expectAgreement(
      { method: name, dataset: "regimes", statistic: "values", source: "mpmath 1.3.0, 25 digits and more" },
      reference.values[name as keyof typeof routines].map(
        (row) => [routine(...row.slice(0, -1)), row.at(-1)!] as const,
      ),
      digits,
    );
  },
);

test("quantiles give back their probability, in the tail that holds it", () => {
  // p at both sides of the middle, and far out
  for (const p of [1e-12, 1e-9, 0.001, 0.03, 0.25, 0.49, 0.5, 0.51, 0.75, 0.95, 0.9999]) {
    const back = (name: string, lower: number, upper: number) => {
      const miss = p <= 0.5 ? lower / p - 1 : upper / (1 - p) - 1;
      expect(Math.abs(miss), `${name} at ${p}`).toBeLessThan(2e-12);
    };
    const z = normalQuantile(p);
    back("normal", normalCdf(z), normalUpperTail(z));
    for (const a of [0.2, 0.5, 1, 3.3, 20, 900]) {
      const { lower, upper } = gamma(a, gammaQuantile(p, a));
      back(`gamma of ${a}`, lower, upper);
      const upperOfSquare = chiSquareUpperTail(chiSquareQuantile(p, a), a);
      if (p > 0.5) back(`chi-square of ${a}`, 1 - upperOfSquare, upperOfSquare);
      for (const df of [a, 1e21, Number.POSITIVE_INFINITY]) {
        const t = studentTQuantile(p, df);
        back(`t of ${df}`, studentTCdf(t, df), studentTUpperTail(t, df));
      }
      for (const b of [0.5, 2, 40]) {
        const { x, y } = betaQuantilePair(p, 1 - p, a, b);
        const tails = betaTails(x, y, a, b);
        back(`beta of ${a} and ${b}`, tails.lower, tails.upper);
      }
    }
  }
  expect([studentTQuantile(0.5, 3), normalQuantile(0.5)]).toEqual([0, 0]);
});

test("at the ends of their ranges distributions are certain, with any parameters", () => {
  const infinite = Number.POSITIVE_INFINITY;
  for (const df of [0.5, 3, 1e21, infinite]) {
    expect([-infinite, infinite].map((t) => studentTCdf(t, df))).toEqual([0, 1]);
    expect([-infinite, infinite].map((t) => studentTUpperTail(t, df))).toEqual([1, 0]);
    expect([-infinite, 0, infinite].map((t) => studentTTwoTailed(t, df))).toEqual([0, 1, 0]);
    expect([-2, 0, infinite].map((f) => fUpperTail(f, df, 2))).toEqual([1, 1, 0]);
    expect([-1, 0, infinite].map((q) => studentizedRangeUpperTail(q, 3, df))).toEqual([1, 1, 0]);
    for (const away of [-1, 0, 2]) {
      expect([-infinite, infinite].map((t) => noncentralTUpperTail(t, df, away))).toEqual([1, 0]);
      // above 0 only with the mean's own chance of it
      assertClose(noncentralTUpperTail(0, df, away), normalCdf(away), 1e-15);
    }
    if (df < 10) {
      expect([-1, 0, infinite].map((x) => chiSquareUpperTail(x, df))).toEqual([1, 1, 0]);
      expect([0, 1].map((x) => beta(x, df, 2))).toEqual([
        { lower: 0, upper: 1 },
        { lower: 1, upper: 0 },
      ]);
      // far beyond what a number can hold of the tail
      for (const x of [1e5, infinite]) expect(gamma(df, x)).toEqual({ lower: 1, upper: 0 });
      expect(gamma(df, 0)).toEqual({ lower: 0, upper: 1 });
    }
  }
  expect(gamma(1e6, 1)).toEqual({ lower: 0, upper: 1 });
  expect([0.999, 1, 1.001].map((f) => fUpperTail(f, infinite, infinite))).toEqual([1, 0, 0]);
  expect([normalCdf(-infinite), normalCdf(infinite), normalUpperTail(infinite), normalUpperTail(-infinite)]).toEqual([
    0, 1, 0, 1,
  ]);
  expect([normalDensity(-infinite), normalDensity(infinite)]).toEqual([0, 0]);
});

test("a t as large as its square can be held has its tail: of one degree of freedom 1 / (pi t), of two 1 / (2 t²)", () => {
  for (const t of [1e20, 1e149, 1e151, 1e153]) {
    expect(Math.abs(studentTUpperTail(t, 1) * Math.PI * t - 1)).toBeLessThan(1e-12);
    if (t < 1e150) expect(Math.abs(studentTUpperTail(t, 2) * 2 * t * t - 1)).toBeLessThan(1e-12);
  }
});

test("each argument out of range is refused by its name", () => {
  const bad = Number.NaN;
  const infinite = Number.POSITIVE_INFINITY;
  const refused: [() => unknown, string][] = [
    ...[0, 1, bad, -0.1].flatMap((p): [() => unknown, string][] => [
      [() => normalQuantile(p), "normalQuantile: p must lie between 0 and 1"],
      [() => gammaQuantile(p, 1), "gammaQuantile: p must lie between 0 and 1"],
      [() => chiSquareQuantile(p, 1), "chiSquareQuantile: p must lie between 0 and 1"],
      [() => studentTQuantile(p, 1), "studentTQuantile: p must lie between 0 and 1"],
    ]),
    ...[0, -1, bad].flatMap((df): [() => unknown, string][] => [
      [() => gammaQuantile(0.5, df), "gammaQuantile: a must be a number above 0"],
      [() => chiSquareQuantile(0.5, df), "chiSquareQuantile: degreesOfFreedom must be above 0"],
      [() => studentTUpperTail(1, df), "studentTUpperTail: degreesOfFreedom must be above 0"],
      [() => studentTTwoTailed(1, df), "studentTTwoTailed: degreesOfFreedom must be above 0"],
      [() => studentTQuantile(0.4, df), "studentTQuantile: degreesOfFreedom must be above 0"],
      [() => noncentralTUpperTail(1, df, 1), "noncentralTUpperTail: degreesOfFreedom must be above 0"],
      [() => studentizedRangeUpperTail(1, 2, df), "studentizedRangeUpperTail: degreesOfFreedom must be above 0"],
    ]),
    [() => normalDensity(bad), "normalDensity: z must be a number"],
    [() => normalUpperTail(bad), "normalUpperTail: z must be a number"],
    [() => fUpperTail(1, 1, 0), "fUpperTail: df2 must be above 0"],
    [() => fUpperTail(1, -1, 3), "fUpperTail: df1 must be above 0; received -1"],
    [() => chiSquareUpperTail(1, 0), "chiSquareUpperTail: degreesOfFreedom must be above 0"],
    [() => gamma(-1, 1), "gamma: a must be a number above 0"],
    [() => gamma(1, bad), "gamma: x must be 0 or more; received NaN"],
    [() => normalCdf(bad), "normalCdf: z must be a number"],
    [() => fUpperTail(bad, 1, 1), "fUpperTail: f must be a number"],
    [() => chiSquareUpperTail(bad, 1), "chiSquareUpperTail: x must be a number"],
    [() => studentTTwoTailed(bad, 1), "studentTTwoTailed: t must be a number"],
    [() => noncentralTUpperTail(1, 5, infinite), "noncentralTUpperTail: noncentrality must be finite"],
    [() => studentizedRangeUpperTail(bad, 2, 2), "studentizedRangeUpperTail: q must be a number"],
    [
      () => studentizedRangeUpperTail(1, 2.5, 2),
      "studentizedRangeUpperTail: groups must be a whole number of 2 or more",
    ],
    [() => findRoot(() => Number.NaN, 0, 1), "findRoot: the function must return a number; received NaN at 0"],
    [() => findRoot((x) => -1 - x, 0, 1), "must change sign between 0 and 1; received -1 and -2"],
  ];
  for (const [call, message] of refused) expect(call).toThrow(message);
});

test("a root is found at an end, from either side, across a jump, and as close as asked", () => {
  expect(findRoot((x) => x, 0, 5)).toBe(0);
  expect(findRoot((x) => x - 5, 0, 5)).toBe(5);
  const curves: [(x: number) => number, number, number, number][] = [
    [(x) => x ** 3 - 2, 0, 3, Math.cbrt(2)],
    [(x) => 2 - x ** 3, 0, 3, Math.cbrt(2)],
    [(x) => Math.log(x), 1e-8, 700, 1],
    [(x) => Math.exp(x) - 1e-5, -50, 9, Math.log(1e-5)],
    [(x) => (x - 0.75) ** 9, 0, 2, 0.75],
    [(x) => (x < Math.PI ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY), 1, 9, Math.PI],
    [(x) => Math.tanh(40 * (x - 0.9)), -3, 1, 0.9],
  ];
  for (const [f, from, to, root] of curves) {
    let calls = 0;
    const counted = (x: number): number => {
      calls++;
      return f(x);
    };
    expect(Math.abs(findRoot(counted, from, to) - root)).toBeLessThanOrEqual(
      2e-14 * Math.abs(root) + (f(0.75) === 0 ? 1e-2 : 0),
    );
    expect(Math.abs(findRoot(f, to, from) - root)).toBeLessThanOrEqual(
      2e-14 * Math.abs(root) + (f(0.75) === 0 ? 1e-2 : 0),
    );
    // interpolation is never much slower than halving, which takes 60 steps
    expect(calls).toBeLessThan(130);
    expect(Math.abs(findRoot(f, from, to, 1e-3) - root)).toBeLessThan(0.02 * Math.abs(root));
  }
  let calls = 0;
  findRoot(
    (x) => {
      calls++;
      return Math.cos(x) - x;
    },
    0,
    1,
  );
  // a smooth function is interpolated: halving would take 50 steps
  expect(calls).toBeLessThan(15);
});
