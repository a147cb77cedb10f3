import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import {
  confidenceSequence,
  effectiveSize,
  mixtureCriticalT,
  mixtureEValue,
  mixturePrecision,
  type SequentialLook,
} from "../../../src/statistics/sequential/confidence-sequence.ts";
import { assertClose } from "../../agreement.ts";

const infinity = Number.POSITIVE_INFINITY;

describe("normal mixture with sigma known", () => {
  test("Robbins 1970, Annals of Mathematical Statistics 41:1397-1409: |S_n| >= sqrt((n + m)(a^2 + ln(1 + n/m))) ever, at most exp(-a^2/2) (from memory)", () => {
    for (const [n, m, aSquared] of [
      [1, 1, 6],
      [50, 10, 6],
      [1000, 3, 9],
    ] as const) {
      const limitOnSum = Math.sqrt((n + m) * (aSquared + Math.log(1 + n / m)));
      const t = mixtureCriticalT(n, infinity, m, Math.exp(-aSquared / 2));
      assertClose(t * Math.sqrt(n), limitOnSum, 1e-10 * limitOnSum);
    }
  });

  test("the e-value is the likelihood ratio averaged over the mixture, by quadrature", () => {
    const [n, prior, z] = [20, 4, 2.3];
    const steps = 20000;
    let mean = 0;
    for (let k = 0; k < steps; k++) {
      const effect = -4 + (8 * (k + 0.5)) / steps;
      const density = Math.sqrt(prior / (2 * Math.PI)) * Math.exp((-prior * effect * effect) / 2);
      mean += (8 / steps) * density * Math.exp(effect * z * Math.sqrt(n) - (n * effect * effect) / 2);
    }
    assertClose(mixtureEValue(z, n, infinity, prior), mean, 1e-8 * mean);
  });

  test("the mixture chosen is the tightest at its size", () => {
    const best = mixturePrecision(30, 0.05);
    const at = (prior: number) => mixtureCriticalT(30, infinity, prior, 0.05);
    expect(at(best)).toBeLessThan(at(best * 1.3));
    expect(at(best)).toBeLessThan(at(best / 1.3));
    // wider than the single-look 1.96 by the price of looking at any time
    expect(at(best)).toBeGreaterThan(2.5);
    expect(at(best)).toBeLessThan(3.2);
  });
});

describe("t mixture with sigma estimated", () => {
  test("the e-value is a ratio of marginal likelihoods, by quadrature over effect and sigma", () => {
    // one sample, mean = effect x sigma, effect ~ N(0, 1/prior), sigma with density 1/sigma on both sides
    const values = [0.8, 2.1, -0.3, 1.7];
    const prior = 1.5;
    const n = values.length;
    const mean = values.reduce((a, b) => a + b, 0) / n;
    const s = Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (n - 1));
    const likelihood = (effect: number, sigma: number) =>
      values.reduce((product, y) => (product * Math.exp(-((y / sigma - effect) ** 2) / 2)) / sigma, 1);
    let [alternative, none] = [0, 0];
    const [sigmaSteps, effectSteps] = [1500, 600];
    for (let i = 0; i < sigmaSteps; i++) {
      const sigma = Math.exp(-4 + (12 * (i + 0.5)) / sigmaSteps); // d sigma / sigma is d log sigma
      none += likelihood(0, sigma);
      for (let j = 0; j < effectSteps; j++) {
        const effect = -5 + (10 * (j + 0.5)) / effectSteps;
        const density = Math.sqrt(prior / (2 * Math.PI)) * Math.exp((-prior * effect ** 2) / 2);
        alternative += (10 / effectSteps) * density * likelihood(effect, sigma);
      }
    }
    const expected = alternative / none;
    const t = mean / (s / Math.sqrt(n));
    assertClose(mixtureEValue(t, n, n - 1, prior), expected, 1e-5 * expected);
  });

  test("the critical t is where the e-value reaches 1 / significance, and tends to the normal one", () => {
    for (const [size, df, prior] of [
      [5, 8, 2],
      [20, 38, 5],
      [100, 198, 1],
    ] as const) {
      const t = mixtureCriticalT(size, df, prior, 0.05);
      assertClose(mixtureEValue(t, size, df, prior), 20, 1e-9);
      assertClose(mixtureCriticalT(size, 1e9, prior, 0.05), mixtureCriticalT(size, infinity, prior, 0.05), 1e-6);
    }
    // with so few values no t can be convincing
    expect(mixtureCriticalT(1, 1, 5, 0.05)).toBe(infinity);
  });

  test("looked at after every pair of trays, false alarms stay below the rate while a plain t test's soar (simulation, seed 11)", () => {
    const random = seededRandom(11);
    const trials = 1500;
    let [falseAlarms, naive] = [0, 0];
    const prior = mixturePrecision(20, 0.05);
    // two-sided 5 % points of t with 2, 4, 8, ... degrees of freedom are above 1.98, so counting |t| > 4.31, 2.78, ... is not needed:
    // the plain test is counted from the fifth pair on with the limit for 8 degrees of freedom
    for (let trial = 0; trial < trials; trial++) {
      let [sumA, sumB, squaresA, squaresB] = [0, 0, 0, 0];
      let [alarm, naiveAlarm] = [false, false];
      for (let n = 1; n <= 80; n++) {
        const [a, b] = [random.normal(), random.normal()];
        sumA += a;
        sumB += b;
        squaresA += a * a;
        squaresB += b * b;
        if (n < 2) continue;
        const df = 2 * n - 2;
        const sigma = Math.sqrt((squaresA - (sumA * sumA) / n + squaresB - (sumB * sumB) / n) / df);
        const t = (sumA - sumB) / n / (sigma * Math.sqrt(2 / n));
        if (mixtureEValue(t, n / 2, df, prior) >= 20) alarm = true;
        if (n >= 5 && Math.abs(t) > 2.306) naiveAlarm = true;
      }
      if (alarm) falseAlarms++;
      if (naiveAlarm) naive++;
    }
    expect(falseAlarms / trials).toBeLessThanOrEqual(0.05 + 2 * Math.sqrt((0.05 * 0.95) / trials));
    expect(naive / trials).toBeGreaterThan(0.12);
  });
});

