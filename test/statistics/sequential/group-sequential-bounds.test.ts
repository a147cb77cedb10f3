import { describe, expect, test } from "vitest";
import { crossingProbabilities } from "../../../src/statistics/sequential/crossing-probabilities.ts";
import {
  boundForT,
  groupSequentialBounds,
  groupSequentialPower,
  repeatedInterval,
} from "../../../src/statistics/sequential/group-sequential-bounds.ts";
import { powerSpending } from "../../../src/statistics/sequential/spending-functions.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

const equalLooks = (count: number) => Array.from({ length: count }, (_, k) => (k + 1) / count);

describe("published constants for equally spaced looks, printed to three decimals (from memory)", () => {
  // Jennison and Turnbull 2000, Group Sequential Methods with Applications to Clinical Trials, tables 2.1 and 2.3
  const looks = [1, 2, 3, 4, 5, 10];
  const pocock = {
    0.01: [2.576, 2.772, 2.873, 2.939, 2.986, 3.117],
    0.05: [1.96, 2.178, 2.289, 2.361, 2.413, 2.555],
    0.1: [1.645, 1.875, 1.992, 2.067, 2.122, 2.27],
  };
  const obrienFleming = {
    0.01: [2.576, 2.58, 2.595, 2.609, 2.621, 2.66],
    0.05: [1.96, 1.977, 2.004, 2.024, 2.04, 2.087],
    0.1: [1.645, 1.678, 1.71, 1.733, 1.751, 1.801],
  };
  test.each([
    ["pocock", pocock],
    ["obrien-fleming", obrienFleming],
  ] as const)("%s", (design, table) => {
    for (const [significance, constants] of Object.entries(table)) {
      const ours = looks.map(
        (count) =>
          groupSequentialBounds({
            informationFractions: equalLooks(count),
            design,
            significance: Number(significance),
          }).constant!,
      );
      // half a unit of the third decimal
      for (let k = 0; k < looks.length; k++) assertClose(ours[k]!, constants[k]!, 0.0006);
      expectAgreement(
        {
          method: "group-sequential limits",
          dataset: `${design}, rate ${significance}, 1 to 10 looks`,
          statistic: "constant",
          source: "Jennison and Turnbull 2000, tables 2.1 and 2.3 (from memory)",
        },
        ours.map((value, k) => [value, constants[k]!]),
        3.5,
      );
    }
  });

  test("O'Brien-Fleming at two looks: 2.797, then 1.977", () => {
    const { looks: at } = groupSequentialBounds({ informationFractions: [0.5, 1], design: "obrien-fleming" });
    assertClose(at[0]!.bound, 2.797, 0.0006);
    assertClose(at[1]!.bound, 1.977, 0.0006);
    assertClose(at[1]!.spent, 0.05, 1e-10);
  });

  test("spending functions: Reboussin, DeMets, Kim and Lan 2000, Controlled Clinical Trials 21:190-207 (from memory)", () => {
    const obf = groupSequentialBounds({ informationFractions: equalLooks(5), design: "obrien-fleming-spending" });
    [4.877, 3.357, 2.68, 2.29, 2.031].forEach((bound, k) => {
      assertClose(obf.looks[k]!.bound, bound, 0.0006);
    });
    const pocockLike = groupSequentialBounds({ informationFractions: equalLooks(5), design: "pocock-spending" });
    [2.438, 2.427, 2.41, 2.397, 2.386].forEach((bound, k) => {
      assertClose(pocockLike.looks[k]!.bound, bound, 0.0006);
    });
    const three = groupSequentialBounds({ informationFractions: equalLooks(3), design: "obrien-fleming-spending" });
    [3.71, 2.511, 1.993].forEach((bound, k) => {
      assertClose(three.looks[k]!.bound, bound, 0.0006);
    });
  });

  test("chance of a false alarm with the ordinary 5 % limit at every look: Armitage, McPherson and Rowe 1969, table 2 (from memory)", () => {
    const rates: [number, number][] = [
      [1, 0.05],
      [2, 0.083],
      [3, 0.107],
      [4, 0.126],
      [5, 0.142],
      [10, 0.193],
      [20, 0.248],
    ];
    for (const [count, rate] of rates) {
      const { cumulative } = crossingProbabilities({
        informationFractions: equalLooks(count),
        bounds: new Array(count).fill(1.959963984540054),
      });
      assertClose(cumulative.at(-1)!, rate, 0.0006);
    }
  });
});

