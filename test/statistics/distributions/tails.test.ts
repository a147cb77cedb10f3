import { expect, test } from "vitest";
import { betaQuantilePair } from "../../../src/statistics/distributions/beta-quantile-pair.ts";
import { betaTails } from "../../../src/statistics/distributions/beta-tails.ts";
import { chiSquareQuantile, chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { fUpperTail } from "../../../src/statistics/distributions/f.ts";
import { gammaQuantile } from "../../../src/statistics/distributions/gamma-quantile.ts";
import { gammaTails } from "../../../src/statistics/distributions/gamma-tails.ts";
import { noncentralTUpperTail } from "../../../src/statistics/distributions/noncentral-t.ts";
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
import { studentizedRangeUpperTail } from "../../../src/statistics/distributions/studentized-range.ts";
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
  assertClose(studentizedRangeUpperTail(4.046, 4, 16), 0.05, 0.00005);
  assertClose(studentTQuantile(0.975, 10), 2.228, 0.0005);
  assertClose(fUpperTail(2.866, 4, 20), 0.05, 0.00005);
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
      [fUpperTail(7, 2, 5), (1 + (2 * 7) / 5) ** -2.5],
      [chiSquareUpperTail(50, 2), Math.exp(-25)],
      [chiSquareUpperTail(2.25, 1), 2 * normalUpperTail(1.5)],
      [fUpperTail(2.25, 1, Number.POSITIVE_INFINITY), 2 * normalUpperTail(1.5)],
      [fUpperTail(2.25, 1, 7), studentTTwoTailed(1.5, 7)],
      [fUpperTail(0.5, Number.POSITIVE_INFINITY, 6), 1 - chiSquareUpperTail(12, 6)],
      [studentizedRangeUpperTail(3, 2, 9), studentTTwoTailed(3 / Math.SQRT2, 9)],
      [studentizedRangeUpperTail(30, 2, 40), studentTTwoTailed(30 / Math.SQRT2, 40)],
      [noncentralTUpperTail(1, Number.POSITIVE_INFINITY, 3), normalCdf(2)],
      [betaTails(0.3, 0.7, 2, 1).lower, 0.09],
      [betaTails(0.999, 0.001, 1, 3).upper, 1e-9],
      [betaQuantilePair(0.25, 0.75, 2, 1).x, 0.5],
      [gammaTails("gamma", 2, 1e-6).lower, 4.999996666667916e-13],
      [gammaTails("gamma", 1, 700).upper, Math.exp(-700)],
      [gammaQuantile(0.5, 1), Math.LN2],
      [normalDensity(1), Math.exp(-0.5) / Math.sqrt(2 * Math.PI)],
    ],
    12,
  );
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
