import { expect, test } from "vitest";
import { scoreLimits } from "../../../src/statistics/counts/proportion-interval.ts";
import { assertClose } from "../../agreement.ts";

test("limits of a proportion solve the equation that defines them, for every count of up to 12", () => {
  const quantiles = { 0.9: 1.6448536269514722, 0.95: 1.959963984540054 }; // of the normal: any textbook's table
  for (const [key, z] of Object.entries(quantiles)) {
    const level = Number(key);
    for (let n = 1; n <= 12; n++) {
      for (let x = 0; x <= n; x++) {
        const { lower, upper } = scoreLimits(x, n, level);
        // Wilson 1927: as far from the observed share as z errors of the limit itself
        for (const p of [lower, upper]) assertClose((x / n - p) ** 2, (z * z * p * (1 - p)) / n, 1e-13);
      }
    }
  }
  // none or all of any number: the limit is 0 or 1 itself, not a rounding away
  for (let n = 1; n <= 400; n++) {
    expect(scoreLimits(n, n, 0.95).upper).toBe(1);
    expect(scoreLimits(0, n, 0.95).lower).toBe(0);
  }
});
