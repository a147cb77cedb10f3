import fc from "fast-check";
import { expect, test } from "vitest";
import {
  betaQuantile,
  logBeta,
  regularizedBeta,
  regularizedBetaUpper,
} from "../../../src/statistics/distributions/beta.ts";
import {
  chiSquareCdf,
  chiSquareQuantile,
  chiSquareUpperTail,
} from "../../../src/statistics/distributions/chi-square.ts";
import { fCdf, fQuantile, fUpperTail } from "../../../src/statistics/distributions/f.ts";
import { findRoot } from "../../../src/statistics/distributions/find-root.ts";
import { logGamma, regularizedGammaP, regularizedGammaQ } from "../../../src/statistics/distributions/gamma.ts";
import { gammaQuantile } from "../../../src/statistics/distributions/gamma-quantile.ts";
import { noncentralTCdf, noncentralTUpperTail } from "../../../src/statistics/distributions/noncentral-t.ts";
import {
  normalCdf,
  normalDensity,
  normalQuantile,
  normalUpperTail,
} from "../../../src/statistics/distributions/normal.ts";
import {
  studentTCdf,
  studentTQuantile,
  studentTTwoTailed,
  studentTUpperTail,
} from "../../../src/statistics/distributions/student-t.ts";
import {
  studentizedRangeCdf,
  studentizedRangeQuantile,
  studentizedRangeUpperTail,
} from "../../../src/statistics/distributions/studentized-range.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

const mpmath = { dataset: "far tails", statistic: "upper tail", source: "mpmath 1.3.0, 40 digits" };

test("far tails keep their digits", () => {
  expectAgreement(
    { ...mpmath, method: "Student's t distribution" },
    [
      [studentTUpperTail(8, 5), 0.00024645333028622203],
      [studentTUpperTail(20, 30), 3.3745418328856433e-19],
      [studentTUpperTail(40, 100.5), 7.657340074768672e-64],
      [studentTCdf(-300, 7.3), 1.6689740902254356e-16],
    ],
    13,
  );
  expectAgreement(
    { ...mpmath, method: "F distribution" },
    [
      [fUpperTail(30, 3.5, 60), 6.801452265803844e-13],
      [fUpperTail(1000, 2, 12), 4.501109911333275e-14],
      [fUpperTail(5, 40, 1000), 1.1825593941529305e-20],
    ],
    13,
  );
  expectAgreement(
    { ...mpmath, method: "chi-square distribution" },
    [
      [chiSquareUpperTail(200, 5.5), 7.443188176972418e-41],
      [chiSquareUpperTail(1500, 1000), 1.0454640385979657e-22],
      [chiSquareUpperTail(60, 1), 9.485737571073848e-15],
    ],
    13,
  );
  expectAgreement(
    { ...mpmath, method: "normal distribution" },
    [
      [normalUpperTail(3), 0.0013498980316300946],
      [normalUpperTail(6), 9.86587645037698e-10],
      [normalUpperTail(10), 7.619853024160525e-24],
      [normalCdf(-25), 3.056696706382561e-138],
      [normalUpperTail(37), 5.725571222524577e-300],
    ],
    14,
  );
  expectAgreement(
    {
      method: "studentized range",
      dataset: "far tails",
      statistic: "upper tail",
      source: "SciPy 1.17.1, absolute 1e-13",
    },
    [
      [studentizedRangeUpperTail(12, 3, 20), 1.3530668652173006e-7],
      [studentizedRangeUpperTail(9, 5, Number.POSITIVE_INFINITY), 1.9651212879168156e-9],
    ],
    6,
  );
});

test("printed tables: q(0.05; 4, 16) = 4.046, NIST/SEMATECH e-Handbook 7.4.7.1 (from memory); t, F and chi-square of any textbook", () => {
  assertClose(studentizedRangeQuantile(0.95, 4, 16), 4.046, 0.0005);
  assertClose(studentTQuantile(0.975, 10), 2.228, 0.0005);
  assertClose(fQuantile(0.95, 4, 20), 2.866, 0.0005);
  assertClose(chiSquareQuantile(0.95, 10), 18.307, 0.0005);
  assertClose(normalQuantile(0.975), 1.95996, 0.000005);
});

test("closed forms", () => {
  expectAgreement(
    { method: "distributions", dataset: "closed forms", statistic: "special cases", source: "algebra" },
    [
      [studentTUpperTail(1e8, 1), Math.atan2(1, 1e8) / Math.PI],
      [studentTTwoTailed(3, 2), 1 - 3 / Math.sqrt(11)],
      [fUpperTail(7, 2, 2), 1 / 8],
      [fCdf(7, 2, 5), 1 - (1 + (2 * 7) / 5) ** -2.5],
      [chiSquareUpperTail(50, 2), Math.exp(-25)],
      [chiSquareCdf(1e-12, 2), -Math.expm1(-5e-13)],
      [chiSquareUpperTail(2.25, 1), 2 * normalUpperTail(1.5)],
      [fUpperTail(2.25, 1, Number.POSITIVE_INFINITY), 2 * normalUpperTail(1.5)],
      [fUpperTail(2.25, 1, 7), studentTTwoTailed(1.5, 7)],
      [fCdf(0.5, Number.POSITIVE_INFINITY, 6), chiSquareUpperTail(12, 6)],
      [studentizedRangeUpperTail(3, 2, 9), studentTTwoTailed(3 / Math.SQRT2, 9)],
      [studentizedRangeUpperTail(30, 2, 40), studentTTwoTailed(30 / Math.SQRT2, 40)],
      [studentizedRangeCdf(0.2, 2, Number.POSITIVE_INFINITY), 1 - 2 * normalUpperTail(0.2 / Math.SQRT2)],
      [noncentralTUpperTail(1, Number.POSITIVE_INFINITY, 3), normalCdf(2)],
      [logGamma(0.5), Math.log(Math.PI) / 2],
      [logBeta(0.5, 0.5), Math.log(Math.PI)],
      [regularizedBeta(0.3, 2, 1), 0.09],
      [regularizedBetaUpper(0.999, 1, 3), 1e-9],
      [regularizedGammaP(2, 1e-6), 4.999996666667916e-13],
      [regularizedGammaQ(1, 700), Math.exp(-700)],
      [normalDensity(1), Math.exp(-0.5) / Math.sqrt(2 * Math.PI)],
    ],
    12,
  );
});

