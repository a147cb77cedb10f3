import { describe, expect, test } from "vitest";
import { studentTQuantile } from "../../../src/statistics/distributions/student-t.ts";
import { type FiellerInput, fiellerRatio, fiellerRatioAt } from "../../../src/statistics/optimum/fieller-ratio.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

const base: FiellerInput = {
  numerator: 10,
  denominator: 5,
  varianceNumerator: 1,
  varianceDenominator: 0.5,
  covariance: 0.2,
  degreesOfFreedom: 12,
};

describe("a ratio of two estimates", () => {
  test("the textbook form with g (Finney 1978, Statistical Method in Biological Assay, section 4.12, from memory): another route to the limits", () => {
    const { numerator: a, denominator: b, varianceNumerator: vaa, varianceDenominator: vbb, covariance: vab } = base;
    const t = 2.178812829667228; // t(0.975, 12), any t table
    const g = (t * t * vbb) / (b * b);
    const m = a / b;
    const root = Math.sqrt(vaa - 2 * m * vab + m * m * vbb - g * (vaa - (vab * vab) / vbb));
    const centre = m - (g * vab) / vbb;
    const set = fiellerRatio(base);
    if (set.kind !== "bounded") throw new Error(set.kind);
    assertClose(set.low, (centre - (t / b) * root) / (1 - g), 1e-9);
    assertClose(set.high, (centre + (t / b) * root) / (1 - g), 1e-9);
  });

  test("at the critical t the ratio is the set's end; where the denominator may be 0 there is none", () => {
    const set = fiellerRatio(base);
    if (set.kind !== "bounded") throw new Error(set.kind);
    const t = studentTQuantile(0.975, base.degreesOfFreedom);
    assertClose(fiellerRatioAt(t, base), set.high, 1e-12);
    assertClose(fiellerRatioAt(-t, base), set.low, 1e-12);
    expect(fiellerRatioAt(8, base)).toBe(Number.POSITIVE_INFINITY);
    expect(fiellerRatioAt(-8, base)).toBe(Number.NEGATIVE_INFINITY);
  });

  test("at each limit the difference is exactly at the critical t", () => {
    for (const change of [
      {},
      { denominator: -5 },
      { denominator: 1 },
      { covariance: -0.6 },
      { numerator: -0.1, denominator: 0.3 },
    ]) {
      const input = { ...base, ...change };
      const set = fiellerRatio(input);
      const ends =
        set.kind === "bounded" ? [set.low, set.high] : set.kind === "exclusive" ? [set.below, set.above] : [];
      for (const r of ends) {
        const difference = input.numerator - r * input.denominator;
        const variance = input.varianceNumerator - 2 * r * input.covariance + r * r * input.varianceDenominator;
        assertClose(Math.abs(difference) / Math.sqrt(variance), studentTQuantile(0.975, 12), 1e-9);
      }
    }
  });

  test("each kind", () => {
    expect(fiellerRatio(base).kind).toBe("bounded");
    // denominator within its noise, numerator far from 0
    const exclusive = fiellerRatio({ ...base, denominator: 1 });
    expect(exclusive.kind).toBe("exclusive");
    expect(exclusive.says).toBe("the denominator may be 0: only the values between the two limits are ruled out");
    if (exclusive.kind === "exclusive") {
      expect(exclusive.below).toBeLessThan(0);
      expect(exclusive.above).toBeGreaterThan(0);
    }
    // both within their noise
    expect(fiellerRatio({ ...base, numerator: 0.5, denominator: 0.5 }).kind).toBe("whole-line");
    // denominator exactly at its critical value: c / 2b with a = 0
    const t = studentTQuantile(0.975, 12);
    const edge = { ...base, covariance: 0, denominator: t * Math.sqrt(0.5) };
    const oneSided = fiellerRatio(edge);
    expect(oneSided.kind).toBe("one-sided");
    if (oneSided.kind === "one-sided" && "low" in oneSided) {
      assertClose(oneSided.low, (100 - t * t) / (20 * edge.denominator), 1e-9);
    } else throw new Error("a lower limit was expected");
    const upper = fiellerRatio({ ...edge, numerator: -10 });
    expect(upper.kind === "one-sided" && "high" in upper).toBe(true);
    expect([oneSided.says, upper.says]).toEqual([
      "the data set a lower limit and no upper one",
      "the data set an upper limit and no lower one",
    ]);
    expect(fiellerRatio({ ...edge, numerator: 0 })).toMatchObject({
      kind: "whole-line",
      says: "the data rule out no value of the ratio",
    });
  });

  test("exact denominator: the plain t interval divided through; exact both: a point", () => {
    const plain = fiellerRatio({ ...base, varianceDenominator: 0, covariance: 0 });
    if (plain.kind !== "bounded") throw new Error(plain.kind);
    assertClose(plain.low, (10 - studentTQuantile(0.975, 12)) / 5, 1e-12);
    const point = fiellerRatio({ ...base, varianceNumerator: 0, varianceDenominator: 0, covariance: 0 });
    expect(point).toMatchObject({ kind: "bounded", low: 2, high: 2 });
  });

  test("units and swapped signs do not matter", () => {
    const [one, other] = [fiellerRatio(base), fiellerRatio({ ...base, numerator: -10, denominator: -5 })];
    if (one.kind !== "bounded" || other.kind !== "bounded") throw new Error("bounded expected");
    assertClose(one.low, other.low, 1e-12);
    const grams = fiellerRatio({ ...base, numerator: 1e4, varianceNumerator: 1e6, covariance: 200 });
    if (grams.kind !== "bounded") throw new Error(grams.kind);
    assertClose(grams.high / 1000, one.high, 1e-12);
  });

  test("covers the true ratio at its level, bounded or not (simulation, seed 3)", () => {
    const random = seededRandom(3);
    let covered = 0;
    const trials = 4000;
    for (let k = 0; k < trials; k++) {
      const set = fiellerRatio({
        ...base,
        numerator: 4 + random.normal(),
        denominator: 2 + random.normal(),
        varianceNumerator: 1,
        varianceDenominator: 1,
        covariance: 0,
        degreesOfFreedom: Number.POSITIVE_INFINITY,
      });
      const holds =
        set.kind === "whole-line" ||
        (set.kind === "bounded" && set.low <= 2 && 2 <= set.high) ||
        (set.kind === "exclusive" && (2 <= set.below || 2 >= set.above)) ||
        (set.kind === "one-sided" && ("low" in set ? 2 >= set.low : 2 <= set.high));
      if (holds) covered++;
    }
    assertClose(covered / trials, 0.95, 0.0075);
  });

  test("wrong calls", () => {
    expect(() => fiellerRatio({ ...base, denominator: 0, varianceDenominator: 0, covariance: 0 })).toThrow(/no ratio/);
    expect(() => fiellerRatio({ ...base, varianceNumerator: -1 })).toThrow(/0 or more/);
    expect(() => fiellerRatio({ ...base, covariance: 5 })).toThrow(/covariance/);
    expect(() => fiellerRatio({ ...base, degreesOfFreedom: 0 })).toThrow(/above 0/);
    expect(() => fiellerRatio({ ...base, numerator: Number.NaN })).toThrow(/finite/);
    expect(() => fiellerRatio({ ...base, level: 1 })).toThrow(/level/);
  });
});
