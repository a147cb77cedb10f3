import { describe, expect, test } from "vitest";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { assertClose } from "../../agreement.ts";

describe("wrong calls", () => {
  const good = { response: [1, 2, 3, 5], terms: [], random: [{ name: "cook", groups: ["a", "a", "b", "b"] }] };
  test.each([
    ["one observation", { ...good, response: [1] }, /at least 2 values/],
    ["not finite", { ...good, response: [1, 2, 3, Number.NaN] }, /finite/],
    ["lengths", { ...good, response: [1, 2, 3] }, /equally long/],
    ["one group", { ...good, random: [{ name: "cook", groups: ["a", "a", "a", "a"] }] }, /at least 2 groups/],
    ["groups of one", { ...good, random: [{ name: "cook", groups: ["a", "b", "c", "d"] }] }, /2 observations or more/],
    ["no grouping", { ...good, random: [] }, /at least one grouping/],
    ["no variation", { ...good, response: [4, 4, 4, 4] }, /must vary/],
    ["no variation within groups", { ...good, response: [1, 1, 5, 5] }, /vary within groups/],
    [
      "no variation within the finer of two groupings",
      {
        ...good,
        response: [1, 1, 3, 3, 6, 6, 2, 2],
        random: [
          { name: "cook", groups: ["a", "a", "a", "a", "b", "b", "b", "b"] },
          { name: "jar", groups: ["1", "1", "2", "2", "3", "3", "4", "4"] },
        ],
      },
      /vary within groups of "jar"/,
    ],
    [
      "grouping in the fixed part",
      {
        ...good,
        response: [1, 2, 3, 5, 4, 8],
        random: [{ name: "cook", groups: ["a", "a", "b", "b", "c", "c"] }],
        terms: [{ kind: "factor" as const, name: "cook", values: ["a", "a", "b", "b", "c", "c"] }],
      },
      /already account/,
    ],
    [
      "too few observations",
      { ...good, terms: [{ kind: "factor" as const, name: "x", values: ["a", "b", "c", "a"] }] },
      /at least 5 observations/,
    ],
    [
      "the same split twice",
      { ...good, random: [good.random[0]!, { name: "load", groups: ["1", "1", "2", "2"] }] },
      /split the observations alike/,
    ],
  ])("%s", (_, input, message) => {
    expect(() => fitMixedModel(input)).toThrow(RangeError);
    expect(() => fitMixedModel(input)).toThrow(message);
  });
  test("smallest trial: two cooks of two", () => {
    const model = fitMixedModel(good);
    // mean squares 6.25 and 1.25, so 2.5 and 1.25
    assertClose(model.components[0]!.variance, 2.5, 1e-9);
    assertClose(model.residual.variance, 1.25, 1e-9);
  });
  test("a group of one among larger ones is fine", () => {
    const model = fitMixedModel({
      response: [1, 2, 3, 5, 9],
      terms: [],
      random: [{ name: "cook", groups: ["a", "a", "b", "b", "c"] }],
    });
    expect(model.components[0]!.variance).toBeGreaterThan(0);
  });
});

test("documented example: two cooks of two trays", () => {
  const model = fitMixedModel({
    response: [10, 12, 20, 22],
    terms: [],
    random: [{ name: "cook", groups: ["a", "a", "b", "b"] }],
  });
  assertClose(model.components[0]!.variance, 49, 1e-9); // mean squares 100 and 2: (100 - 2) / 2
});
