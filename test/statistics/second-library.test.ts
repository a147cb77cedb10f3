import * as other from "simple-statistics";
import { expect, test } from "vitest";
import { springTrays } from "../../data-samples/demo-book.ts";
import { robustCentre } from "../../src/cleaning/plausibility/robust-centre.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { quantileType7 } from "../../src/statistics/descriptive/quantile.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";

// a second, independent library on the demo's weights: two routes to one answer
const good = springTrays().filter(({ outcome }) => outcome === "good");
const grams = good.map(({ dryGrams }) => dryGrams!);
const doses = good.map(({ doseMillilitres }) => doseMillilitres);

test("summaries agree with simple-statistics", () => {
  expect(mean(grams)).toBeCloseTo(other.mean(grams), 12);
  expect(quantileType7(grams, 0.5)).toBeCloseTo(other.median(grams), 12);
  expect(robustCentre(grams)!.deviation).toBeCloseTo(other.medianAbsoluteDeviation(grams), 12);
});

test("a straight line agrees with simple-statistics", () => {
  const { m, b } = other.linearRegression(doses.map((dose, index) => [dose, grams[index]!]));
  const { coefficients } = linearModel({ response: grams, terms: [{ kind: "number", name: "dose", values: doses }] });
  expect(coefficients.map(({ estimate }) => estimate)).toEqual([expect.closeTo(b, 10), expect.closeTo(m, 11)]);
});
