import fc from "fast-check";
import { expect, test } from "vitest";
import {
  biologicalEfficiency,
  impliedDrySubstrate,
  productivity,
  yieldOnWetSubstrate,
} from "../../src/measures/biological-efficiency.ts";
import { dryingRatio, dryingRatioFromMoisture } from "../../src/measures/drying-ratio.ts";
import {
  dryMatter,
  drySubstrate,
  moistureDryBasis,
  moistureWetBasis,
  weightAtMoisture,
} from "../../src/measures/moisture.ts";
import { assertClose, expectAgreement } from "../agreement.ts";

test("implied dry substrate per bag: Scientifica 2020:3950357, Table 2 (yield 910.1, 624.9, 406.8 g; efficiency 105.0, 80.3, 54.1 %)", () => {
  assertClose(impliedDrySubstrate(910.1, 1.05), 866.8, 0.05);
  assertClose(impliedDrySubstrate(624.9, 0.803), 778.2, 0.05);
  // 406.8/0.541 is 751.94; efficiency is printed to 0.1 %, so the loading is known to about 0.1 % of it
  assertClose(impliedDrySubstrate(406.8, 0.541), 752.0, 0.1);
  expectAgreement(
    {
      method: "biological efficiency",
      dataset: "Pleurotus ostreatus on straw",
      statistic: "efficiency of 910.1 g on the loading it implies",
      source: "Scientifica 2020:3950357, Table 2",
    },
    [[biologicalEfficiency(910.1, 866.8), 1.05]],
    3,
  );
});

test("implied dry substrate per bottle: sweet potato trial, doi 10.71254/v57xp625, abstract", () => {
  assertClose(impliedDrySubstrate(18.2, 0.41), 44.4, 0.05);
  assertClose(impliedDrySubstrate(49.6, 0.586), 84.6, 0.05);
});

test("10.14 g on 55 g of as-is solids is 18.4 %: Tra Vinh University J. Science, article 134, abstract", () => {
  assertClose(yieldOnWetSubstrate(10.14, 55), 0.184, 0.0005);
});

test("moisture bases, arithmetic: 60 % wet is 150 % dry, 90 % wet is 900 % dry", () => {
  assertClose(moistureDryBasis(0.6), 1.5, 1e-12);
  assertClose(moistureDryBasis(0.9), 9, 1e-12);
  assertClose(moistureWetBasis(1.5), 0.6, 1e-12);
  assertClose(moistureWetBasis(9), 0.9, 1e-12);
  expect(moistureDryBasis(0)).toBe(0);
});

test("drying at constant dry matter, arithmetic", () => {
  for (const [fresh, dried, grams, ratio] of [
    [0.9, 0.1, 111.1, 9],
    [0.85, 0.1, 166.7, 6],
    [0.92, 0.08, 86.96, 11.5],
  ] as const) {
    assertClose(weightAtMoisture(1000, fresh, dried), grams, 0.05);
    assertClose(dryingRatioFromMoisture(fresh, dried), ratio, 1e-9);
    assertClose(dryingRatio(1000, weightAtMoisture(1000, fresh, dried)), ratio, 1e-9);
  }
  assertClose(weightAtMoisture(100, 0.1, 0) / 0.9, 100, 1e-9);
  assertClose(dryMatter(111.1111, 0.1), 100, 1e-4);
  assertClose(drySubstrate(380, 0.12), 334.4, 1e-9);
  assertClose(drySubstrate(380, 0.12, 20, 0.08), 334.4 + 18.4, 1e-9);
  assertClose(productivity(0.9, 60), 0.015, 1e-12);
});

test("the two moisture bases undo each other, and drying loses no dry matter", () => {
  const moisture = fc.double({ min: 0, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(
      moisture,
      moisture,
      fc.double({ min: 0.01, max: 1e6, noNaN: true }),
      (wet, target, grams) =>
        Math.abs(moistureWetBasis(moistureDryBasis(wet)) - wet) < 1e-12 &&
        Math.abs(dryMatter(weightAtMoisture(grams, wet, target), target) - dryMatter(grams, wet)) <= 1e-9 * grams,
    ),
  );
});

test("wrong amounts are named", () => {
  expect(() => biologicalEfficiency(-1, 100)).toThrow("biologicalEfficiency: freshGrams must be a number of 0 or more");
  expect(() => biologicalEfficiency(1, 0)).toThrow("drySubstrateGrams must be a number above 0; received 0");
  expect(() => biologicalEfficiency(Number.NaN, 1)).toThrow(RangeError);
  expect(() => yieldOnWetSubstrate(1, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  expect(() => impliedDrySubstrate(1, 0)).toThrow(RangeError);
  expect(() => productivity(0.5, 0)).toThrow("productivity: cropDays");
  expect(() => moistureDryBasis(1)).toThrow("share of 0 or more and below 1; received 1");
  expect(() => moistureWetBasis(-0.1)).toThrow(RangeError);
  expect(() => dryMatter(10, 12)).toThrow("dryMatter: moisture");
  expect(() => weightAtMoisture(10, 0.9, 1)).toThrow("targetMoisture");
  expect(() => dryingRatio(10, 0)).toThrow("driedGrams");
  expect(() => dryingRatioFromMoisture(0.1, 0.9)).toThrow("driedMoisture must not be above freshMoisture");
});
