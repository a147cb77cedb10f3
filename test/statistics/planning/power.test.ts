import { expect, test } from "vitest";
import { designEffect } from "../../../src/statistics/planning/design-effect.ts";
import { assertClose } from "../../agreement.ts";

test("clusters: 24 trays in jars of 8 at a correlation of 0.3 (constructed)", () => {
  assertClose(designEffect(8, 0.3), 3.1, 1e-15);
  expect(designEffect(1, 0.9)).toBe(1);
});

test("wrong calls", () => {
  expect(() => designEffect(8, -0.5)).toThrow("intraclassCorrelation must lie from");
  expect(() => designEffect(0.5, 0.1)).toThrow("clusterSize must be 1 or more; received 0.5");
});
