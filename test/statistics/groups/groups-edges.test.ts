import { expect, test } from "vitest";
import { welchAnova } from "../../../src/statistics/groups/welch-anova.ts";

test("spread between groups only: F is infinite, Welch cannot tell", () => {
  expect(() =>
    welchAnova([
      [1, 1, 1],
      [2, 3],
    ]),
  ).toThrow(/received 1 only in group 1/);
});
