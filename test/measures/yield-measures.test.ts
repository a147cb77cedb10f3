import fc from "fast-check";
import { expect, test } from "vitest";
import { biologicalEfficiency, productivity, yieldOnWetSubstrate } from "../../src/measures/biological-efficiency.ts";
import { dryingRatio } from "../../src/measures/drying-ratio.ts";
import { dryMatter, drySubstrate, weightAtMoisture } from "../../src/measures/moisture.ts";
import { assertClose, expectAgreement } from "../agreement.ts";

test("biological efficiency of three bags: Scientifica 2020:3950357, Table 2, and of two bottles, doi 10.71254/v57xp625, abstract", () => {
  // dry substrate is what the printed yields and efficiencies imply, rounded to 0.1 g
  expectAgreement(
    {
      method: "biological efficiency",
      dataset: "Pleurotus ostreatus on straw and sweet potato",
      statistic: "efficiency on the loading it implies",
      source: "Scientifica 2020:3950357, Table 2; doi 10.71254/v57xp625",
    },
    [
      [biologicalEfficiency(910.1, 866.8), 1.05],
      [biologicalEfficiency(624.9, 778.2), 0.803],
      [biologicalEfficiency(406.8, 752), 0.541],
      [biologicalEfficiency(18.2, 44.4), 0.41],
      [biologicalEfficiency(49.6, 84.6), 0.586],
    ],
    3,
  );
});

test("10.14 g on 55 g of as-is solids is 18.4 %: Tra Vinh University J. Science, article 134, abstract", () => {
  assertClose(yieldOnWetSubstrate(10.14, 55), 0.184, 0.0005);
});

test("drying at constant dry matter, arithmetic", () => {
  for (const [fresh, dried, grams, ratio] of [
    [0.9, 0.1, 111.1, 9],
    [0.85, 0.1, 166.7, 6],
    [0.92, 0.08, 86.96, 11.5],
  ] as const) {
    assertClose(weightAtMoisture(1000, fresh, dried), grams, 0.05);
    assertClose(dryingRatio(1000, weightAtMoisture(1000, fresh, dried)), ratio, 1e-9);
  }
  assertClose(weightAtMoisture(100, 0.1, 0) / 0.9, 100, 1e-9);
  assertClose(dryMatter(111.1111, 0.1), 100, 1e-4);
  assertClose(drySubstrate(380, 0.12), 334.4, 1e-9);
  assertClose(drySubstrate(380, 0.12, 20, 0.08), 334.4 + 18.4, 1e-9);
  assertClose(productivity(0.9, 60), 0.015, 1e-12);
});

test("drying loses no dry matter", () => {
  const moisture = fc.double({ min: 0, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(
      moisture,
      moisture,
      fc.double({ min: 0.01, max: 1e6, noNaN: true }),
      (wet, target, grams) =>
        Math.abs(dryMatter(weightAtMoisture(grams, wet, target), target) - dryMatter(grams, wet)) <= 1e-9 * grams,
    ),
  );
});

test("wrong amounts are named", () => {
  expect(() => biologicalEfficiency(-1, 100)).toThrow("biologicalEfficiency: freshGrams must be a number of 0 or more");
  expect(() => biologicalEfficiency(1, 0)).toThrow("drySubstrateGrams must be a number above 0; received 0");
  expect(() => biologicalEfficiency(Number.NaN, 1)).toThrow(RangeError);
  expect(() => yieldOnWetSubstrate(1, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  expect(() => productivity(0.5, 0)).toThrow("productivity: cropDays");
  expect(() => dryMatter(1, 1)).toThrow("share of 0 or more and below 1; received 1");
  expect(() => dryMatter(10, 12)).toThrow("dryMatter: moisture");
  expect(() => weightAtMoisture(10, 0.9, 1)).toThrow("targetMoisture");
  expect(() => dryingRatio(10, 0)).toThrow("driedGrams");
});
