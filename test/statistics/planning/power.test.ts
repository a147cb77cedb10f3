import { expect, test } from "vitest";
import { anovaDetectableVariance, anovaPower, anovaSampleSize } from "../../../src/statistics/planning/anova-power.ts";
import { clustersPerArm, designEffect, effectiveUnits } from "../../../src/statistics/planning/design-effect.ts";
import {
  tTestDetectableDifference,
  tTestPower,
  tTestSampleSize,
} from "../../../src/statistics/planning/t-test-power.ts";
import { traysPerArm } from "../../../src/statistics/planning/trays-per-arm.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import power from "../../reference/power.json" with { type: "json" };

type Pair = readonly [number, number];
const digits = -Math.log10(power.tolerance.relative);
const source = "R 4.2.2";

test("power, size and detectable difference of t tests", () => {
  const found: Record<"power" | "units" | "difference", Pair[]> = { power: [], units: [], difference: [] };
  for (const row of power.expected.t) {
    const plan = {
      design: row.type.replace(".", "-") as "two-sample" | "one-sample" | "paired",
      sides: row.alternative.replace(".", "-") as "two-sided" | "one-sided",
      significance: row.sigLevel,
      standardDeviation: row.sd,
      countWrongDirection: row.strict,
    };
    const given: Partial<Record<"n" | "delta" | "power", number>> = row.given;
    // every row is read three ways, whichever of the three its source solved for
    found.power.push([tTestPower({ ...plan, n: row.n, difference: row.delta }), row.power]);
    const size = tTestSampleSize({ ...plan, difference: row.delta, power: row.power });
    found.units.push([size.exact, row.n], [size.n, row.nCeil]);
    found.difference.push([tTestDetectableDifference({ ...plan, n: row.n, power: row.power }), row.delta]);
    for (const [name, value] of Object.entries(given)) {
      if (name === "n" || name === "delta" || name === "power") expect(row[name]).toBe(value);
    }
  }
  for (const [statistic, pairs] of Object.entries(found)) {
    expectAgreement({ method: "power of t tests", dataset: "10 plans", statistic, source }, pairs, digits);
  }
});

test("power and size of a one-way analysis of variance", () => {
  const found: Record<"power" | "units" | "variance", Pair[]> = { power: [], units: [], variance: [] };
  for (const row of power.expected.anova) {
    const plan = { groups: row.groups, withinVariance: row.withinVar, significance: row.sigLevel };
    found.power.push([anovaPower({ ...plan, n: row.n, betweenVariance: row.betweenVar }), row.power]);
    const size = anovaSampleSize({ ...plan, betweenVariance: row.betweenVar, power: row.power });
    found.units.push([size.exact, row.n], [size.n, row.nCeil]);
    found.variance.push([anovaDetectableVariance({ ...plan, n: row.n, power: row.power }), row.betweenVar]);
  }
  for (const [statistic, pairs] of Object.entries(found)) {
    expectAgreement({ method: "power of analysis of variance", dataset: "5 plans", statistic, source }, pairs, digits);
  }
});

test("trays per arm at 80 % power, two-sided 5 % (constructed, noncentral t)", () => {
  const cases = [
    [0.15, 0.1, 37],
    [0.15, 0.2, 10],
    [0.2, 0.1, 64],
    [0.2, 0.2, 17],
    [0.25, 0.2, 26],
    [0.26, 0.2, 28],
  ] as const;
  for (const [coefficientOfVariation, relativeDifference, n] of cases) {
    expect(traysPerArm({ coefficientOfVariation, relativeDifference }).n).toBe(n);
  }
});

test("clusters: 24 trays in jars of 8 at a correlation of 0.3 (constructed)", () => {
  assertClose(designEffect(8, 0.3), 3.1, 1e-15);
  assertClose(effectiveUnits(24, 8, 0.3), 7.7, 0.05);
  expect(clustersPerArm(17, 8, 0)).toBe(3);
  expect(clustersPerArm(8, 8, 1)).toBe(8);
  expect(designEffect(1, 0.9)).toBe(1);
});

test("two routes: two arms by t and by F; a paired plan is a one-sample plan; no difference leaves the false-alarm rate", () => {
  const t = tTestPower({ design: "two-sample", n: 7, difference: 1.2, standardDeviation: 1 });
  assertClose(anovaPower({ groups: 2, n: 7, betweenVariance: 1.2 ** 2 / 2, withinVariance: 1 }), t, 1e-13);
  const plan = { n: 9, difference: -0.8, standardDeviation: 1.1 };
  assertClose(tTestPower({ ...plan, design: "paired" }), tTestPower({ ...plan, design: "one-sample" }), 0);
  assertClose(tTestPower({ ...plan, difference: 0, design: "two-sample" }), 0.05, 1e-14);
  assertClose(tTestPower({ ...plan, difference: 0, design: "two-sample", sides: "one-sided" }), 0.05, 1e-14);
  assertClose(anovaPower({ groups: 3, n: 4, betweenVariance: 0, withinVariance: 2 }), 0.05, 1e-13);
  // one-sided plans look for the stated direction only
  expect(tTestPower({ ...plan, design: "one-sample", sides: "one-sided" })).toBeLessThan(0.05);
  expect(tTestSampleSize({ design: "paired", difference: 100, standardDeviation: 1, power: 0.8 })).toEqual({
    n: 2,
    exact: 2,
  });
});

test("wrong calls", () => {
  const plan = { design: "two-sample", standardDeviation: 1 } as const;
  expect(() => tTestPower({ ...plan, n: 1, difference: 1 })).toThrow("n must be 2 or more; received 1");
  expect(() => tTestPower({ ...plan, n: 5, difference: Number.NaN })).toThrow("difference must be a finite number");
  expect(() => tTestPower({ ...plan, standardDeviation: 0, n: 5, difference: 1 })).toThrow(
    "standardDeviation must be a number above 0",
  );
  expect(() => tTestSampleSize({ ...plan, difference: 0, power: 0.8 })).toThrow("must be a number above 0; received 0");
  expect(() => tTestSampleSize({ ...plan, difference: 1, power: 0.04 })).toThrow(
    "power must be above the significance of 0.05",
  );
  expect(() => tTestDetectableDifference({ ...plan, n: 5, power: 1 })).toThrow("power must lie between 0 and 1");
  expect(() => anovaPower({ groups: 1, n: 5, betweenVariance: 1, withinVariance: 1 })).toThrow(
    "groups must be a whole number of 2 or more",
  );
  expect(() => anovaPower({ groups: 3, n: 5, betweenVariance: -1, withinVariance: 1 })).toThrow("received -1");
  expect(() => anovaSampleSize({ groups: 3, betweenVariance: 0, withinVariance: 1, power: 0.8 })).toThrow(
    "betweenVariance must be a number above 0",
  );
  expect(() => anovaDetectableVariance({ groups: 3, n: 1, withinVariance: 1, power: 0.8 })).toThrow(
    "n must be 2 or more",
  );
  expect(() => designEffect(8, -0.5)).toThrow("intraclassCorrelation must lie from");
  expect(() => designEffect(0.5, 0.1)).toThrow("clusterSize must be 1 or more; received 0.5");
  expect(() => effectiveUnits(24, 2, -1)).toThrow("design effect must be above 0");
  expect(() => traysPerArm({ coefficientOfVariation: 0, relativeDifference: 0.1 })).toThrow("coefficientOfVariation");
});