describe("a sequence of looks", () => {
  const looks: SequentialLook[] = [
    { difference: 3, standardError: 1.2, sigma: 2, degreesOfFreedom: 6 },
    { difference: 2.4, standardError: 0.7, sigma: 1.9, degreesOfFreedom: 18 },
    { difference: 2.6, standardError: 0.5, sigma: 1.95, degreesOfFreedom: 40 },
  ];
  test("running intervals never widen, p never rises, and p <= 0.05 exactly when 0 has been left out", () => {
    const sequence = confidenceSequence({ looks, tightestAt: 15 });
    for (let k = 0; k < sequence.length; k++) {
      const at = sequence[k]!;
      assertClose(at.effectiveSize, effectiveSize(looks[k]!.sigma, looks[k]!.standardError), 1e-12);
      expect(at.p <= 0.05).toBe(sequence.slice(0, k + 1).some((one) => one.low > 0 || one.high < 0));
      if (k === 0) continue;
      expect(at.p).toBeLessThanOrEqual(sequence[k - 1]!.p);
      expect(at.runningHigh - at.runningLow).toBeLessThanOrEqual(
        sequence[k - 1]!.runningHigh - sequence[k - 1]!.runningLow,
      );
    }
    expect(sequence[2]!.p).toBeLessThan(0.01);
  });
  test("units do not matter", () => {
    const scaled = looks.map((look) => ({
      ...look,
      difference: look.difference * 1000,
      standardError: look.standardError * 1000,
      sigma: look.sigma * 1000,
    }));
    const [ours, other] = [looks, scaled].map((list) => confidenceSequence({ looks: list, tightestAt: 15 })[2]!);
    assertClose(other!.p, ours!.p, 1e-12);
    assertClose(other!.low / 1000, ours!.low, 1e-9);
  });
  test("looks that contradict one another are said", () => {
    const jump = confidenceSequence({
      looks: [
        { difference: 10, standardError: 0.5, sigma: 2, degreesOfFreedom: 60 },
        { difference: -10, standardError: 0.5, sigma: 2, degreesOfFreedom: 60 },
      ],
      tightestAt: 16,
    });
    expect(jump[0]!.contradicts).toBe(false);
    expect(jump[1]!.contradicts).toBe(true);
    expect(jump[1]!.runningHigh).toBeLessThan(0);
  });
  test("wrong calls", () => {
    expect(() => confidenceSequence({ looks: [], tightestAt: 10 })).toThrow(/looks/);
    expect(() => confidenceSequence({ looks, tightestAt: 0 })).toThrow(/tightestAt/);
    expect(() => confidenceSequence({ looks, tightestAt: 10, level: 1 })).toThrow(/level/);
    expect(() => confidenceSequence({ looks: [{ ...looks[0]!, standardError: 0 }], tightestAt: 10 })).toThrow(
      /standardError/,
    );
    expect(() => confidenceSequence({ looks: [{ ...looks[0]!, difference: Number.NaN }], tightestAt: 10 })).toThrow(
      /finite/,
    );
    expect(() => mixtureEValue(1, 5, 0, 1)).toThrow(/degreesOfFreedom/);
    expect(() => mixtureCriticalT(5, 5, 0, 0.05)).toThrow(/prior/);
  });
});
