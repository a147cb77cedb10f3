import { describe, expect, test } from "vitest";
import { generalisedQ } from "../../../src/statistics/meta-analysis/between-trial-variance.ts";
import { randomEffectsSummary } from "../../../src/statistics/meta-analysis/random-effects-summary.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

// Thirteen trials of BCG vaccine: Colditz et al. 1994, Journal of the American Medical Association 271:698-702; counts of
// cases and non-cases, vaccinated then not, as in Berkey et al. 1995, Statistics in Medicine 14:395-411 (from memory).
const bcg = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as const;
const logRiskRatio = bcg.map(([a, b, c, d]) => Math.log(a / (a + b) / (c / (c + d))));
const standardError = bcg.map(([a, b, c, d]) => Math.sqrt(1 / a - 1 / (a + b) + 1 / c - 1 / (c + d)));

describe("BCG vaccine trials, log risk ratio", () => {
  // printed results, from memory: Viechtbauer 2010, Journal of Statistical Software 36(3), section 3, which fits these data
  test("restricted maximum likelihood", () => {
    const summary = randomEffectsSummary(logRiskRatio, standardError);
    assertClose(summary.betweenVariance.lower, 0.1197, 0.00005);
    assertClose(summary.betweenVariance.upper, 1.1115, 0.00005);
    const q = generalisedQ({ estimates: logRiskRatio, variances: standardError.map((error) => error ** 2) }, 0);
    assertClose(100 * summary.iSquared, 92.12, 0.005);
    expectAgreement(
      {
        method: "random-effects summary, REML",
        dataset: "BCG vaccine",
        statistic: "mean, variance between trials, Q",
        source: "Viechtbauer 2010, J. Statistical Software 36(3) (from memory; printed to 4 decimals)",
      },
      [
        [summary.estimate, -0.7145],
        [summary.betweenVariance.estimate, 0.3132],
        [q, 152.233],
      ],
      3,
    );
  });
});

describe("properties", () => {
  const estimates = [1.2, 0.4, 2.5, 1.9, -0.3];
  const errors = [0.5, 0.4, 0.7, 0.3, 0.6];
  test("equal errors: the mean, and the t interval of the plain estimates", () => {
    // with equal errors Hartung-Knapp is the one-sample t interval, whatever the variance between trials
    const summary = randomEffectsSummary(estimates, [0.5, 0.5, 0.5, 0.5, 0.5]);
    const mean = 5.7 / 5;
    const sd = Math.sqrt(estimates.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 4);
    assertClose(summary.estimate, mean, 1e-12);
    // REML then has a closed form: variance of the estimates less the sampling variance
    // t(0.975, 4) = 2.7764451052 (Student's table)
    assertClose(summary.modifiedHartungKnapp.upper - summary.estimate, (2.7764451052 * sd) / Math.sqrt(5), 1e-9);
  });
  test("a trial that says nothing changes nothing", () => {
    // two with equal errors: half the square of their difference less the sampling variance
    const { betweenVariance } = randomEffectsSummary([0, Math.sqrt(10), 7], [1, 1, 1e6]);
    assertClose(betweenVariance.estimate, 4, 1e-9);
  });
  test("order and unit do not matter", () => {
    const one = randomEffectsSummary(estimates, errors);
    const order = [3, 0, 4, 2, 1];
    const other = randomEffectsSummary(
      order.map((k) => estimates[k]! * 1000),
      order.map((k) => errors[k]! * 1000),
    );
    assertClose(other.estimate / 1000, one.estimate, 1e-12);
    assertClose(other.betweenVariance.estimate / 1e6, one.betweenVariance.estimate, 1e-12);
    assertClose(other.prediction!.upper / 1000, one.prediction!.upper, 1e-12);
    assertClose(
      one.weights.reduce((a, b) => a + b),
      1,
      1e-14,
    );
  });
  test("of two low points of the restricted deviance the lower one is taken", () => {
    // the definition, written out: log determinant, log of the total weight, weighted squares; least over a fine grid
    const least = (estimates: number[], variances: number[]) => {
      const at = (between: number) => {
        const weights = variances.map((variance) => 1 / (variance + between));
        const total = weights.reduce((a, b) => a + b);
        const mean = weights.reduce((sum, weight, k) => sum + weight * estimates[k]!, 0) / total;
        const squares = weights.reduce((sum, weight, k) => sum + weight * (estimates[k]! - mean) ** 2, 0);
        return variances.reduce((sum, variance) => sum + Math.log(variance + between), Math.log(total) + squares);
      };
      const grid = [0, ...Array.from({ length: 4000 }, (_, k) => 1e-4 * 1.004 ** k)];
      return grid.reduce((best, between) => (at(between) < at(best) ? between : best), 0);
    };
    for (const [estimates, variances] of [
      [
        [-6.5, 0.7, 0.7, 0.1],
        [4, 0.01, 0.01, 0.25],
      ], // 0, and a higher low point at 6.62
      [
        [-4.8, 1.6, -4.9],
        [0.01, 4, 0.25],
      ], // 9.52, and a higher low point at 0
      [
        [5, -3.2, 1.9, 2.6, 2.3],
        [1, 4, 1, 0.01, 0.25],
      ],
    ] as [number[], number[]][]) {
      const { betweenVariance } = randomEffectsSummary(estimates, variances.map(Math.sqrt));
      const expected = least(estimates, variances);
      expect(Math.abs(betweenVariance.estimate - expected)).toBeLessThanOrEqual(0.005 * expected);
    }
  });
  test("the prediction interval holds the mean's; trials alike by luck get no narrower range than their errors make", () => {
    const summary = randomEffectsSummary(estimates, errors);
    expect(summary.prediction!.lower).toBeLessThan(summary.modifiedHartungKnapp.lower);
    const alike = randomEffectsSummary([1, 1.01, 0.99], [0.5, 0.5, 0.5]);
    expect(alike.betweenVariance.estimate).toBe(0);
    expect(alike.betweenVariance.lower).toBe(0);
    expect(alike.iSquared).toBe(0);
    // t(0.975, 2) = 4.3026527297 (Student's table)
    assertClose(alike.modifiedHartungKnapp.upper - 1, (4.3026527297 * 0.5) / Math.sqrt(3), 1e-9);
  });
});

describe("edges", () => {
  test("two trials: no prediction interval", () => {
    const summary = randomEffectsSummary([1, 3], [1, 1]);
    expect(summary.estimate).toBe(2);
    expect(summary.prediction).toBeUndefined();
    expect(summary.betweenVariance.estimate).toBeCloseTo(1, 10);
  });
  test("exactly equal estimates give finite results", () => {
    const summary = randomEffectsSummary([0, 0], [1, 2]);
    expect(summary.estimate).toBe(0);
    expect(summary.modifiedHartungKnapp.upper).toBeGreaterThan(0);
  });
  test("bad input throws", () => {
    expect(() => randomEffectsSummary([1], [1])).toThrow(/at least 2/);
    expect(() => randomEffectsSummary([1, 2], [1, 0])).toThrow(/above 0/);
    expect(() => randomEffectsSummary([1, Number.NaN], [1, 1])).toThrow(/finite/);
    expect(() => randomEffectsSummary([1, 2, 3], [1, 1])).toThrow(/equally long/);
    expect(() => randomEffectsSummary([1, 2], [1, 1], 1)).toThrow(/between 0 and 1/);
  });
});