const probability = fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true });
const freedom = fc.double({ min: 0.8, max: 5000, noNaN: true });

test("each quantile inverts its distribution function", () => {
  const backs = (p: number, lower: number, upper: number) =>
    expect(p < 0.5 ? Math.abs(lower / p - 1) : Math.abs(upper / (1 - p) - 1)).toBeLessThan(1e-10);
  fc.assert(
    fc.property(probability, freedom, freedom, (p, a, b) => {
      const z = normalQuantile(p);
      backs(p, normalCdf(z), normalUpperTail(z));
      const t = studentTQuantile(p, a);
      backs(p, studentTCdf(t, a), studentTUpperTail(t, a));
      const f = fQuantile(p, a, b);
      backs(p, fCdf(f, a, b), fUpperTail(f, a, b));
      const x = chiSquareQuantile(p, a);
      backs(p, chiSquareCdf(x, a), chiSquareUpperTail(x, a));
    }),
    { numRuns: 200, seed: 7 },
  );
  assertClose(betaQuantile(0.25, 2, 1), 0.5, 1e-15);
  assertClose(gammaQuantile(0.5, 1), Math.LN2, 1e-15);
});

test("the ends of each range", () => {
  expect(studentTCdf(Number.NEGATIVE_INFINITY, 3)).toBe(0);
  expect(studentTTwoTailed(Number.POSITIVE_INFINITY, 3)).toBe(0);
  expect(fUpperTail(Number.POSITIVE_INFINITY, 2, 3)).toBe(0);
  expect(fCdf(-1, 2, 3)).toBe(0);
  expect(chiSquareUpperTail(-1, 4)).toBe(1);
  expect(studentizedRangeUpperTail(0, 3, 9)).toBe(1);
  expect(studentizedRangeUpperTail(Number.POSITIVE_INFINITY, 3, 9)).toBe(0);
  expect(noncentralTCdf(Number.POSITIVE_INFINITY, 9, 1)).toBe(1);
  expect(regularizedBeta(0, 1, 1)).toBe(0);
  expect(studentTQuantile(0.5, 4)).toBe(0);
});

test("a call outside its range names the routine and the value", () => {
  expect(() => studentTCdf(Number.NaN, 3)).toThrow("studentTCdf: t must be a number; received NaN");
  expect(() => studentTCdf(1, 0)).toThrow("studentTCdf: degreesOfFreedom must be above 0; received 0");
  expect(() => studentTQuantile(1, 3)).toThrow("studentTQuantile: p must lie between 0 and 1");
  expect(() => fUpperTail(1, -1, 3)).toThrow("fUpperTail: df1 must be above 0; received -1");
  expect(() => fQuantile(0, 1, 3)).toThrow(RangeError);
  expect(() => chiSquareUpperTail(1, Number.NaN)).toThrow(RangeError);
  expect(() => normalQuantile(0)).toThrow(RangeError);
  expect(() => normalCdf(Number.NaN)).toThrow(RangeError);
  expect(() => logGamma(0)).toThrow("logGamma: x must be a number above 0; received 0");
  expect(() => regularizedGammaQ(1, -1)).toThrow(RangeError);
  expect(() => regularizedBeta(1.5, 1, 1)).toThrow("regularizedBeta: x must lie from 0 to 1; received 1.5");
  expect(() => studentizedRangeCdf(3, 1, 5)).toThrow(RangeError);
  expect(() => noncentralTCdf(1, 5, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  expect(() => findRoot((x) => x * x + 1, 0, 1)).toThrow("must change sign");
});

test("far out a noncentral t falls as the power of its degrees of freedom", () => {
  // the tail of t with n degrees of freedom is c / t^n, whatever the noncentrality
  for (const noncentrality of [0.5, 1, 3]) {
    const product = (t: number) => noncentralTUpperTail(t, 1, noncentrality) * t;
    expect(Math.abs(product(1e152) / product(1e100) - 1)).toBeLessThan(1e-9);
    // where t squared is no number any more, neither is the tail
    expect(noncentralTUpperTail(1e200, 1, noncentrality)).toBe(0);
  }
});

test("at both ends of its range a gamma variable is certain", () => {
  for (const a of [0.5, 1, 40]) {
    expect([regularizedGammaP(a, 0), regularizedGammaQ(a, 0)]).toEqual([0, 1]);
    expect([regularizedGammaP(a, Number.POSITIVE_INFINITY), regularizedGammaQ(a, Number.POSITIVE_INFINITY)]).toEqual([
      1, 0,
    ]);
  }
});