test("two looks by another route: the bivariate normal integral", () => {
  // P(|Z1| < b1, |Z2| < b2) with correlation sqrt(t1): one-dimensional midpoint rule over Z1, independent of the recursion
  const [t1, b1, b2] = [0.3, 2.4, 2.0];
  const cdf = (z: number) => {
    // midpoint rule over the density, 10 digits
    const steps = 20000;
    const low = -12;
    const width = (Math.min(z, 12) - low) / steps;
    let sum = 0;
    for (let k = 0; k < steps; k++) sum += Math.exp(-((low + (k + 0.5) * width) ** 2) / 2);
    return (sum * width) / Math.sqrt(2 * Math.PI);
  };
  const steps = 400;
  let inside = 0;
  for (let k = 0; k < steps; k++) {
    const z = -b1 + ((k + 0.5) * 2 * b1) / steps;
    const centre = Math.sqrt(t1) * z;
    const spread = Math.sqrt(1 - t1);
    inside +=
      ((2 * b1) / steps) *
      (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
      (cdf((b2 - centre) / spread) - cdf((-b2 - centre) / spread));
  }
  const { cumulative } = crossingProbabilities({ informationFractions: [t1, 1], bounds: [b1, b2] });
  assertClose(cumulative[1]!, 1 - inside, 2e-6);
});

test("unequal spacing, tiny steps and many looks still spend the rate exactly", () => {
  for (const design of ["pocock", "obrien-fleming", "pocock-spending", "obrien-fleming-spending"] as const) {
    for (const fractions of [[0.1, 0.11, 0.7, 1], [0.02, 1], equalLooks(40)]) {
      const bounds = groupSequentialBounds({ informationFractions: fractions, design });
      const { cumulative } = crossingProbabilities({
        informationFractions: fractions,
        bounds: bounds.looks.map(({ bound }) => bound),
      });
      assertClose(cumulative.at(-1)!, 0.05, 1e-9);
      assertClose(bounds.looks.at(-1)!.spent, 0.05, 1e-9);
    }
  }
});

test("a spending design stopped before full information has spent no more than allowed", () => {
  const part = groupSequentialBounds({ informationFractions: [0.4, 0.6], design: powerSpending(2) });
  assertClose(part.looks[1]!.spent, 0.05 * 0.36, 1e-12);
});

test("power under a drift, and the information saved: one look is the ordinary test", () => {
  const single = groupSequentialBounds({ informationFractions: [1], design: "pocock" });
  // Phi(2.8016 - 1.96) with 2.8016 = z(0.975) + z(0.8): 80 % power by definition
  const { power, expectedInformation } = groupSequentialPower(single, 1.959963984540054 + 0.8416212335729143);
  assertClose(power, 0.8, 1e-6);
  assertClose(expectedInformation, 1, 1e-9);
  const five = groupSequentialBounds({ informationFractions: equalLooks(5), design: "obrien-fleming" });
  // inflation of the maximum size 1.028 at five looks for 80 % power: Jennison and Turnbull 2000, table 2.4 (from memory)
  const inflated = groupSequentialPower(five, Math.sqrt(1.028) * 2.801585218113);
  assertClose(inflated.power, 0.8, 0.0006);
  expect(inflated.expectedInformation).toBeLessThan(0.85);
  assertClose(groupSequentialPower(five, -2).power, groupSequentialPower(five, 2).power, 1e-12);
});

test("limits on t, and repeated intervals", () => {
  assertClose(boundForT(1.959963984540054, Number.POSITIVE_INFINITY), 1.959963984540054, 1e-9);
  // t(0.975, 10) = 2.228139, any t table
  assertClose(boundForT(1.959963984540054, 10), 2.228139, 1e-6);
  const interval = repeatedInterval(3, 2, 1.959963984540054, 10);
  assertClose(interval.low, 3 - 2 * 2.228139, 1e-5);
  assertClose(interval.high, 3 + 2 * 2.228139, 1e-5);
  expect(boundForT(Number.POSITIVE_INFINITY, 5)).toBe(Number.POSITIVE_INFINITY);
});

test("wrong calls", () => {
  expect(() => groupSequentialBounds({ informationFractions: [], design: "pocock" })).toThrow(/at least one look/);
  expect(() => groupSequentialBounds({ informationFractions: [0.5, 0.5], design: "pocock" })).toThrow(/ascending/);
  expect(() => groupSequentialBounds({ informationFractions: [0.5, Number.NaN], design: "pocock" })).toThrow(/finite/);
  expect(() => groupSequentialBounds({ informationFractions: [0.5, 0.9], design: "pocock" })).toThrow(/must be 1/);
  expect(() => groupSequentialBounds({ informationFractions: [0.5, 1.5], design: "pocock-spending" })).toThrow(
    /pass 1/,
  );
  expect(() => groupSequentialBounds({ informationFractions: [1], design: "pocock", significance: 0 })).toThrow(
    /significance/,
  );
  expect(() => groupSequentialBounds({ informationFractions: [0.5, 1], design: (t, a) => a * (1.2 - t) })).toThrow(
    /must not fall/,
  );
  expect(() => crossingProbabilities({ informationFractions: [1], bounds: [-1] })).toThrow(/above 0/);
  expect(() => crossingProbabilities({ informationFractions: [1], bounds: [1, 2] })).toThrow(/per look/);
  expect(() => repeatedInterval(1, 0, 2, 5)).toThrow(/standardError/);
  expect(() => powerSpending(0)).toThrow(/power/);
});
