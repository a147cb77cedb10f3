import { expect, test } from "vitest";
import { canonicalAnalysis } from "../../../src/statistics/curves/canonical-analysis.ts";

test("curves", () => {
  const top = canonicalAnalysis({ coefficients: { b0: 0, b1: 2, b2: 4, b11: -1, b22: -1, b12: 0 } });
  expect(top).toMatchObject({ shape: "maximum", stationary: { x1: 1, x2: 2 } });
});
