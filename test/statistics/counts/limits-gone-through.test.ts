import { expect, test } from "vitest";
import { wilsonInterval } from "../../../src/statistics/counts/proportion-interval.ts";
import { assertClose } from "../../agreement.ts";

test("limits of a proportion solve the equation that defines them, for every count of up to 12", () => {
  const quantiles = { 0.9: 1.6448536269514722, 0.95: 1.959963984540054 }; // of the normal: any textbook's table
  for (const [key, z] of Object.entries(quantiles)) {
    const level = Number(key);
    for (let n = 1; n <= 12; n++) {
      for (let x = 0; x <= n; x++) {
        const { proportion, lower, upper } = wilsonInterval(x, n, level);
        expect(proportion).toBe(x / n);
        // Wilson 1927: as far from the observed share as z errors of the limit itself
        for (const p of [lower, upper]) assertClose((x / n - p) ** 2, (z * z * p * (1 - p)) / n, 1e-13);
      }
    }
  }
  // none or all of any number: the limit is 0 or 1 itself, not a rounding away
  for (let n = 1; n <= 400; n++) {
    expect(wilsonInterval(n, n).upper).toBe(1);
    expect(wilsonInterval(0, n).lower).toBe(0);
  }
});
